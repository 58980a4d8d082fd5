/** Words in and below the pictures of rooms and things. Labels are short, because they stand beside lines. */
export const CLIMATE_PLOTS: Readonly<Record<string, string>> = {
  'Air temperature, °C': 'Temperatura del aire, °C',
  'Relative humidity of the air, %': 'Humedad relativa del aire, %',
  'cap of the room, {percent} %': 'límite de la sala, {percent} %',
  'reckoned, nobody measured': 'calculado, nadie midió',
  'reckoned': 'calculado',
  'forecast': 'pronóstico',
  'in doubt, not counted (outside the axis: at its edge)': 'en duda, no cuenta (si se sale del eje: en su borde)',
  'measured, many sensors': 'medido, muchos sensores',
  'measured by hand': 'medido a mano',
  'measured, sensor {code}': 'medido, sensor {code}',
  'Measured: marks are readings of sensors and of people. The line is open where nobody measured for more than {hours} h.':
    'Medido: las marcas son lecturas de sensores y de personas. La línea se interrumpe donde nadie midió durante más de {hours} h.',
  'Reckoned: the water, from readings, weighings and what is known of each thing. Forecast: as if nothing were hung, taken down or switched from now on, at the temperature of now and in the weather that is foreseen.':
    'Calculado: el agua, a partir de lecturas, pesadas y lo que se sabe de cada objeto. Pronóstico: como si desde ahora no se colgara, descolgara ni encendiera o apagara nada, con la temperatura de ahora y el tiempo previsto.',
  'The speed of drying is our own calibration and may be off by {percent} % until weighings have fitted it. Thick and closed things may take up to {times} times as long as thin ones: weigh them.':
    'La rapidez del secado es una calibración propia y puede desviarse un {percent} % hasta que las pesadas la corrijan. Los objetos gruesos y cerrados pueden tardar hasta {times} veces más que los finos: péselos.',
  'There is so much in this room that its past is drawn from one reading in {minutes} minutes. The numbers of now rest on all of them.':
    'Hay tanto en esta sala que su pasado se dibuja con una lectura cada {minutes} minutos. Los números de ahora se basan en todas.',
  'There are more readings than one picture can hold; the oldest are left out. Ask for fewer hours.': 'Hay más lecturas de las que caben en una imagen; faltan las más antiguas. Pida menos horas.',
  'Estimates for a trained lead, and no promise. Local codes and licensed people come first. Weigh, touch and look before you rely on them.':
    'Estimaciones para una persona responsable con formación, y ninguna promesa. Las normas locales y las personas con licencia van primero. Pese, toque y mire antes de fiarse.',
  '{name} ({code}), air and water': '{name} ({code}), aire y agua',
  'Time on the clock in {zone}': 'Hora del reloj en {zone}',
  'as of {moment}': 'a fecha de {moment}',
  'Nothing to show for this time': 'Nada que mostrar en este tiempo',
  'Published: moist air (ASHRAE Fundamentals 2017), the form of evaporation from a wet face (ASHRAE Transactions 1998, 104-1A), the curve of a dehumidifier (NREL). Our own calibration, which a network can change: the cap unless one is set for the room, how air reaches things, how far a reading reaches, and that no machine is counted above its label.':
    'Publicado: el aire húmedo (ASHRAE Fundamentals 2017), la forma de la evaporación de una cara mojada (ASHRAE Transactions 1998, 104-1A), la curva de un deshumidificador (NREL). Calibración propia, que una red puede cambiar: el límite si no se fijó uno para la sala, cómo llega el aire a los objetos, cuánto alcanza una lectura, y que ninguna máquina cuenta por encima de su placa.',
  'Water left in what hangs here, kg': 'Agua que queda en lo que está colgado aquí, kg',
  'up to this if thick things dry slowly': 'hasta aquí si lo grueso se seca despacio',
  'evaporation, reckoned': 'evaporación, calculada',
  'evaporation, forecast': 'evaporación, pronóstico',
  'taken by dehumidifiers, forecast': 'sacan los deshumidificadores, pronóstico',
  'taken by outdoor air, forecast (below 0: brought in)': 'saca el aire exterior, pronóstico (bajo 0: lo trae)',
  'Water that moves, kg per hour': 'Agua que se mueve, kg por hora',
  'The air has been measured; nothing is reckoned of this room yet.': 'El aire se ha medido; de esta sala todavía no hay nada calculado.',
  'Nobody measured the air of this room in the time shown, and nothing is reckoned of it yet: write down what a thermometer with a hygrometer shows there.':
    'Nadie midió el aire de esta sala en el tiempo mostrado, y todavía no hay nada calculado: anote lo que marca allí un termómetro con higrómetro.',
  'As of {moment}: {tempC} °C and {humidityPct} % humidity, cap {capPct} %.': 'A fecha de {moment}: {tempC} °C y {humidityPct} % de humedad, límite {capPct} %.',
  'As of {moment}: {tempC} °C and {humidityPct} % humidity, cap {capPct} %; the last reading is too old, so this is reckoned.':
    'A fecha de {moment}: {tempC} °C y {humidityPct} % de humedad, límite {capPct} %; la última lectura es demasiado antigua, así que esto es calculado.',
  'Nothing hangs here.': 'Aquí no hay nada colgado.',
  '{things, plural, one {# thing hangs here} other {# things hang here}} with {kg} kg of water left, at most {mostKg} kg.':
    '{things, plural, one {Hay # objeto colgado} other {Hay # objetos colgados}} aquí, con {kg} kg de agua por salir, {mostKg} kg como mucho.',
  'The highest humidity of the three days to come is {humidityPct} %, on {moment}.': 'La humedad más alta de los próximos tres días es {humidityPct} %, el {moment}.',
  'Thing {tag}': 'Objeto {tag}',
  'Thing {tag} in {name} ({code})': 'Objeto {tag} en {name} ({code})',
  'taken down {moment}': 'descolgado el {moment}',
  'Nothing is reckoned of this thing: it has not hung in a drying room, or was hung a moment ago and nobody has read that room yet.':
    'De este objeto no hay nada calculado: no ha estado colgado en una sala de secado, o se colgó hace un momento y nadie ha medido todavía esa sala.',
  'Water left above what counts as dry, kg': 'Agua que queda por encima de lo que cuenta como seco, kg',
  'if it dries {percent} % faster or slower': 'si se seca un {percent} % más rápido o más lento',
  '80 % interval of the speed that weighings have fitted': 'intervalo del 80 % de la rapidez ajustada con pesadas',
  'faster as fitted by weighings (80 %), or up to {times} times slower: thick': 'más rápido según las pesadas (80 %), o hasta {times} veces más lento: grueso',
  '{percent} % faster, or up to {times} times slower: it is thick': '{percent} % más rápido, o hasta {times} veces más lento: es grueso',
  'weighed': 'pesado',
  'as the sources span: {shortest} to {longest} h': 'según abarcan las fuentes: {shortest} a {longest} h',
  'Mould clock, hours used of {hours} h at 22 °C and soaked': 'Plazo del moho, horas gastadas de {hours} h a 22 °C y empapado',
  'amber at {hours} h': 'ámbar a las {hours} h',
  'red at {hours} h': 'rojo a las {hours} h',
  'As of {moment} about {kg} kg of water are left, at most {mostKg} kg; {count, plural, =0 {nobody weighed it in the time shown} one {# weighing is shown} other {# weighings are shown}}.':
    'A fecha de {moment} quedan unos {kg} kg de agua, {mostKg} kg como mucho; {count, plural, =0 {nadie lo pesó en el tiempo mostrado} one {se muestra # pesada} other {se muestran # pesadas}}.',
  'Mould cannot live on it, so it has no clock.': 'El moho no puede vivir en él, así que no tiene plazo.',
  'Of its {hours} h of the mould clock {used} h are used.': 'De sus {hours} h del plazo del moho se han gastado {used} h.',
  'It should have been dry before, and takes water up from the damp air again: bring the humidity down.': 'Debería haber estado seco antes, y vuelve a tomar agua del aire húmedo: baje la humedad.',
  'It may be dry already, perhaps not within three days: weigh it.': 'Puede que ya esté seco, quizá no antes de tres días: péselo.',
  'It may be dry already, and should be by {latest}: weigh it.': 'Puede que ya esté seco, y debería estarlo para el {latest}: péselo.',
  'It may be dry from {earliest} on, perhaps not within three days.': 'Puede estar seco a partir del {earliest}, quizá no antes de tres días.',
  'It should be dry between {earliest} and {latest}.': 'Debería estar seco entre el {earliest} y el {latest}.',
  'The mould clock is a rule of practice and no forecast of when mould starts: the agencies’ “dry or freeze within 24 to 48 hours”. That {hours} h at 22 °C and soaked use it up, and the span of {shortest} to {longest} h, are our own calibration; how temperature and humidity speed it up was found on wood (Hukka and Viitanen 1999).':
    'El plazo del moho es una regla práctica y ningún pronóstico de cuándo empieza el moho: el «secar o congelar en 24 a 48 horas» de las agencias. Que lo agoten {hours} h a 22 °C y empapado, y el margen de {shortest} a {longest} h, son calibración propia; cómo lo aceleran la temperatura y la humedad se halló en madera (Hukka y Viitanen 1999).',
};
