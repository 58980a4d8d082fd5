/** Rules about the people who do the work. */
export const PEOPLE: Readonly<Record<string, string>> = {
  'A wound that met flood water is washed, work stops, and medical advice is sought.': 'Una herida que tocó agua de inundación se lava, se deja el trabajo y se busca consejo médico.',
  'Wound and flood water: wash, stop work, seek medical advice.': 'Herida y agua de inundación: lávela, deje de trabajar, busque consejo médico.',
  'No one under age at cleanup or mould work.': 'Ningún menor de edad en la limpieza ni en el trabajo con moho.',
  'Rinsing and blotting are wet work.': 'Enjuagar y absorber con toallas es trabajo mojado.',
  'Our own calibration: the restriction taken at its word.': 'Calibración propia: la restricción se toma al pie de la letra.',
  'Wet textiles weigh three to four times their dry weight: two people, drained, on a sling or board.':
    'Los textiles mojados pesan de tres a cuatro veces más que secos: dos personas, escurridos sin exprimir, sobre una tela fuerte a modo de hamaca o una tabla.',
  'Our own calibration: weight factor derived from fabric weights and water held; two people is our rule.':
    'Calibración propia: el factor de peso se deriva del peso de las telas y del agua que retienen; las dos personas son regla nuestra.',
  'Two people, drained first, sling or board. Never a full tub on a wet floor.': 'Dos personas; que escurra primero, sin exprimir; sobre una tela fuerte a modo de hamaca o una tabla. Nunca una cubeta llena sobre un piso mojado.',
  'Warm air and protective clothing overheat people.': 'El aire caliente y la ropa de protección sobrecalientan a las personas.',
  'Our own calibration: OSHA Technical Manual III:4 warns from 21 C at moderate work; the threshold here is the warm-air setting.':
    'Calibración propia: el OSHA Technical Manual III:4 advierte desde 21 C con trabajo moderado; el umbral de aquí es el ajuste de aire caliente.',
  'Warm hall: water, shade, short turns; stopping beats finishing the batch.': 'Sala calurosa: agua, sombra, turnos cortos; parar es mejor que terminar la tanda.',
  'Structure, gas, electricity, asbestos, medicine, valuation, insurance and law belong to licensed people.':
    'Estructura, gas, electricidad, asbesto, medicina, tasación, seguros y leyes son cosa de personas con licencia.',
  'Our own calibration: care guidance section 9 nos. 1 and 13.': 'Calibración propia: guía de cuidados, sección 9, n.º 1 y 13.',
  'Buildings, power, asbestos, medical, valuation, insurance and legal questions: ask the licensed person; local codes come first.':
    'Edificios, electricidad, asbesto y cuestiones médicas, de tasación, de seguros o legales: pregunte a la persona con licencia; las normas locales van primero.',
  'People are grieving: the owner decides, and no outcome is promised.': 'La gente está de duelo: decide el dueño, y no se promete ningún resultado.',
  'Our own calibration: care guidance section 9 nos. 15 and 16.': 'Calibración propia: guía de cuidados, sección 9, n.º 15 y 16.',
  'The owner decides; promise no outcome.': 'Decide el dueño; no prometa ningún resultado.',
};
