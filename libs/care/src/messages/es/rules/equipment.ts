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
  'powder-free nitrile gloves that let no water through': 'guantes de nitrilo sin polvo que no dejen pasar el agua',
  'powder-free nitrile gloves, with waterproof rubber gloves over them': 'guantes de nitrilo sin polvo, con guantes de goma impermeables encima',
  'powder-free nitrile gloves, cut-resistant gloves over them against sharps, and waterproof rubber gloves outermost':
    'guantes de nitrilo sin polvo, encima guantes resistentes a cortes por los objetos punzantes y, por fuera, guantes de goma impermeables',
  'powder-free nitrile gloves, cut-resistant gloves over them against sharps, and waterproof gloves outermost':
    'guantes de nitrilo sin polvo, encima guantes resistentes a cortes por los objetos punzantes y, por fuera, guantes impermeables',
  'cut-resistant gloves against sharps, with waterproof rubber gloves over them': 'guantes resistentes a cortes por los objetos punzantes, con guantes de goma impermeables encima',
  'cut-resistant gloves against sharps, with waterproof gloves over them': 'guantes resistentes a cortes por los objetos punzantes, con guantes impermeables encima',
  'respirator with P100 cartridge (fit-tested wearer)': 'respirador con cartucho P100 (persona con prueba de ajuste)',
};
