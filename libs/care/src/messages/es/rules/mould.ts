/** Mould and its clocks. */
export const MOULD: Readonly<Record<string, string>> = {
  'Drying or freezing begins within 48 hours of wetting, with a warning at 24: a rule of practice, not a promise.':
    'El secado o la congelación empieza antes de que pasen 48 horas desde que se mojó, con aviso a las 24: una regla práctica, no una promesa.',
  '48 h deadline, 24 h warning, configurable.': 'Plazo de 48 h, aviso a las 24 h, configurable.',
  '24-48 h (FEMA); 48-72 h (AMNH); 2-3 days (UK pocket guide).': '24-48 h (FEMA); 48-72 h (AMNH); 2-3 días (guía de bolsillo del Reino Unido).',
  'In warm air the short end of the band counts: 24 hours. Cool air never lengthens the clock.': 'Con aire caliente vale el extremo corto del margen: 24 horas. El aire fresco nunca alarga el reloj.',
  'Our own calibration: sources call the time temperature-dependent without a formula; the short end of the FEMA band is used.':
    'Calibración propia: las fuentes dicen que el tiempo depende de la temperatura, sin fórmula; se usa el extremo corto del margen de FEMA.',
  'Mould does not live on glaze, glass, stone or metal itself: no mould clock runs, but soil on them is washed off.':
    'El moho no vive sobre el esmalte, el vidrio, la piedra ni el metal mismos: no corre reloj de moho, pero se lava la suciedad que tengan.',
  'Our own calibration: the sources put these things last and name no mould time for them.': 'Calibración propia: las fuentes ponen estas cosas al final y no les dan un tiempo de moho.',
  'Nobody knows when it got wet: the beginning of the flood counts.': 'Nadie sabe cuándo se mojó: cuenta el comienzo de la inundación.',
  'Active mould (soft, smears), or mould that is suspected or has had its time unseen, is isolated at once.':
    'El moho activo (blando, se embarra), o el moho que se sospecha o que tuvo su tiempo sin que nadie mirara, se aísla de inmediato.',
  'Our own calibration: sources call for isolation without an hour; "at once" is ours.': 'Calibración propia: las fuentes piden aislar sin dar una hora; "de inmediato" es nuestro.',
  'Bag it before moving it; keep it in quarantine.': 'Póngalo en bolsa antes de moverlo; manténgalo en cuarentena.',
  'Never share a bath, table or box with things free of mould.': 'Nunca comparta baño, mesa ni caja con cosas sin moho.',
  'Moving air carries the spores of active mould to people and to other things.': 'El aire en movimiento lleva las esporas del moho activo a las personas y a otras cosas.',
  'No fan near it: moving air spreads mould.': 'Ningún ventilador cerca: el aire en movimiento esparce el moho.',
  'From memory, not verified: fans are kept off near active mould.': 'De memoria, sin comprobar: cerca del moho activo los ventiladores se mantienen apagados.',
  'Freezing puts mould to sleep; it neither kills nor dries.': 'La congelación adormece el moho; ni lo mata ni seca.',
  'Soft mould smears in water: dried first, then taken off.': 'El moho blando se embarra en el agua: primero se seca, después se quita.',
  'Smith mould and pest protocol for collections, as read in a copy: active mould is soft and smears, inactive brushes off.':
    'Protocolo de moho y plagas para colecciones de Smith, leído en una copia: el moho activo es blando y se embarra, el inactivo se quita con cepillo.',
  'Never wipe or brush soft mould.': 'Nunca limpie ni cepille moho blando.',
  'Dead mould still harms and is taken off.': 'El moho muerto también hace daño y se quita.',
  'Any mould: N95, gloves and eye protection.': 'Con cualquier moho: N95, guantes y protección para los ojos.',
  'People who declared that they do not work with mould, and anyone under age, are not assigned.': 'No se asigna a las personas que declararon que no trabajan con moho ni a ningún menor de edad.',
  'Ask for restrictions, never for a diagnosis.': 'Pregunte por restricciones, nunca por un diagnóstico.',
  'A mouldy parcel at the freezer is still a mouldy parcel.': 'Un paquete con moho en el congelador sigue siendo un paquete con moho.',
  'Our own calibration: the mould restriction carried to the freezer.': 'Calibración propia: la restricción del moho llevada al congelador.',
  'More than about 100 sq ft (9.3 m2) of mould, or heavy disturbance, is for professionals.': 'Más de unos 100 pies cuadrados (9.3 m2) de moho, o removerlo mucho, es cosa de profesionales.',
  'From memory, not verified: full-face P100, coverall and full containment above the large EPA area band (the bands pick techniques, they are not health limits).':
    'De memoria, sin comprobar: respirador de cara completa P100, overol y contención completa por encima del margen de superficie grande de EPA (los márgenes eligen técnicas, no son límites de salud).',
  'Much mould or heavy disturbance: full-face respirator, coverall, containment: professionals.': 'Mucho moho o removerlo mucho: respirador de cara completa, overol, contención: profesionales.',
  'Wearing a respirator has its law: information for voluntary N95 use; fit test and medical evaluation where it is required.':
    'Usar un respirador tiene su ley: información para el uso voluntario de N95; prueba de ajuste y evaluación médica donde es obligatorio.',
  'Respirators follow local law; a tight one needs medical fitness and a fit test, and an N95 is no gas mask.':
    'Los respiradores siguen la ley local; uno ajustado necesita aptitud médica y prueba de ajuste, y un N95 no es una máscara de gas.',
  'Mould protection is hot.': 'La protección contra el moho da calor.',
  'Our own calibration: protection and heat limits are judged together.': 'Calibración propia: la protección y los límites de calor se juzgan juntos.',
  'Protective clothing raises the heat load: shorter turns; stopping beats finishing.': 'La ropa de protección aumenta la carga de calor: turnos más cortos; parar es mejor que terminar.',
  'Nobody has looked for mould yet.': 'Nadie ha mirado todavía si hay moho.',
  'Our own calibration: the cautious side of the mould rules.': 'Calibración propia: el lado prudente de las reglas del moho.',
  'Wear an N95 mask while you look for mould, before you open folds. If you see mould or are not sure, keep it on.': 'Use mascarilla N95 mientras mira si hay moho, antes de abrir pliegues. Si ve moho o no está seguro, no se la quite.',
  'Heirlooms are not put in the sun.': 'Los objetos de familia no se ponen al sol.',
  'No sun for heirlooms.': 'Nada de sol para los objetos de familia.',
  'One conservator’s household guide says sun helps with crusted mould.': 'Una guía doméstica de conservadores dice que el sol ayuda con el moho en costra.',
  'Never dry it in the sun.': 'Nunca lo seque al sol.',
};
