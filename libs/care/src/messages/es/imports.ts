/** What is said about a file of arrivals and its rows. */
export const IMPORTS: Readonly<Record<string, string>> = {
  'Intake file, row {row}, as its sender wrote it down.': 'Archivo de recepción, fila {row}, tal como lo anotó quien lo envió.',
  'Row {row}: {faults}': 'Fila {row}: {faults}',
  // Tags
  'A thing without a tag is lost among the others. Tie a tag to it and write its code here.': 'Un objeto sin etiqueta se pierde entre los demás. Átele una etiqueta y escriba aquí su código.',
  'Scan the tag, or type its nine characters.': 'Escanee la etiqueta o escriba sus nueve caracteres.',
  'A tag code is K, C, P or V, then six of the letters B C D F G H J K M N P Q R S T V W X Y Z, then two digits. Read the tag again.':
    'El código de una etiqueta es K, C, P o V, luego seis de las letras B C D F G H J K M N P Q R S T V W X Y Z y luego dos cifras. Lea la etiqueta otra vez.',
  'A tag code has {characters} characters, seven letters and two digits; this has {typed}. Read the tag again.':
    'El código de una etiqueta tiene {characters} caracteres, siete letras y dos cifras; este tiene {typed}. Lea la etiqueta otra vez.',
  'A tag code starts with K (item), C (container), P (place) or V (person). Read the first letter again.':
    'El código de una etiqueta empieza por K (objeto), C (recipiente), P (lugar) o V (persona). Lea otra vez la primera letra.',
  'The check digits do not fit: a character was misread or two were swapped. Read the tag again; do not guess.':
    'Las cifras de control no coinciden: se leyó mal un carácter o se cambiaron dos de lugar. Lea la etiqueta otra vez; no adivine.',
  'an item': 'un objeto',
  'a container': 'un recipiente',
  'a place': 'un lugar',
  'a person': 'una persona',
  'This is the tag of {kind}, not of an item. Tie an item tag to the thing and write its code here.': 'Esta es la etiqueta de {kind}, no de un objeto. Ate al objeto una etiqueta de objeto y escriba aquí su código.',
  '{fault} Reserved tags close to it: {tags}. Look at the tag itself before you write one of them.': '{fault} Etiquetas reservadas que se le parecen: {tags}. Mire la etiqueta misma antes de escribir una de ellas.',
  'No one reserved this tag for the incident. Look at the tag again, or reserve its block of tags first.': 'Nadie reservó esta etiqueta para la emergencia. Mire la etiqueta otra vez, o reserve primero su bloque de etiquetas.',
  'The tag was written in another form; its check digits fit.': 'La etiqueta estaba escrita de otra forma; sus cifras de control coinciden.',
  'This tag is tied to another thing of this household already. Look at both things; give this one a fresh tag, or write the description as it stands on record if it is the same thing.':
    'Esta etiqueta ya está atada a otro objeto de este hogar. Mire los dos objetos; póngale a este una etiqueta nueva o, si es el mismo objeto, escriba la descripción tal como consta.',
  'This tag is tied to a thing of another household already. Look at both things; give this one a fresh tag.': 'Esta etiqueta ya está atada a un objeto de otro hogar. Mire los dos objetos y póngale a este una etiqueta nueva.',
  'This tag was tied to another thing while the file was worked through. Look at both things, and give this one a fresh tag.':
    'Esta etiqueta se ató a otro objeto mientras se procesaba el archivo. Mire los dos objetos y póngale a este una etiqueta nueva.',
  'Something that the row needs was taken away while the file was worked through: a waiting area, or a household. Send the row again when it is there.':
    'Mientras se procesaba el archivo se quitó algo que la fila necesita: una zona de espera o un hogar. Envíe la fila otra vez cuando lo haya.',
  'The row could not be taken in as it stands, although each of its cells can be read. Look at its times and its tag, and send it again.':
    'La fila no se pudo recibir tal como está, aunque cada una de sus celdas se puede leer. Revise sus horas y su etiqueta, y envíela otra vez.',
  // Households
  'Write the code of the household that owns the thing.': 'Escriba el código del hogar dueño del objeto.',
  'A household code has 1 to 40 letters, digits, points, hyphens or underscores, without spaces. Write it that way.':
    'El código de un hogar tiene de 1 a 40 letras, cifras, puntos, guiones o guiones bajos, sin espacios. Escríbalo así.',
  'The code is on record with other capital letters; it is the same household.': 'El código consta con otras mayúsculas; es el mismo hogar.',
  'The household is known and its contact was left as it is. Change it at the household if the file is right.':
    'El hogar ya consta y sus datos de contacto se dejaron como estaban. Si los del archivo son los correctos, cámbielos en el hogar.',
  'The household was registered without a name. Find out whom to call before anything must be decided.': 'El hogar se registró sin nombre. Averigüe a quién llamar antes de que haya que decidir algo.',
  'We write to households in English and Spanish only; English was taken for a new household.': 'A los hogares les escribimos solo en inglés y en español; para un hogar nuevo se tomó el inglés.',
  'This does not look like an e-mail address; it was kept as it is.': 'Esto no parece una dirección de correo electrónico; se dejó como está.',
  'This is neither yes nor no. No consent was recorded; ask the owner.': 'Esto no es ni sí ni no. No se registró ningún consentimiento; pregunte al dueño.',
  // What the thing is
  'Say in a few words what the thing is, so that it can be recognised without its tag.': 'Diga en pocas palabras qué es el objeto, para que se pueda reconocer sin su etiqueta.',
  'The thing was not described; what stands under material was taken.': 'El objeto no estaba descrito; se tomó lo que figura como material.',
  'This is longer than {longest} characters. Shorten it; nothing is cut off unseen.': 'Esto tiene más de {longest} caracteres. Acórtelo; nada se recorta sin que usted lo vea.',
  'The mark inside this number can be a decimal point or a thousands mark. Write the number of pieces without it.':
    'El signo dentro de este número puede ser un signo decimal o un separador de miles. Escriba el número de piezas sin él.',
  'Write the number of pieces as a whole number, 1 for a single thing.': 'Escriba el número de piezas como número entero, 1 para un solo objeto.',
  'The number of pieces goes from 1 to {most}. Look at the number again, or cut the lot into smaller ones.': 'El número de piezas va de 1 a {most}. Revise el número, o divida el lote en otros más pequeños.',
  'The number had decimals that say nothing.': 'El número tenía decimales que no dicen nada.',
  'The word behind the number was taken off.': 'Se quitó la palabra que seguía al número.',
  'The material is not known yet; the thing is handled on the cautious side until it is assessed.': 'Aún no se sabe el material; el objeto se trata con la mayor cautela hasta que se evalúe.',
  'No class of material is clear from this; the thing is handled on the cautious side until it is assessed.': 'De esto no queda claro ningún tipo de material; el objeto se trata con la mayor cautela hasta que se evalúe.',
  'The class was taken from an everyday word; the assessment puts it right.': 'El tipo se tomó de una palabra corriente; la evaluación lo corrige.',
  'The size class was taken from an everyday word.': 'El tamaño se tomó de una palabra corriente.',
  'The size decides how much drying space is kept; the usual size of such a thing was taken.': 'El tamaño decide cuánto espacio de secado se reserva; se tomó el tamaño habitual de un objeto así.',
  'This is none of everyday, valued, treasured, irreplaceable; `valued` was taken. Ask the family.': 'Esto no es ninguno de los valores everyday, valued, treasured, irreplaceable; se tomó `valued`. Pregunte a la familia.',
  'Taken from an everyday word.': 'Se tomó de una palabra corriente.',
  'No kind of water is clear from this; that of the incident was taken.': 'De esto no queda claro qué agua fue; se tomó la de la emergencia.',
  // Times
  'Write it as 2026-05-08 22:30 or 08.05.2026 22:30.': 'Escríbala como 2026-05-08 22:30 o 08.05.2026 22:30.',
  'This is the inner number of a spreadsheet, not a date. Format the column as date and time, or as text. {how}':
    'Este es el número interno de una hoja de cálculo, no una fecha. Dé a la columna formato de fecha y hora, o de texto. {how}',
  'This is not a date that can be read. {how}': 'Esta fecha no se puede leer. {how}',
  'It is not clear which number is the year. {how}': 'No queda claro qué número es el año. {how}',
  'This can be two days: {number} may be the month or the day. {how}': 'Esto puede ser dos fechas: {number} puede ser el mes o el día. {how}',
  'There is no such day or time. {how}': 'No existe tal día u hora. {how}',
  'The clocks were put forward over this time: it did not exist. Write another time, or add the offset from UTC.':
    'A esa hora se adelantaron los relojes: no existió. Escriba otra hora, o añada la diferencia con UTC.',
  'This time lies after the file was sent. Look at the day, the month and the year.': 'Este momento es posterior al envío del archivo. Revise el día, el mes y el año.',
  'This time lies more than two days before the flood. Look at the day, the month and the year.': 'Este momento es más de dos días anterior a la inundación. Revise el día, el mes y el año.',
  'The thing arrived before it got wet. Look at both times, and mend the wrong one.': 'El objeto llegó antes de mojarse. Revise las dos horas y corrija la que esté mal.',
  'The time was written in another form; read in the time zone of the network where no offset was given.': 'La hora estaba escrita de otra forma; donde no se dio la diferencia con UTC se leyó en el huso horario de la red.',
  'The year was written with two digits and read as one of this century.': 'El año estaba escrito con dos cifras y se leyó como de este siglo.',
  'The clocks were put back over this time, so it came twice; the earlier one was taken.': 'A esa hora se atrasaron los relojes, así que hubo dos; se tomó la primera.',
  'Only the day is given: the earliest time of it after the flood began was taken, so that nothing waits too long.':
    'Solo consta el día: se tomó su primera hora desde que empezó la inundación, para que nada espere demasiado.',
  'Only the day is given: noon was taken, or the time the file was sent.': 'Solo consta el día: se tomó el mediodía, o la hora en que se envió el archivo.',
  // Cells
  'Characters that cannot be seen were taken out.': 'Se quitaron caracteres que no se ven.',
  'Space at the ends or between words was taken out.': 'Se quitaron espacios al principio, al final o entre palabras.',
  'The apostrophe that marks a cell as text was taken off.': 'Se quitó el apóstrofo que marca una celda como texto.',
  'The cell is a formula that only holds a text; the text was taken.': 'La celda es una fórmula que solo contiene un texto; se tomó el texto.',
  'This cell holds a formula, and formulas are not evaluated. Export the table with values.': 'Esta celda contiene una fórmula, y las fórmulas no se calculan. Exporte la tabla con valores.',
  'The cell looks like a formula. It is kept as text and never evaluated; files that we write put an apostrophe before it.':
    'La celda parece una fórmula. Se guarda como texto y nunca se calcula; en los archivos que escribimos lleva un apóstrofo delante.',
  'This row has {cells} cells and the header line has {width}: a cell that contains the delimiter must stand in double quotes, or the values have slipped to the right.':
    'Esta fila tiene {cells} celdas y la línea de encabezado tiene {width}: una celda que contiene el separador debe ir entre comillas dobles, o los valores se han corrido a la derecha.',
  'This line is not one JSON object. Write the row anew from the text in the column “_line”, or mend it where it came from.':
    'Esta línea no es un objeto JSON. Escriba la fila de nuevo a partir del texto de la columna «_line», o corríjala donde se originó.',
  'Two members of this line are called “{name}”. Keep one of them.': 'Dos miembros de esta línea se llaman «{name}». Deje uno solo.',
  'The value must be text, a number, true, false or null, not a list or an object.': 'El valor debe ser texto, un número, true, false o null, no una lista ni un objeto.',
  // Files
  'The incident takes in nothing more. Open it again, or use the incident that runs.': 'En esta emergencia ya no se recibe nada. Ábrala de nuevo, o use la que está en curso.',
  'The site has no waiting area to put the thing down in. Add one, and send the row again.': 'El sitio no tiene zona de espera donde dejar el objeto. Añada una y envíe la fila otra vez.',
  'This column is not one of ours and was not used.': 'Esta columna no es una de las nuestras y no se usó.',
  'This member is not one of ours and was not used.': 'Este miembro no es uno de los nuestros y no se usó.',
  'The file is not valid UTF-8 and was read as Windows-1252. Look at names with accents or umlauts; if they are wrong, save the file as UTF-8 and send it again.':
    'El archivo no es UTF-8 válido y se leyó como Windows-1252. Revise los nombres con tildes o diéresis; si salen mal, guarde el archivo como UTF-8 y envíelo otra vez.',
  'The file is larger than {most} MiB. Cut it into several files.': 'El archivo pesa más de {most} MiB. Divídalo en varios archivos.',
  'The file holds nothing but blank lines. Look whether it is the right one, and save it again.': 'El archivo no contiene más que líneas en blanco. Vea si es el correcto y guárdelo otra vez.',
  'The file has a header line and no row below it. Write the things below it, one a row.': 'El archivo tiene una línea de encabezado y ninguna fila debajo. Escriba los objetos debajo, uno por fila.',
  'The first line names none of our columns. Write a header line such as “tag,household,object,material”; it was read as: {header}.':
    'La primera línea no nombra ninguna de nuestras columnas. Escriba una línea de encabezado como «tag,household,object,material»; se leyó así: {header}.',
  'The column “{column}” is missing from the header line. Add it.': 'En la línea de encabezado falta la columna «{column}». Añádala.',
  'Two columns are called “{column}”. Keep one of them.': 'Dos columnas se llaman «{column}». Deje una sola.',
  'The file has more than {most} lines, most of them blank. Take the blank ones out.': 'El archivo tiene más de {most} líneas, la mayoría en blanco. Quite las que están en blanco.',
  'The file has more than {most} lines. Cut it into several files and send them one after another.': 'El archivo tiene más de {most} líneas. Divídalo en varios archivos y envíelos uno tras otro.',
  'The file has more than {most} rows. Cut it into several files and send them one after another.': 'El archivo tiene más de {most} filas. Divídalo en varios archivos y envíelos uno tras otro.',
  'Row {row} opens a cell with a double quote that is never closed. Close it, or write the quote twice if it belongs to the text.':
    'La fila {row} abre una celda con una comilla doble que nunca se cierra. Ciérrela, o escriba la comilla dos veces si pertenece al texto.',
  'Row {row}, cell {cell} is longer than {most} characters. Shorten it; often a double quote is missing at its end.':
    'Fila {row}, celda {cell}: tiene más de {most} caracteres. Acórtela; a menudo falta una comilla doble al final.',
  'Row {row} has more than {most} cells. Send only the columns that the documentation names.': 'La fila {row} tiene más de {most} celdas. Envíe solo las columnas que nombra la documentación.',
  'No line of the file is a JSON object. Write one object a line, or send a table as text/csv.': 'Ninguna línea del archivo es un objeto JSON. Escriba un objeto por línea, o envíe una tabla como text/csv.',
  'The lines have more than {most} different members. Send only the columns that the documentation names.': 'Las líneas tienen más de {most} miembros distintos. Envíe solo las columnas que nombra la documentación.',
  'Line {line} has more than {most} members. Send only the columns that the documentation names.': 'La línea {line} tiene más de {most} miembros. Envíe solo las columnas que nombra la documentación.',
  'Line {line}, member {member} is longer than {most} characters. Shorten it.': 'Línea {line}, miembro {member}: tiene más de {most} caracteres. Acórtelo.',
  'The rest of the file could not be worked through. Send the same file again to go on from here; if it stops again, tell who runs the service.':
    'El resto del archivo no se pudo procesar. Envíe el mismo archivo otra vez para seguir desde aquí; si se detiene de nuevo, avise a quien opera el servicio.',
  'The stored file is not the one that was sent. Send it again.': 'El archivo guardado no es el que se envió. Envíelo otra vez.',
  'The time zone of the network, {timeZone}, is not known here, so no time of the file can be read. Have it put right, then send the same file again.':
    'El huso horario de la red, {timeZone}, no se conoce aquí, así que no se puede leer ninguna hora del archivo. Haga que lo corrijan y luego envíe el mismo archivo otra vez.',
  '{all} {one}': '{all} {one}',
};
