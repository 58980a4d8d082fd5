/** How the rule book is read out, conclusion by conclusion. */
export const RULE_BOOK: Readonly<Record<string, string>> = {
  'Reckoned from the wetting, {damage}: to be expected after {deadline, plural, one {# hour} other {# hours}}, with a warning after {warn, plural, one {# hour} other {# hours}}.':
    'Contado desde que se mojó, {damage}: se espera después de {deadline, plural, one {# hora} other {# horas}}, con aviso después de {warn, plural, one {# hora} other {# horas}}.',
  'For the sake of people, handling starts within {deadline, plural, =0 {the hour} one {# hour} other {# hours}} of the wetting.':
    'Por el bien de las personas, se empieza antes de {deadline, plural, =0 {una hora} one {# hora} other {# horas}} desde que se mojó.',
  'Opens a way: {way} ({steps}).': 'Abre una vía: {way} ({steps}).',
  'Puts a way further to the front: {way}.': 'Adelanta una vía: {way}.',
  'Closes a way: {way}.': 'Cierra una vía: {way}.',
  'Adds a step: {step} ({ways}).': 'Añade un paso: {step} ({ways}).',
  'Leaves a step out: {step} ({ways}).': 'Omite un paso: {step} ({ways}).',
  'Needed first: {need} ({ways}).': 'Antes hace falta: {need} ({ways}).',
  'To wear: {items}.': 'Hay que ponerse: {items}.',
  'Not for people who declared: {restrictions}.': 'No es para personas que declararon: {restrictions}.',
  'Shares its bath with nothing.': 'No comparte su baño con nada.',
  '{place}: {what}': '{place}: {what}',
  'Kept no colder than {limitC} °C.': 'No se guarda a menos de {limitC} °C.',
  'Moves a step: {step}, {place} ({way}).': 'Cambia de lugar un paso: {step}, {place} ({way}).',
  'no work with mould': 'nada de trabajo con moho',
  'no lifting': 'nada de levantar peso',
  'no wet work': 'nada de trabajo mojado',
  'under age': 'menor de edad',
  'no work in heat': 'nada de trabajo con calor',
  'In a bath': 'En un baño',
  'On a rack': 'En un bastidor',
  'In a bag': 'En una bolsa',
  'In a freezer': 'En un congelador',
};
