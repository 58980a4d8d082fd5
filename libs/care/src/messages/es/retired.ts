/**
 * Sentences that earlier versions said and that no longer stand in the code: stored results still say them. Those that held
 * a value inside are missing, because they were stored without it; they are read in English.
 */
export const RETIRED: Readonly<Record<string, string>> = {
  'A tag code holds only letters and digits. Read the tag again.': 'El código de una etiqueta solo tiene letras y cifras. Lea la etiqueta otra vez.',
  'After the first letter come six of the letters B C D F G H J K M N P Q R S T V W X Y Z, then two digits. Read the tag again.':
    'Después de la primera letra van seis de las letras B C D F G H J K M N P Q R S T V W X Y Z y luego dos cifras. Lea la etiqueta otra vez.',
  'No one reserved this tag for the incident.': 'Nadie reservó esta etiqueta para la emergencia.',
  'This is the tag of a container, not of an item.': 'Esta es la etiqueta de un recipiente, no de un objeto.',
  'This is the tag of a place, not of an item.': 'Esta es la etiqueta de un lugar, no de un objeto.',
  'This is the tag of a person, not of an item.': 'Esta es la etiqueta de una persona, no de un objeto.',
  'This tag is tied to a thing of another household already. Look at both things; give this one a fresh tag, or write the description as it stands on record if it is the same thing.':
    'Esta etiqueta ya está atada a un objeto de otro hogar. Mire los dos objetos; póngale a este una etiqueta nueva o, si es el mismo objeto, escriba la descripción tal como consta.',
  'A household code has 1 to 40 letters, digits, points, hyphens or underscores, without spaces.': 'El código de un hogar tiene de 1 a 40 letras, cifras, puntos, guiones o guiones bajos, sin espacios.',
  'The thing arrived before it got wet. One of the two times is wrong.': 'El objeto llegó antes de mojarse. Una de las dos horas está mal.',
  'The site has no waiting area to put the thing down in.': 'El sitio no tiene zona de espera donde dejar el objeto.',
  'This line is not one JSON object. Write the row anew from the text in the column `_line`, or mend it where it came from.':
    'Esta línea no es un objeto JSON. Escriba la fila de nuevo a partir del texto de la columna `_line`, o corríjala donde se originó.',
  'This is the inner number of a spreadsheet, not a date. Format the column as date and time, or as text. Write it as 2026-05-08 22:30 or 08.05.2026 22:30.':
    'Este es el número interno de una hoja de cálculo, no una fecha. Dé a la columna formato de fecha y hora, o de texto. Escríbala como 2026-05-08 22:30 o 08.05.2026 22:30.',
  'This is not a date that can be read. Write it as 2026-05-08 22:30 or 08.05.2026 22:30.': 'Esta fecha no se puede leer. Escríbala como 2026-05-08 22:30 o 08.05.2026 22:30.',
  'It is not clear which number is the year. Write it as 2026-05-08 22:30 or 08.05.2026 22:30.': 'No queda claro qué número es el año. Escríbala como 2026-05-08 22:30 o 08.05.2026 22:30.',
};
