/** Protective equipment. */
export const EQUIPMENT: Readonly<Record<string, string>> = {
  'powder-free nitrile gloves': 'guantes de nitrilo sin polvo',
  'rubber boots': 'botas de goma',
  'waterproof rubber gloves': 'guantes de goma impermeables',
  'goggles': 'gafas de protección cerradas',
  'respirator with organic-vapour cartridge (fit-tested wearer)': 'respirador con cartucho para vapores orgánicos (persona con prueba de ajuste)',
  'waterproof gloves': 'guantes impermeables',
  'eye protection': 'protección para los ojos',
  'apron or gown': 'delantal o bata',
  'disposable coverall': 'overol desechable',
  'cut-resistant gloves under the waterproof ones': 'guantes resistentes a cortes debajo de los impermeables',
  'N95 respirator': 'mascarilla N95',
  'nitrile gloves': 'guantes de nitrilo',
  'gloves': 'guantes',
  'N95 respirator until mould is ruled out': 'mascarilla N95 hasta que se descarte el moho',
  'nitrile or other waterproof gloves': 'guantes de nitrilo u otros impermeables',
  'respirator with P100 cartridge (fit-tested wearer)': 'respirador con cartucho P100 (persona con prueba de ajuste)',
};
