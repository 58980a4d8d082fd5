/** Textiles by construction. */
export const TEXTILE_CONSTRUCTIONS: Readonly<Record<string, string>> = {
  'A hat or shoe is blotted, padded out with absorbent filling and dried on its support.':
    'A un sombrero o zapato se le absorbe el agua, se rellena con material absorbente y se seca sobre su soporte.',
  'Never hang a wet hat or shoe.': 'Nunca cuelgue un sombrero o zapato mojado.',
  'Pad it out with absorbent filling; tag every part that comes off.': 'Rellénelo con material absorbente; etiquete cada parte que se desprenda.',
  'Knits, bias-cut and lined garments distort and shrink unevenly: blotted, blocked to shape flat, and dried; a conservator is asked before water.':
    'Las prendas de punto, cortadas al bies o forradas se deforman y encogen de modo desigual: se absorbe el agua, se les da forma en plano y se secan; antes de usar agua se pregunta a un conservador.',
  'Never hang a knitted, bias-cut or lined garment.': 'Nunca cuelgue una prenda de punto, cortada al bies o forrada.',
  'Never rinse a knitted, bias-cut or lined garment before a conservator has answered.': 'Nunca enjuague una prenda de punto, cortada al bies o forrada antes de que haya respondido un conservador.',
  'Block it to shape, flat; lining and cover shrink differently.': 'Dele forma en plano; el forro y la tela exterior encogen de modo distinto.',
  'A knit that cannot be dried in time is frozen flat.': 'Una prenda de punto que no se puede secar a tiempo se congela en plano.',
  'Painted or weighted silk is not for anyone but a conservator.': 'La seda pintada o cargada es solo cosa de un conservador.',
  'Never treat painted or weighted silk without a conservator.': 'Nunca trate seda pintada o cargada sin un conservador.',
  'Painted or weighted silk: stop, keep it flat and supported, ask a conservator.': 'Seda pintada o cargada: pare, manténgala plana y apoyada, pregunte a un conservador.',
  'Painted pieces are not frozen without a conservator; weighted silk is kept from the freezer with them.':
    'Las piezas pintadas no se congelan sin un conservador; con ellas, la seda cargada tampoco va al congelador.',
  'Never freeze painted or weighted silk without a conservator saying so.': 'Nunca congele seda pintada o cargada sin que lo diga un conservador.',
  'Archaeological and gelatinising cloth goes ahead of all the rest.': 'La tela arqueológica o que se vuelve gelatinosa va antes que todo lo demás.',
  'Archaeological or gelatinising cloth: support all of it, ask a conservator at once.': 'Tela arqueológica o que se vuelve gelatinosa: apóyela entera, pregunte de inmediato a un conservador.',
  'No guidance was found for freezing archaeological cloth; it is not frozen without a conservator.': 'No se encontró ninguna guía para congelar tela arqueológica; no se congela sin un conservador.',
  'Never freeze archaeological cloth without a conservator saying so.': 'Nunca congele tela arqueológica sin que lo diga un conservador.',
  'Museums do not wash stuffed quilts, wool, knits, composite pieces or early man-made fibres; what is already soaked is another matter.':
    'Los museos no lavan colchas rellenas, lana, punto, piezas compuestas ni las primeras fibras artificiales; lo que ya está empapado es otra cosa.',
  'Split by the present wet state: a soaked, dye-fast piece is rinsed, a dry one never washed.':
    'Se decide según si está mojado ahora: una pieza empapada con tintes firmes se enjuaga, una seca nunca se lava.',
  'Museum guidance (CCI) never washes them; the University of Alberta did after its flood, with success.':
    'La guía de los museos (CCI) nunca las lava; la Universidad de Alberta lo hizo después de su inundación, con éxito.',
  'Never wash it once it is dry.': 'Nunca lo lave una vez que está seco.',
};
