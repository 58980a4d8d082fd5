/** What a household is told, and what stands under reports and lists. */
export const HOUSEHOLDS: Readonly<Record<string, string>> = {
  'Figures of this moment. Times by which handling should start are rules of practice; a trained lead decides, and nobody is promised an outcome.':
    'Cifras de este momento. Los plazos para empezar son reglas prácticas; decide una persona responsable con formación, y a nadie se le promete un resultado.',
  'We do what we can and tell you honestly how it stands. First aid stabilises; it does not restore, and we cannot promise an outcome.':
    'Hacemos lo que podemos y le decimos con franqueza cómo está todo. Los primeros auxilios estabilizan; no restauran, y no podemos prometer un resultado.',
  'It is with us and waits for its next step.': 'Está con nosotros y espera su próximo paso.',
  'Someone is working on it now.': 'Alguien está trabajando en él ahora.',
  'It is drying.': 'Se está secando.',
  'It is kept wet on purpose until the right people can treat it.': 'Se mantiene mojado a propósito hasta que puedan tratarlo las personas adecuadas.',
  'It is frozen, which stops further damage until it can be treated.': 'Está congelado, lo que detiene más daños hasta que se pueda tratar.',
  'It is with a specialist.': 'Está con un especialista.',
  'It was released as you agreed.': 'Nos desprendimos de él, como usted acordó.',
  'It was handed back.': 'Ya se devolvió.',
  'It was on our list twice by mistake; it goes on under the other tag.': 'Estaba dos veces en nuestra lista por error; sigue con la otra etiqueta.',
  'It waits for your decision; please speak with us.': 'Espera su decisión; por favor, hable con nosotros.',
  'Advice to a trained lead, who may decide otherwise with a recorded reason. Times are rules of practice, never promises; first aid stabilises and does not restore. Protection and safety come before speed.':
    'Consejos para una persona responsable con formación, que puede decidir otra cosa si deja constancia del motivo. Los plazos son reglas prácticas, nunca promesas; los primeros auxilios estabilizan y no restauran. La protección y la seguridad van antes que la rapidez.',
  'Expected times are reckoned from the present air of the room and are uncertain by a third and more. Touch and weigh before taking anything down, and check for mould.':
    'Los tiempos previstos se calculan con el aire actual de la sala y tienen una incertidumbre de un tercio o más. Antes de descolgar algo, tóquelo y péselo, y revise si tiene moho.',
  'These periods are numbers of ours that your network sets. They are no advice about the law: how long records must be kept, and how long they may be, is for your own counsel to say. What is under a legal hold, still with us or still open stays. What goes cannot be brought back.':
    'Estos plazos son cifras nuestras que su red ajusta. No son consejo jurídico: cuánto tiempo deben guardarse los registros, y cuánto pueden guardarse, lo dice su propio asesor jurídico. Lo que está bajo retención legal, lo que sigue con nosotros o sigue abierto se queda. Lo que se borra no se puede recuperar.',
};
