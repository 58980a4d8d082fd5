/** Paintings, wood, furniture and instruments. */
export const PAINTINGS_AND_WOOD: Readonly<Record<string, string>> = {
  'A wet painting is dried under control at once, by a conservator: damage comes in minutes to hours.':
    'Una pintura mojada la seca de inmediato y bajo control un conservador: el daño llega en minutos u horas.',
  'At once.': 'De inmediato.',
  'Within 48 hours (salvage charts).': 'Antes de 48 horas (cuadros de salvamento).',
  'Paintings, wet or dry, belong to a conservator.': 'Las pinturas, mojadas o secas, son cosa de un conservador.',
  'Never peel facing tissue or loose paint.': 'Nunca despegue papel de protección ni pintura suelta.',
  'Painting: leave it on its stretcher and touch no paint, ask a conservator at once.': 'Pintura: déjela en su bastidor y no toque la capa pictórica, pregunte de inmediato a un conservador.',
  'Until the conservator comes the painting is out of its frame, on its stretcher, blotted from the back only.':
    'Hasta que llegue el conservador, la pintura está fuera de su marco, en su bastidor, y se le absorbe el agua solo por detrás.',
  'Never take a canvas off its stretcher or strainer.': 'Nunca quite un lienzo de su bastidor.',
  'Out of the frame, left on its stretcher; blot from the back only.': 'Fuera del marco, en su bastidor; absorba el agua solo por detrás.',
  'Plain air drying may make the paint flake: ask first, dry only what nobody can come for.':
    'El simple secado al aire puede hacer que la pintura se descame: pregunte primero, seque solo aquello por lo que nadie puede venir.',
  'Whether a wet painting lies face up or face down is the conservator’s choice, and is recorded.': 'Si una pintura mojada queda boca arriba o boca abajo lo elige el conservador, y se anota.',
  'A conservator chooses; the choice is recorded.': 'Lo elige un conservador; la elección se anota.',
  'Drained and face up (salvage chart); face down on a padded bed and carried upright (Minnesota Historical Society); plain air drying unsuitable (CCI).':
    'Escurrida y boca arriba (cuadro de salvamento); boca abajo sobre una base acolchada y llevada de pie (Minnesota Historical Society); el simple secado al aire no conviene (CCI).',
  'Our own calibration: sources disagree on the posture; the choice is left to a conservator.': 'Calibración propia: las fuentes no coinciden en la posición; la elección se deja a un conservador.',
  'Ask the conservator whether it lies face up or face down, and write down the answer.': 'Pregunte al conservador si va boca arriba o boca abajo, y anote la respuesta.',
  'Paintings are never frozen.': 'Las pinturas nunca se congelan.',
  'Never freeze a painting.': 'Nunca congele una pintura.',
  'A painting that looks ruined seldom is.': 'Una pintura que parece arruinada rara vez lo está.',
  'Discard no painting and no flake of it: total loss is rare.': 'No tire ninguna pintura ni ninguna escama de ella: la pérdida total es rara.',
  'Painted, polychrome or gilded wood: at once, to a conservator of objects.': 'Madera pintada, policromada o dorada: de inmediato, a un conservador de objetos.',
  'Paint and gilding are not wiped.': 'La pintura y el dorado no se frotan.',
  'Never wipe paint or gilding.': 'Nunca frote pintura ni dorado.',
  'Painted or gilded wood: leave the surface alone, ask a conservator of objects at once.': 'Madera pintada o dorada: no toque la superficie, pregunte de inmediato a un conservador de objetos.',
  'Until the conservator comes it may dry slowly, untouched; it is not frozen.': 'Hasta que llegue el conservador puede secarse despacio, sin tocarla; no se congela.',
  'Our own calibration: guidance says only refer; slow drying untouched is our fallback, and painted pieces are not frozen without advice.':
    'Calibración propia: la guía dice solo enviarla a un especialista; secarla despacio sin tocarla es nuestro recurso, y lo pintado no se congela sin consejo.',
  'Slowly, nothing touching the paint, away from sun, heat and fans.': 'Despacio, sin que nada toque la pintura, lejos de sol, calor y ventiladores.',
  'Wood is begun early and finished slowly.': 'La madera se empieza pronto y se termina despacio.',
  'Begun within 24 hours, finished slowly.': 'Se empieza antes de 24 horas, se termina despacio.',
  'Within 48 hours.': 'Antes de 48 horas.',
  'Begin early, dry slowly: down to 50-55 % relative humidity, never forced.': 'Empiece pronto, seque despacio: hasta 50-55 % de humedad relativa, nunca forzado.',
  'Solid wood is sponged or rinsed free of mud, blotted and dried slowly; thoroughly wet unpainted wood is wrapped in blotter and then polythene.':
    'A la madera maciza se le quita el barro con esponja o enjuague, se le absorbe el agua y se seca despacio; la madera sin pintar muy mojada se envuelve en papel secante y después en polietileno.',
  'Never scour wood with grit.': 'Nunca friegue la madera con arenilla.',
  'Never dry wood in sun or heat, or with a fan blowing on it.': 'Nunca seque madera al sol ni con calor, ni con un ventilador soplando encima.',
  'Sponge or rinse the mud off, blot dry.': 'Quite el barro con esponja o enjuague, absorba el agua hasta que no gotee.',
  'Thoroughly wet unpainted wood: blotter round it, then polythene.': 'Madera sin pintar muy mojada: papel secante alrededor, después polietileno.',
  'Small wooden things may be frozen.': 'Los objetos pequeños de madera se pueden congelar.',
  'Wet furniture comes apart where it is lifted wrongly.': 'Los muebles mojados se desarman si se levantan mal.',
  'Lift tables by the apron, chairs by the seat rail, trunks from below.': 'Levante las mesas por el faldón, las sillas por el travesaño del asiento, los baúles desde abajo.',
  'Veneer, inlay and instruments belong to the salvage-priority class: their glue softens, joints open and veneer lifts; they dry slowly.':
    'Chapas, incrustaciones e instrumentos son prioritarios en el rescate: su cola se ablanda, las uniones se abren y la chapa se levanta; se secan despacio.',
  'Never force a stuck drawer.': 'Nunca fuerce un cajón atascado.',
  'Hide and fish glue soften: joints open and veneer lifts.': 'La cola animal se ablanda: las uniones se abren y la chapa se levanta.',
  'Glued wood is started within the day.': 'La madera encolada se empieza dentro del día.',
  'Our own calibration: the source calls it a priority class without an hour; 24 h is ours.': 'Calibración propia: la fuente la llama prioritaria sin dar una hora; las 24 h son nuestras.',
  'Veneer is held down while it dries.': 'La chapa se sujeta mientras se seca.',
  'From memory, not verified: slow dry, hold veneer with light weight.': 'De memoria, sin comprobar: secar despacio, sujetar la chapa con poco peso.',
  'Hold lifting veneer with a light weight.': 'Sujete con poco peso la chapa que se levanta.',
  'A maker or conservator of instruments is asked before anything is loosened.': 'Se pregunta a un fabricante o conservador de instrumentos antes de aflojar algo.',
  'Our own calibration: instruments carry tension and glue; no source gives steps for untrained hands.':
    'Calibración propia: los instrumentos tienen tensión y cola; ninguna fuente da pasos para manos sin formación.',
  'Loosen or open nothing on an instrument before its maker or a conservator has been asked.': 'No afloje ni abra nada en un instrumento antes de haber preguntado a su fabricante o a un conservador.',
  'No guidance was found for freezing furniture or instruments; they are not frozen.': 'No se encontró ninguna guía para congelar muebles ni instrumentos; no se congelan.',
  'Our own calibration: silence of the sources read as no; only small wood and show fabric are named.':
    'Calibración propia: el silencio de las fuentes leído como un no; solo nombran la madera pequeña y la tela exterior.',
  'Never freeze furniture or instruments.': 'Nunca congele muebles ni instrumentos.',
  'Upholstery dries slowly: cotton stuffing is let go, horsehair is usually kept, and the show fabric may be frozen.':
    'La tapicería se seca despacio: el relleno de algodón se descarta, el de crin suele conservarse, y la tela exterior se puede congelar.',
  'Only the show fabric may be frozen.': 'Solo se puede congelar la tela exterior.',
  'Cotton stuffing is let go with the owner’s yes; horsehair is usually kept.': 'El relleno de algodón se descarta con el sí del dueño; el de crin suele conservarse.',
  'Upholstered furniture that lay in flood water and means nothing special is on the discard lists; the owner decides.':
    'Los muebles tapizados que estuvieron en agua de inundación y no significan nada especial están en las listas de descarte; decide el dueño.',
  'Letting go is offered first where it means nothing special, and the owner decides; never silent.':
    'Donde no significa nada especial se ofrece primero desprenderse de él, y decide el dueño; nunca en silencio.',
  'Public-health lists (CDC) discard upholstered furniture from flood water.': 'Las listas de salud pública (CDC) descartan los muebles tapizados que estuvieron en agua de inundación.',
  'Public-health lists discard upholstered furniture from flood water; the owner decides.':
    'Las listas de salud pública descartan los muebles tapizados que estuvieron en agua de inundación; decide el dueño.',
};
