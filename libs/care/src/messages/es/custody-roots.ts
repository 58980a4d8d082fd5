/** The printed root of the custody record. */
export const CUSTODY_ROOTS: Readonly<Record<string, string>> = {
  'Custody record: root {rootNo}': 'Registro de custodia: raíz {rootNo}',
  'Network': 'Red',
  'Recorded from': 'Registrado desde',
  'until before': 'hasta antes de',
  'Events': 'Eventos',
  'Root of the hash tree': 'Raíz del árbol de hashes',
  'Hash of this statement': 'Hash de esta declaración',
  'Hash of the root before': 'Hash de la raíz anterior',
  'Key {keyId}, public part': 'Clave {keyId}, parte pública',
  'Signature (Ed25519)': 'Firma (Ed25519)',
  'not known any more': 'ya no se conoce',
  'Keep this page where the people who run the database cannot reach it. As long as you have it, none of these events can be changed, removed or added to without it showing: the record must still give this root under this number.':
    'Guarde esta hoja donde no lleguen las personas que administran la base de datos. Mientras la tenga, ninguno de estos eventos puede cambiarse ni quitarse, y no puede añadirse ninguno, sin que se note: el registro debe seguir dando esta raíz con este número.',
  'It shows what was recorded, not that what was recorded is true. It says nothing about events that came later.': 'Muestra lo que se registró, no que lo registrado sea verdad. No dice nada de los eventos posteriores.',
  'The square holds the signed statement and its signature as text. Compare the public key with one that you were given by another way.': 'El cuadrado contiene la declaración firmada y su firma en forma de texto. Compare la clave pública con una que haya recibido por otra vía.',
};
