/** Consent, keeping and letting go. */
export const CONSENT: Readonly<Record<string, string>> = {
  'Water, towels and brushes need the owner’s yes; so does holding it wet.': 'Agua, toallas y cepillos necesitan el sí del dueño; mantenerlo mojado también.',
  'Our own calibration: item-level consent is this project’s rule; conservators ask it, no source fixes the form.':
    'Calibración propia: el consentimiento objeto por objeto es regla de este proyecto; los conservadores lo piden, ninguna fuente fija la forma.',
  'owner’s consent to treat': 'consentimiento del dueño para tratarlo',
  'The owner has said no to treatment.': 'El dueño ha dicho que no al tratamiento.',
  'a new decision of the owner, who has said no to treatment': 'una nueva decisión del dueño, que ha dicho que no al tratamiento',
  'Freezing may last for months: the owner is told and agrees.': 'La congelación puede durar meses: se le dice al dueño y él está de acuerdo.',
  'owner’s consent to freeze': 'consentimiento del dueño para congelarlo',
  'The owner has said no to freezing.': 'El dueño ha dicho que no a la congelación.',
  'a new decision of the owner, who has said no to freezing': 'una nueva decisión del dueño, que ha dicho que no a la congelación',
  'It leaves the hall only with the owner’s yes, and with a limit of cost.': 'Solo sale de la sala con el sí del dueño y con un límite de costo.',
  'owner’s consent to refer': 'consentimiento del dueño para enviarlo a un especialista',
  'The owner has said no to a referral.': 'El dueño ha dicho que no a enviarlo a un especialista.',
  'a new decision of the owner, who has said no to a referral': 'una nueva decisión del dueño, que ha dicho que no a enviarlo a un especialista',
  'Nothing is let go without the owner’s recorded agreement, item by item, with the photograph kept.':
    'No nos desprendemos de nada sin el acuerdo registrado del dueño, objeto por objeto, y se conserva la fotografía.',
  'owner’s recorded agreement to let it go': 'acuerdo registrado del dueño para desprenderse del objeto',
  'The owner keeps it: letting it go is not offered.': 'El dueño se lo queda: no se ofrece desprenderse de él.',
  'The owner has agreed that it may be let go; that stands behind every way of saving it.': 'El dueño acepta que nos desprendamos de él; eso queda por detrás de toda manera de salvarlo.',
  'Porous heirlooms from flood or sewage water: public health would discard, heritage guidance would save. They are taken in only with a named owner’s consent, given in that knowledge, and kept isolated.':
    'Objetos porosos de familia que estuvieron en agua de inundación o aguas negras: la salud pública los tiraría, las guías de patrimonio los salvarían. Solo se reciben con el consentimiento de un dueño identificado, dado sabiendo esto, y se mantienen aislados.',
  'Owner’s consent and isolation; never silent.': 'Consentimiento del dueño y aislamiento; nunca en silencio.',
  'Discard (CDC, FEMA 2023); salvage and freeze (NPS, NEDCC, FEMA/HENTF).': 'Tirarlos (CDC, FEMA 2023); salvarlos y congelarlos (NPS, NEDCC, FEMA/HENTF).',
  'Our own calibration: acceptance only with named consent and isolation is our proposal between the sources.':
    'Calibración propia: recibirlos solo con consentimiento identificado y aislamiento es nuestra propuesta entre las fuentes.',
  'named owner’s consent to keep a porous heirloom from contaminated water': 'consentimiento de un dueño identificado para conservar un objeto poroso de familia que estuvo en agua contaminada',
  'The same knowledge belongs to the consent to freeze a porous heirloom from flood or sewage water.':
    'El consentimiento para congelar un objeto poroso de familia que estuvo en agua de inundación o aguas negras se da sabiendo lo mismo.',
  'A porous thing from flood or sewage water stays isolated until it is cleaned and dry.': 'Un objeto poroso que estuvo en agua de inundación o aguas negras queda aislado hasta que esté limpio y seco.',
  'Isolate it from clean things until cleaned and dry; tell the family what remains unknown.': 'Aíslelo de lo limpio hasta que esté limpio y seco; diga a la familia lo que sigue sin saberse.',
};
