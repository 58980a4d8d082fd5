/** Water kinds, salt, and what rinsing asks. */
export const WATER: Readonly<Record<string, string>> = {
  'Water of unknown origin counts as flood or sewage water until shown otherwise.': 'El agua de origen desconocido cuenta como agua de inundación o aguas negras hasta que se muestre lo contrario.',
  'water categories as trade explainers give them (after ANSI/IICRC S500; edition and clause not seen).':
    'categorías del agua según las explicaciones del oficio (a partir de ANSI/IICRC S500; edición y cláusula no vistas).',
  'Water does not stay what it was: clean counts as used or dirty house water after a day, and any as flood or sewage water after two.':
    'El agua no se queda como era: la limpia cuenta como agua usada o sucia de la casa después de un día, y cualquiera como agua de inundación o aguas negras después de dos.',
  'The early end: grey at 24 h, black at 48 h.': 'El extremo temprano: gris a las 24 h, negra a las 48 h.',
  'Grey after 24-48 h; others say only that it degrades with time.': 'Gris después de 24-48 h; otros solo dicen que empeora con el tiempo.',
  'River, sea and storm water is treated as sewage-contaminated: the dirty part of the hall and the clean part stay apart.':
    'El agua de río, de mar y de tormenta se trata como contaminada con aguas residuales: la zona sucia y la zona limpia del local se mantienen separadas.',
  'No eating, drinking, smoking or touching your own face; wash hands on leaving; wash work clothes hot and apart.':
    'No coma, beba, fume ni se toque la cara; lávese las manos al salir; lave la ropa de trabajo con agua caliente y por separado.',
  'Against flood or sewage water: rubber boots, rubber gloves, goggles.': 'Contra el agua de inundación o aguas negras: botas de goma, guantes de goma, gafas de protección cerradas.',
  'Used or dirty house water can make people ill: gloves, eye protection, a rinse station of its own.': 'El agua usada o sucia de la casa puede enfermar a la gente: guantes, protección para los ojos, un puesto de enjuague propio.',
  'Rinse apart from clean-water things; wash hands.': 'Enjuáguelo aparte de lo que estuvo en agua limpia; lávese las manos.',
  'Spraying throws dirty drops.': 'Rociar lanza gotas sucias.',
  'From memory, not verified: double glove and face shield for spraying.': 'De memoria, sin comprobar: dos pares de guantes y pantalla facial para rociar.',
  'Do not spray. If you must: two pairs of gloves and a face shield.': 'No rocíe. Si hace falta: dos pares de guantes y pantalla facial.',
  'At any wet table: waterproof gloves, eye protection, apron.': 'En cualquier mesa mojada: guantes impermeables, protección para los ojos, delantal.',
  'Public health lists most paper and books from flood water for discarding; where the family gives them no special weight the owner is asked.':
    'La salud pública manda tirar la mayoría de los papeles y libros que estuvieron en agua de inundación; si la familia no les da un valor especial, se pregunta al dueño.',
  'Salvage stands first, letting go is offered, and the owner decides; never silent.': 'Primero está salvarlo, se ofrece desprenderse de él y decide el dueño; nunca en silencio.',
  'Heritage guidance (NPS, NEDCC, FEMA/HENTF) salvages and freezes what CDC and FEMA 2023 discard.': 'Las guías de patrimonio (NPS, NEDCC, FEMA/HENTF) salvan y congelan lo que CDC y FEMA 2023 tiran.',
  'Salt crystallises as it dries and breaks surfaces: fresh water first, where the material stands it.':
    'La sal cristaliza al secarse y rompe las superficies: primero agua dulce, si el material la soporta.',
  'Never simply let salt-soaked things dry.': 'Nunca deje simplemente que se sequen las cosas empapadas de sal.',
  'Fresh water takes the salt out; ask how many changes.': 'El agua dulce saca la sal; pregunte cuántos cambios de agua.',
  'Mixed costume soaked in salt water waits in fresh water until a conservator decides.':
    'Un vestido de varios materiales empapado en agua salada espera en agua dulce hasta que decida un conservador.',
  'Iron from fresh water is rinsed and dried at once.': 'El hierro que estuvo en agua dulce se enjuaga y se seca de inmediato.',
};
