/** What is said about readings of air, weighings and weather. */
export const MEASUREMENTS: Readonly<Record<string, string>> = {
  '{value} °C is too hot for any air here. If it is °F, it is {inC} °C: set the unit of the logger to °C, or convert the value, and send it again.':
    '{value} °C es demasiado calor para cualquier aire de aquí. Si son °F, son {inC} °C: ponga el registrador en °C, o convierta el valor, y envíelo de nuevo.',
  '{value} °C cannot be. If it is kelvin, it is {inC} °C: take 273.15 off and send it again.': '{value} °C no puede ser. Si son kelvin, son {inC} °C: reste 273,15 y envíelo de nuevo.',
  '{value} °C is no air that anybody measures here: it goes from -40 to 60 °C. Look at the unit and the decimal point.': '{value} °C no es un aire que aquí se mida: va de -40 a 60 °C. Mire la unidad y el punto decimal.',
  '{value} % of relative humidity cannot be: it goes from 0 to 100 %.': 'Una humedad relativa de {value} % no puede ser: va de 0 a 100 %.',
  '{value} % is drier than any air here. If it is a fraction, send it in percent (0.62 is 62 %); if it is always 0, the sensor has failed.':
    '{value} % es más seco que cualquier aire de aquí. Si es una fracción, envíela en porcentaje (0,62 es 62 %); si siempre es 0, el sensor falla.',
  'This moment lies in the future. Look at the date, the offset from UTC, and the clock of the logger.': 'Este momento está en el futuro. Mire la fecha, la diferencia con UTC y el reloj del registrador.',
  'This moment lies long before the flood. Look at the date, and at the clock of the logger: many begin in an old year after their battery was out.':
    'Este momento es muy anterior a la inundación. Mire la fecha y el reloj del registrador: muchos empiezan en un año antiguo después de quedarse sin pila.',
  'It is improbable that it is so warm indoors. Look whether the logger sends °F.': 'Es poco probable que haga tanto calor adentro. Mire si el registrador envía °F.',
  'It moved faster than air does. If the next reading is like it, that one is believed. Was the sensor moved, or has it failed?':
    'Cambió más rápido que el aire. Si la lectura siguiente es parecida, esa se da por buena. ¿Se movió el sensor, o falla?',
  'Saturated air for hours beside a running dehumidifier. Either the sensor got wet, or the machine takes nothing out: go and look, and mind water near electricity.':
    'Aire saturado durante horas junto a un deshumidificador en marcha. O el sensor se mojó, o la máquina no saca agua: vaya a mirar, y cuidado con el agua cerca de la electricidad.',
  'Exactly the same values for hours. Has the sensor failed, or does the logger repeat its last value?': 'Exactamente los mismos valores durante horas. ¿Falla el sensor, o el registrador repite su último valor?',
  'This sensor has other values for the same moment. Kept are {kept}; sent were {sent}. The kept ones stay.': 'Este sensor tiene otros valores para el mismo momento. Constan {kept}; se enviaron {sent}. Quedan los que constan.',
  'This source has said something else about the same hour. Kept are {kept}; sent were {sent}. The kept ones stay; a corrected forecast is a new issue.':
    'Esta fuente dijo otra cosa de la misma hora. Constan {kept}; se enviaron {sent}. Quedan los que constan; un pronóstico corregido es una emisión nueva.',
  '{tempC} °C': '{tempC} °C',
  '{tempC} °C and {humidityPct} %': '{tempC} °C y {humidityPct} %',
  'Nothing is left for the thing: the tare is as heavy as everything on the scale. Look at both numbers.': 'No queda nada para el objeto: la tara pesa tanto como todo lo que está en la balanza. Mire los dos números.',
  '{kg} kg is more than such a thing can weigh. If the scale shows grams, it is {inKg} kg: send kilograms.': '{kg} kg es más de lo que puede pesar un objeto así. Si la balanza muestra gramos, son {inKg} kg: envíe kilogramos.',
  '{kg} kg is more than such a thing can weigh when it is soaked ({limitKg} kg by its size class and material). Look at the decimal point, the tare, the tag and the size class.':
    '{kg} kg es más de lo que puede pesar un objeto así cuando está empapado ({limitKg} kg según su clase de tamaño y su material). Mire el punto decimal, la tara, la etiqueta y la clase de tamaño.',
  '{kg} kg is less than such a thing can weigh dry ({limitKg} kg by its size class). Was all of it on the scale? Look at the tare, the tag and the size class.':
    '{kg} kg es menos de lo que puede pesar seco un objeto así ({limitKg} kg según su clase de tamaño). ¿Estaba entero en la balanza? Mire la tara, la etiqueta y la clase de tamaño.',
  'This moment lies in the future. Look at the date and the offset from UTC.': 'Este momento está en el futuro. Mire la fecha y la diferencia con UTC.',
  'This moment lies before the thing was taken in. Look at the date, and whether it is the right tag.': 'Este momento es anterior a la llegada del objeto. Mire la fecha, y si la etiqueta es la correcta.',
  'It weighs more than at the weighing before. Was it wetted again, or was it another scale, another tare, or another thing?':
    'Pesa más que en la pesada anterior. ¿Se mojó de nuevo, o fue otra balanza, otra tara u otro objeto?',
  'It weighs more than such things do when they are soaked. Look at the tare, the tag and the size class.': 'Pesa más que los objetos así cuando están empapados. Mire la tara, la etiqueta y la clase de tamaño.',
  'It weighs less than such things do when they are dry. Was all of it on the scale? Look at the tare and the size class.':
    'Pesa menos que los objetos así cuando están secos. ¿Estaba entero en la balanza? Mire la tara y la clase de tamaño.',
  'Write the number alone, without a unit or words: “{value}”.': 'Escriba solo el número, sin unidad ni palabras: «{value}».',
  'This is not a number: “{value}”.': 'Esto no es un número: «{value}».',
  'Write the moment with its date and offset, such as 2026-05-09T06:30:00Z: “{value}” is none.': 'Escriba el momento con su fecha y su diferencia con UTC, como 2026-05-09T06:30:00Z: «{value}» no lo es.',
  'Only the day is given. Write the time of day as well.': 'Solo consta el día. Escriba también la hora.',
  'The clocks were put back over this time, so it came twice. Add the offset from UTC.': 'Los relojes se atrasaron a esta hora, así que ocurrió dos veces. Añada la diferencia con UTC.',
  'This year lies outside 1990 to 2199.': 'Este año está fuera de 1990 a 2199.',
  'Say when it was measured.': 'Diga cuándo se midió.',
  'The temperature is missing.': 'Falta la temperatura.',
  'The relative humidity is missing.': 'Falta la humedad relativa.',
  'The sensor “{name}” was out of use at that moment. Put it back into service if it measures again.': 'El sensor «{name}» estaba fuera de uso en ese momento. Póngalo de nuevo en servicio si vuelve a medir.',
  '“{name}” is no part of a reading. Check its spelling, or leave it out.': '«{name}» no es parte de una lectura. Revise cómo se escribe, o quítelo.',
  'Name the sensor or the place, not both.': 'Nombre el sensor o el lugar, no los dos.',
  'No sensor of this incident goes by “{name}”. Register it first, or correct the code.': 'Ningún sensor de esta emergencia se llama «{name}». Regístrelo primero, o corrija el código.',
  'Name the sensor, or the kind and the code of the place.': 'Nombre el sensor, o la clase y el código del lugar.',
  'The kind of a place is one of: drying-room, freezer, zone, outdoors.': 'La clase de un lugar es una de: drying-room, freezer, zone, outdoors.',
  'No place of this kind goes by “{name}” in this incident.': 'Ningún lugar de esta clase se llama «{name}» en esta emergencia.',
  'More than one place of this kind goes by “{name}”. Give its id.': 'Más de un lugar de esta clase se llama «{name}». Dé su identificador.',
  'This row has more cells than the header line: a decimal comma has to stand in double quotes where commas part the cells, or the values have slipped to the right.':
    'Esta fila tiene más celdas que la línea de encabezado: una coma decimal debe ir entre comillas dobles donde las comas separan las celdas, o los valores se han corrido a la derecha.',
  'The first line names none of our columns. Write a header line such as “sensor,measuredAt,airTempC,relativeHumidityPct”.':
    'La primera línea no nombra ninguna de nuestras columnas. Escriba una línea de encabezado como «sensor,measuredAt,airTempC,relativeHumidityPct».',
  'The table holds nothing but blank lines.': 'La tabla no tiene más que líneas en blanco.',
  'The table has a header line and no row below it.': 'La tabla tiene una línea de encabezado y ninguna fila debajo.',
  'The table has {rows} rows; one request takes {most}. Send it in parts.': 'La tabla tiene {rows} filas; un envío admite {most}. Envíela por partes.',
  'Say for which moment it holds.': 'Diga para qué momento vale.',
  '“{name}” is no part of a weather record. Check its spelling, or leave it out.': '«{name}» no es parte de un dato del tiempo. Revise cómo se escribe, o quítelo.',
  'This hour was over when the forecast was issued. Send it as observed, if it was.': 'Esta hora ya había pasado cuando se emitió el pronóstico. Envíela como observada, si lo fue.',
  'No forecast reaches so far ahead ({days} days). Look at the date.': 'Ningún pronóstico llega tan lejos ({days} días). Mire la fecha.',
  'A wind of {value} m/s cannot be. Look at the unit: it is metres a second.': 'Un viento de {value} m/s no puede ser. Mire la unidad: son metros por segundo.',
  'The thing was weighed at this very moment already: kept are {keptKg} kg on the scale with {keptTareKg} kg of tare, sent were {sentKg} kg with {sentTareKg} kg. The kept weighing stays; send another moment if it was weighed twice.':
    'El objeto ya se pesó en este mismo momento: constan {keptKg} kg en la báscula con {keptTareKg} kg de tara, se enviaron {sentKg} kg con {sentTareKg} kg. Se conserva la pesada que constaba; envíe otro momento si se pesó dos veces.',
  'No item with this tag or id belongs to the incident.': 'Ningún objeto con esta etiqueta o identificador pertenece al incidente.',
  'The row has members that a weighing does not take.': 'La fila tiene datos que una pesada no admite.',
  '{member} is missing, or is not as a weighing takes it.': 'Falta {member}, o no es como lo admite una pesada.',
  'No person with this id belongs to the incident.': 'Ninguna persona con este identificador pertenece al incidente.',
  'No drying place with this id belongs to the incident.': 'Ningún lugar de secado con este identificador pertenece al incidente.',
};
