/** Words on printed tags and calibration pages, and notes on templates. */
export const TAGS: Readonly<Record<string, string>> = {
  'Item': 'Objeto',
  'Container': 'Recipiente',
  'Place': 'Lugar',
  'Person': 'Persona',
  'Tags: {kind}, {incident}': 'Etiquetas: {kind}, {incident}',
  'The letters of the code are {height} mm high on this label; 5 mm or more read better at arm’s length. Take a larger label where you can.':
    'Las letras del código miden {height} mm de alto en esta etiqueta; con 5 mm o más se leen mejor a un brazo de distancia. Use una etiqueta más grande si puede.',
  'This label has no room to write by hand.': 'En esta etiqueta no hay sitio para escribir a mano.',
  // Calibration page
  'Calibration page, {name}': 'Página de calibración, {name}',
  '1. Print this page on plain paper at 100 %, also called actual size. Do not let the printer fit it to the page.':
    '1. Imprima esta página en papel normal al 100 %, también llamado tamaño real. No deje que la impresora la ajuste a la página.',
  '2. Measure the rulers: {across} mm across and {down} mm down. If one is longer or shorter, the printer still scales: change its settings and print again.':
    '2. Mida las reglas: {across} mm a lo ancho y {down} mm a lo alto. Si una es más larga o más corta, la impresora todavía cambia el tamaño: cambie sus ajustes e imprima otra vez.',
  '3. Hold the page and a sheet of labels together against the light. Each frame should lie on a label.':
    '3. Ponga la página y una hoja de etiquetas juntas a contraluz. Cada marco debe quedar sobre una etiqueta.',
  '4. If all frames are off the same way, change the margins of the template by as much: left {left} mm, upper {upper} mm now. If they drift further off along the page, change the distance from label to label: {acrossEach} mm across, {downEach} mm down now.':
    '4. Si todos los marcos están desviados hacia el mismo lado, cambie los márgenes de la plantilla en esa medida: ahora {left} mm a la izquierda y {upper} mm arriba. Si se desvían cada vez más a lo largo de la página, cambie la distancia de etiqueta a etiqueta: ahora {acrossEach} mm a lo ancho y {downEach} mm a lo alto.',
  '5. For wet halls take spun-bond polyethylene or polyester film, write with pencil or pigment ink, and rub a first tag with a wet thumb. Tie tags on with cotton tape or a plastic tie. Never put adhesive, pins or staples on a textile.':
    '5. Para salas mojadas use película de poliéster o polietileno no tejido, escriba con lápiz o tinta pigmentada y frote una primera etiqueta con el pulgar mojado. Ate las etiquetas con cinta de algodón o una brida de plástico. Nunca ponga adhesivo, alfileres ni grapas en un textil.',
};
