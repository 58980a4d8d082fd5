/** Freezing, holding and thawing. */
export const FREEZING: Readonly<Record<string, string>> = {
  'Freezing improves nothing; it stops the clocks.': 'La congelación no mejora nada; detiene los relojes.',
  'Freezing does not dry it and does not kill mould. It only gives time, and nobody has published how much is safe.':
    'Congelar no lo seca ni mata el moho. Solo da tiempo, y nadie ha publicado cuánto es seguro.',
  'Frozen to -23 C where the machine can, held at -18 C or colder, with air around the parcels.':
    'Congelado a -23 C donde la máquina pueda, mantenido a -18 C o más frío, con aire alrededor de los paquetes.',
  'Hold at or below -18 C, freeze to -23 C, with bars by material.': 'Mantener a -18 C o menos, congelar a -23 C, con prohibiciones según el material.',
  '-18 C (NPS, UK); -23 C or below (plans); -30 C (UNESCO).': '-18 C (NPS, Reino Unido); -23 C o menos (planes); -30 C (UNESCO).',
  'Freeze to -23 C if the machine can, hold at -18 C or colder; leave air around parcels.': 'Congele a -23 C si la máquina puede, mantenga a -18 C o más frío; deje aire alrededor de los paquetes.',
  'Each piece in its own clear bag or with a barrier between; label outside, for it may be months before anyone opens it.':
    'Cada pieza en su propia bolsa transparente o con una barrera entre ellas; etiqueta por fuera, porque pueden pasar meses antes de que alguien la abra.',
  'Label outside: number, what it is, materials, damage, dyes that move, metal or bone parts.': 'Etiqueta por fuera: número, qué es, materiales, daño, tintes que se corren, partes de metal o hueso.',
  'Folded things are unfolded only when thawed.': 'Lo doblado se desdobla solo cuando está descongelado.',
  'Unfold or unroll only after thawing.': 'Desdoble o desenrolle solo después de descongelar.',
  'No more is thawed than can be dried in the session.': 'No se descongela más de lo que se puede secar en la sesión.',
  'From memory, not verified: pull only what can be dried in that session.': 'De memoria, sin comprobar: sacar solo lo que se puede secar en esa sesión.',
  'Thaw only what this session can dry.': 'Descongele solo lo que se pueda secar en esta sesión.',
  'Fast freezing makes small ice crystals.': 'Congelar rápido forma cristales de hielo pequeños.',
  'As fast and as cold as the machine can: a household freezer may be too slow or too warm.':
    'Tan rápido y tan frío como pueda la máquina: un congelador doméstico puede ser demasiado lento o poco frío.',
  'The type of freezer matters for paper.': 'El tipo de congelador importa para el papel.',
  'A frost-free freezer slowly dries what lies in it, over weeks to months.': 'Un congelador sin escarcha seca despacio lo que guarda, en semanas o meses.',
  'Freezer or waxed paper between layers, few folds.': 'Papel para congelador o encerado entre capas, pocos pliegues.',
  'Inside the Conservator\'s Studio (conservator\'s blog) on freezing textiles.': 'Inside the Conservator\'s Studio (blog de una conservadora) sobre la congelación de textiles.',
  'As few folds as possible, freezer or waxed paper between all layers.': 'Los menos pliegues posibles, papel para congelador o encerado entre todas las capas.',
  'Crates of leather and vellum bindings are filled to three-quarters.': 'Las cajas de encuadernaciones en cuero y vitela se llenan hasta tres cuartos.',
  'Crates of leather and vellum bindings three-quarters full.': 'Cajas de encuadernaciones en cuero y vitela llenas hasta tres cuartos.',
  'Crates of books are filled to nine-tenths at most.': 'Las cajas de libros se llenan hasta nueve décimos como máximo.',
  'a printed salvage chart as quoted by a conservator’s blog.': 'un cuadro de salvamento impreso, citado en el blog de una conservadora.',
  'Crates nine-tenths full at most.': 'Cajas llenas hasta nueve décimos como máximo.',
  'Without a sign of moving dye a cold bath thaws quickly; otherwise at room temperature or cooler.':
    'Sin señal de que el tinte se corra, un baño frío descongela rápido; si no, a temperatura ambiente o más fresco.',
  'Thaw in a cold bath only where no dye moves; otherwise at room temperature or cooler.': 'Descongele en un baño frío solo donde ningún tinte se corre; si no, a temperatura ambiente o más fresco.',
  'Somebody who knows is asked before anything is thawed.': 'Se pregunta a alguien que sepa antes de descongelar algo.',
  'Ask before thawing at all.': 'Pregunte antes de descongelar.',
  'The bag stays shut until the parcel is as warm as the room: condensation feeds mould.':
    'La bolsa queda cerrada hasta que el paquete esté tan templado como la sala: la condensación alimenta el moho.',
  'archivists’ discussion of thawing: a fast warm thaw brings condensation, then mould; pest protocols keep the bag shut.':
    'discusión entre archivistas sobre la descongelación: rápida y en caliente trae condensación y después moho; los protocolos de plagas mantienen cerrada la bolsa.',
  'Keep the bag shut until the parcel is as warm as the room.': 'Mantenga cerrada la bolsa hasta que el paquete esté tan templado como la sala.',
  'No hair dryer, oven or iron on belongings; gentle warmth is for metal only, to 38 C at most.':
    'Nada de secador de pelo, horno ni plancha sobre los objetos; el calor suave es solo para metal, hasta 38 C como máximo.',
  'Metal only, capped at 38 C.': 'Solo metal, hasta 38 C.',
  '32-38 C for metal (Minnesota Historical Society); low-heat dryer for metal (FEMA 2017).': '32-38 C para metal (Minnesota Historical Society); secadora a baja temperatura para metal (FEMA 2017).',
  'Never dry it with a hair dryer, oven, heater or iron.': 'Nunca lo seque con secador de pelo, horno, calefactor ni plancha.',
  'Air moves, but not onto the thing.': 'El aire se mueve, pero no hacia el objeto.',
  'Fans low and turned away from the items.': 'Ventiladores bajos y apuntando a otro lado.',
  'Bleach is for the hall, by the local authority’s text, never for heirlooms, and cleaning chemicals are never mixed.':
    'El cloro es para la sala, según el texto de la autoridad local, nunca para objetos de familia, y los productos de limpieza nunca se mezclan.',
  'Facility surfaces only, by local text.': 'Solo para superficies de la sala, según el texto local.',
  'Dilutions differ: 3/4 cup a gallon (WA DOH); 1 cup to 5 gallons for hard surfaces, 1 cup a gallon for mould (CDC).':
    'Las diluciones difieren: 3/4 de taza por galón (WA DOH); 1 taza en 5 galones para superficies duras, 1 taza por galón para el moho (CDC).',
  'Never use bleach or other disinfectants on it.': 'Nunca use cloro ni otros desinfectantes en él.',
  'Never mix cleaning products: the fumes can kill.': 'Nunca mezcle productos de limpieza: los gases pueden matar.',
  'A true total loss is rare: hold off on discarding.': 'Una pérdida total de verdad es rara: espere antes de tirar algo.',
  'American Institute for Conservation advice on paintings, applied to all belongings.': 'consejo del American Institute for Conservation sobre pinturas, aplicado a todos los objetos.',
  'Throw nothing away by yourself: the owner and the lead decide.': 'No tire nada por su cuenta: deciden el dueño y el responsable.',
};
