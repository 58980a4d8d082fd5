/** What holds for every material. */
export const GENERAL: Readonly<Record<string, string>> = {
  'What has dried is not wetted again: the museum rules hold for it, surface cleaning only.': 'Lo que ya se secó no se vuelve a mojar: valen las reglas de los museos, solo limpieza de la superficie.',
  'Split by the present wet state.': 'Se decide según si está mojado ahora.',
  'Flood practice (Alberta) wet-treated pieces that museums never wash, because they were already soaked.':
    'La práctica de inundación (Alberta) trató con agua piezas que los museos nunca lavan, porque ya estaban empapadas.',
  'Never wash or wet it again without a conservator.': 'Nunca lo lave ni lo moje de nuevo sin un conservador.',
  'Dry dirt is brushed or vacuumed off; the faces of photographs, paintings and painted or collected things are left alone.':
    'La suciedad seca se cepilla o se aspira; no se toca la cara de fotografías, pinturas ni objetos pintados o de colección.',
  'Our own calibration: surface cleaning is what remains when washing is barred.': 'Calibración propia: cuando no se puede lavar, queda la limpieza de la superficie.',
  'A dry thing without active mould needs no freezer and no tub.': 'Un objeto seco sin moho activo no necesita congelador ni cubeta.',
  'Our own calibration: freezing stops a clock that is not running.': 'Calibración propia: congelar detiene un reloj que no está corriendo.',
  'A dry thing with active mould may go to the freezer if its material allows.': 'Un objeto seco con moho activo puede ir al congelador si su material lo permite.',
  'It is frozen, or dried here: its clocks have stopped. Freezing only pauses them until the thaw.':
    'Está congelado, o se secó aquí: sus relojes se han detenido. La congelación solo los pausa hasta que se descongele.',
  'Nobody has said whether it is wet: the clocks of wet things run, and it is looked at before any water.':
    'Nadie ha dicho si está mojado: corren los relojes de lo mojado, y se examina antes de ponerle agua.',
  'Our own calibration: the cautious side of both: fast for wet, no water for dry.': 'Calibración propia: el lado prudente de ambos: rápido por si está mojado, sin agua por si está seco.',
  'If it turns out dry, it is not wetted.': 'Si resulta que está seco, no se moja.',
  'The material is not known: it is handled as the most delicate, neither washed nor frozen, and looked at first.':
    'No se sabe de qué material es: se maneja como lo más delicado, ni se lava ni se congela, y primero se examina.',
  'Our own calibration: the cautious side of every material rule.': 'Calibración propia: el lado prudente de cada regla de materiales.',
  'Never wash, freeze or take it apart before someone has said what it is.': 'Nunca lo lave, congele ni desarme antes de que alguien haya dicho qué es.',
  'It might stick together within hours: someone looks at it within six.': 'Podría pegarse en pocas horas: alguien lo examina antes de seis.',
  'Our own calibration: the coated-paper clock for what might be coated paper.': 'Calibración propia: el reloj del papel estucado para lo que podría ser papel estucado.',
  'Weak, or nobody has judged its strength: full support in every move.': 'Es débil, o nadie ha juzgado su resistencia: apoyo completo en cada movimiento.',
  'Carry it on a support; do not pull.': 'Llévelo sobre un soporte; no tire de él.',
  'Very degraded: a conservator before hands.': 'Muy degradado: un conservador antes que las manos.',
  'Our own calibration: the textile rule, carried to other materials.': 'Calibración propia: la regla de los textiles, llevada a otros materiales.',
  'Colour that has been seen to move moves again in water.': 'El color que ya se vio correr vuelve a correrse en el agua.',
  'Never wet again a thing whose colour has moved.': 'Nunca vuelva a mojar un objeto cuyo color se ha corrido.',
  'High market value: a conservator decides.': 'Alto valor de mercado: decide un conservador.',
  'Our own calibration: care guidance section 9 no. 14: anything of high market value is deferred to a conservator.':
    'Calibración propia: guía de cuidados, sección 9, n.º 14: todo lo de alto valor de mercado se deja a un conservador.',
  'Take no step that cannot be undone before a conservator has answered.': 'No dé ningún paso que no se pueda deshacer antes de que haya respondido un conservador.',
  'Nobody has asked whether it is valuable.': 'Nadie ha preguntado si es valioso.',
  'Our own calibration: the cautious side.': 'Calibración propia: el lado prudente.',
  'Ask whether it is valuable before any step that cannot be undone. Valuation itself is for a licensed person.':
    'Pregunte si es valioso antes de cualquier paso que no se pueda deshacer. La tasación es cosa de una persona con licencia.',
  'A specialist may always be asked.': 'Siempre se puede preguntar a un especialista.',
  'Our own calibration: referral is the way out when every other way is barred.': 'Calibración propia: enviarlo a un especialista es la salida cuando todas las demás vías están cerradas.',
};
