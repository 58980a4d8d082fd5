/** Dyes and colour tests. */
export const TEXTILE_DYES: Readonly<Record<string, string>> = {
  'Dye that moves keeps moving while the cloth is wet: a conservator at once.': 'El tinte que se corre sigue corriéndose mientras la tela está mojada: un conservador de inmediato.',
  'Until then: layers kept apart, no water added, dried as fast as is safe under a clean cloth that draws the dye outward.':
    'Hasta entonces: capas separadas, sin añadir agua, secado tan rápido como sea seguro bajo una tela limpia que saque el tinte hacia afuera.',
  'Never rinse it together with anything else.': 'Nunca lo enjuague junto con otra cosa.',
  'Never fold it on itself without a barrier.': 'Nunca lo doble sobre sí mismo sin una barrera.',
  'Never leave it to dry slowly while folded.': 'Nunca lo deje secarse despacio mientras está doblado.',
  'Barrier between all layers; clean cloth on its upper side, changed as it takes dye.': 'Una barrera entre todas las capas; tela limpia sobre el lado de arriba, que se cambia cuando se mancha de color.',
  'A bleeding textile that cannot be treated is frozen singly, interleaved.': 'Un textil cuyo tinte se corre y que no se puede tratar se congela solo, con las capas intercaladas.',
  'Inside the Conservator\'s Studio (conservator\'s blog) on freezing textiles: paper between every layer stops dye transfer.':
    'Inside the Conservator\'s Studio (blog de una conservadora) sobre la congelación de textiles: papel entre todas las capas detiene el paso del tinte.',
  'Wrap singly, freezer or waxed paper between every layer, as few folds as possible.': 'Envuélvalo por separado, con papel para congelador o encerado entre todas las capas y los menos pliegues posibles.',
  'Bleeding dyes are beyond first aid: a conservator decides on water.': 'Los tintes que se corren están más allá de los primeros auxilios: sobre el agua decide un conservador.',
  'The dye moves: ask a conservator before any water touches it.': 'El tinte se corre: pregunte a un conservador antes de que lo toque el agua.',
  'Any dye on the swab stops the rinse, and a thing that has bled is not tested again but handled as bleeding.':
    'Cualquier tinte en el hisopo detiene el enjuague, y lo que ya sangró no se prueba de nuevo, sino que se maneja como tinte que se corre.',
  'Grey-scale grade 5 may be rinsed; 4-5 is rinsed alone, cold and watched; 4 or worse counts as bleeding.':
    'El grado 5 de la escala de grises se puede enjuagar; 4-5 se enjuaga solo, en frío y vigilado; 4 o peor cuenta como tinte que se corre.',
  '5 rinse, 4-5 alone, 4 or worse refer.': '5 enjuagar, 4-5 solo, 4 o peor enviar a un especialista.',
  'The apparel trade commonly accepts 3-4 or 4 (from memory); NPS stops at any transfer.': 'La industria de la confección suele aceptar 3-4 o 4 (de memoria); NPS para ante cualquier transferencia.',
  'Our own calibration: no conservation source sets a pass grade on the ISO 105-A03 scale; this mapping is a proposal.':
    'Calibración propia: ninguna fuente de conservación fija un grado de aprobación en la escala ISO 105-A03; esta correspondencia es una propuesta.',
  'A trace on the white cloth (4-5): rinsed alone, cold, and watched.': 'Un rastro en la tela blanca (4-5): se enjuaga solo, en frío y vigilado.',
  'Our own calibration: field mapping of grade 4-5.': 'Calibración propia: correspondencia de campo del grado 4-5.',
  'Alone in its bath, cold, and out at the first colour in the water.': 'Solo en su baño, en frío, y fuera al primer color en el agua.',
  'Not every colour and repair thread has passed a test: the route starts with the colour test.':
    'No todos los colores e hilos de reparación han pasado una prueba: la vía empieza con la prueba de color.',
  'Never rinse before every colour, repair fabric and thread is tested.': 'Nunca enjuague antes de probar cada color, cada tela de reparación y cada hilo.',
  'Swab every colour, repair fabric and thread; backings and sewing threads too. The test is not foolproof.':
    'Pruebe con hisopo cada color, cada tela de reparación y cada hilo; también los forros y los hilos de costura. La prueba no es infalible.',
  'Untested dye may be moving already: test within the day.': 'El tinte sin probar puede estar corriéndose ya: pruébelo dentro del día.',
  'Our own calibration: between "at once" for bleeding and 48 h for fast dyes, so that tests are spent before rinses.':
    'Calibración propia: entre "de inmediato" para lo que se corre y 48 h para tintes firmes, de modo que las pruebas se gasten antes que los enjuagues.',
  'The swab test is one sign among several: the rinse water is watched.': 'La prueba del hisopo es una señal entre varias: se vigila el agua de enjuague.',
  'If the water colours: out at once, blot, lay flat, report that the dye moved.': 'Si el agua toma color: fuera de inmediato, absorba el agua, póngalo plano, avise que el tinte se corrió.',
};
