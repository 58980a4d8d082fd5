/**
 * Why each number of our own calibration is what it is, and the units that are words, of every table that a network may
 * set. Most tables cannot reach this catalogue; the English sentence of the table is the key.
 */
export const CALIBRATION: Readonly<Record<string, string>> = {
  'faces': 'caras',
  'times': 'veces',
  'things': 'objetos',
  'rides': 'viajes',
  'share': 'proporción',
  'days': 'días',
  'readings': 'lecturas',
  'divisions': 'divisiones',
  'of pore ceiling': 'del máximo de los poros',
  '1 = yes, 0 = no': '1 = sí, 0 = no',
  // People.
  'Most hours on shift without a real break. 13 is what 11 hours of daily rest leave of a day (Directive 2003/88/EC, Article 3, from memory); using it for volunteers, and counting hours on shift, is ours. Local law comes first.':
    'Máximo de horas de turno sin un descanso de verdad. 13 es lo que dejan del día 11 horas de descanso diario (Directiva 2003/88/CE, artículo 3, de memoria); aplicarlo a voluntarios, y contar horas de turno, es cosa nuestra. La ley local va primero.',
  'A break of this many hours counts as rest: about a night. The Directive asks for 11 hours a day of workers (from memory); set 11 where it binds you.':
    'Una pausa de estas horas cuenta como descanso: más o menos una noche. La Directiva pide 11 horas al día para los trabajadores (de memoria); ponga 11 donde le obligue.',
  'A heat that stops work is taken to hold this many hours from the making of a plan, about an afternoon; the plan puts what nobody may do in it after them. Nobody knows the weather of the hall: measure, and say when it changes.':
    'Se supone que un calor que detiene el trabajo dura estas horas desde que se hace el plan, más o menos una tarde; el plan pone después de ellas lo que nadie puede hacer con ese calor. Nadie conoce de antemano el calor que hará en la nave: mida, y avise cuando cambie.',
  'Yes: whoever is asked to wear a filtering mask (N95) counts as a required wearer under 29 CFR 1910.134, which then asks for a medical evaluation and a fit test. No: only tight respirators ask for it. Local law comes first.':
    'Sí: a quien se le pide usar una mascarilla filtrante (N95) cuenta como usuario obligado según 29 CFR 1910.134, que entonces pide una evaluación médica y una prueba de ajuste. No: solo los respiradores ajustados la piden. La ley local va primero.',
  // How air reaches the goods.
  'Less than 10 cm between faces, no fan: natural convection on a 1 m sheet computed at 0.35 of the pool level. Refit from weighings.':
    'Menos de 10 cm entre caras, sin ventilador: la convección natural sobre una sábana de 1 m, calculada en 0.35 del nivel de una piscina. Reajústelo con pesadas.',
  'Open rack or single line, no fan: computed 0.65; undisturbed pools were measured at 74 % (ASHRAE Transactions 1998, 104-1A, abstract). Refit from weighings.':
    'Estante abierto o cuerda sencilla, sin ventilador: 0.65 calculado; en piscinas en calma se midió un 74 % (ASHRAE Transactions 1998, 104-1A, resumen). Reajústelo con pesadas.',
  'Fan moving air over the faces with a measured air speed. Refit from weighings.': 'Ventilador que mueve el aire sobre las caras, con la velocidad del aire medida. Reajústelo con pesadas.',
  'Air speed assumed in a room without fans when nobody measured it.': 'Velocidad del aire que se supone en una sala sin ventiladores cuando nadie la midió.',
  'One free face.': 'Una cara libre.',
  'The lower face breathes through the mesh, less than freely.': 'La cara de abajo respira a través de la malla, menos que si estuviera libre.',
  'Both faces free.': 'Las dos caras libres.',
  'Draped double over a line: the inner faces hardly breathe.': 'Doblado sobre una cuerda: las caras de dentro apenas respiran.',
  'A heap dries only at its skin.': 'Un montón se seca solo por fuera.',
  // How much water is in them, and when they are dry.
  'Fibres that take up almost no water still hold it between the yarns.': 'Las fibras que casi no toman agua la retienen aun así entre los hilos.',
  'Dry means the regain at 65 % RH plus this much, then condition at or below 65 % RH.':
    'Seco significa el agua que la fibra toma del aire a 65 % HR más esto; después se deja reposar a 65 % HR o menos.',
  'Keeps the target of low-regain fibres below every mould threshold used here, where the margin alone would not.':
    'Mantiene la meta de las fibras que toman poca agua del aire por debajo de todos los umbrales de moho que se usan aquí, cosa que el margen solo no haría.',
  'Share of the pore-full ceiling held while dripping. Measure and refit.': 'Parte del máximo con los poros llenos que queda mientras chorrea. Mida y reajústelo.',
  'Share of the pore-full ceiling held once dripping has stopped. Measure and refit.': 'Parte del máximo con los poros llenos que queda cuando ha dejado de chorrear. Mida y reajústelo.',
  'Dripping, when thickness and areal mass are not known: middle of the 200-300 % of the care guidance. Measure and refit.':
    'Chorreando, cuando no se conocen el grosor ni la masa por superficie: el medio del 200-300 % de la guía de cuidado. Mida y reajústelo.',
  'Drained, when thickness and areal mass are not known: two thirds of dripping, as the ceiling shares. Measure and refit.':
    'Escurrido, cuando no se conocen el grosor ni la masa por superficie: dos tercios de lo que tiene chorreando, como las partes del máximo. Mida y reajústelo.',
  'Hand-wrung everyday cloth (treasures are never wrung). Measure and refit.': 'Tela de uso diario exprimida a mano (lo muy querido nunca se exprime). Mida y reajústelo.',
  'Thin goods blotted in towels. Measure and refit.': 'Cosas finas a las que se absorbió el agua con toallas. Mida y reajústelo.',
  'Padded goods blotted in towels: middle of the 100-150 % of the care guidance. Weigh ten and refit.':
    'Cosas acolchadas a las que se absorbió el agua con toallas: el medio del 100-150 % de la guía de cuidado. Pese diez y reajústelo.',
  'Domestic spin of utility textiles, middle of 0.5-0.65; one informal measurement gave 0.63.':
    'Centrifugado doméstico de textiles de uso corriente, el medio de 0.5-0.65; una medición informal dio 0.63.',
  // Weighings and fits.
  'How far the arrangement factor of a place may lie from the general one before anybody has weighed: standard deviation of its logarithm, 0.4 for about +-50 %.':
    'Cuánto puede apartarse del general el factor de colocación de un lugar antes de que nadie haya pesado: desviación estándar de su logaritmo, 0.4 para cerca de +-50 %.',
  'By how much like goods on the same rack dry faster or slower than each other: a share, the spread of its half-normal prior.':
    'Cuánto más rápido o más despacio que otras se secan cosas parecidas en el mismo estante: una proporción, la dispersión de su distribución previa seminormal.',
  'Thick or closed goods: both spreads of the fit are this much wider.': 'Cosas gruesas o cerradas: las dos dispersiones del ajuste son estas veces más anchas.',
  'How far the dry mass of a thing may lie from that of its size class: a share. A weighing counts in a fit only if the thing is clearly wet even so.':
    'Cuánto puede apartarse la masa seca de un objeto de la de su clase de tamaño: una proporción. Una pesada cuenta en un ajuste solo si aun así el objeto está claramente mojado.',
  'How many of its smallest steps a scale may be off either way. A scale in trade use: about one (OIML R 76, from memory).':
    'Cuántos de sus pasos más pequeños puede errar una báscula, por más o por menos. Una báscula de uso comercial: cerca de uno (OIML R 76, de memoria).',
  'Error of an ordinary hygrometer in points of relative humidity.': 'Error de un higrómetro común, en puntos de humedad relativa.',
  'Nobody is sent to the scale again sooner than this.': 'A nadie se le manda de nuevo a la báscula antes de esto.',
  'A drying thing is weighed again at the latest after this.': 'Un objeto que se está secando se vuelve a pesar a más tardar después de esto.',
  'Thin goods: weight must have stood still for at least this before they count as at rest.':
    'Cosas finas: el peso tiene que haber estado quieto al menos este tiempo para que cuenten como en reposo.',
  'Thick or closed goods dry from inside: weight must have stood still for at least this.':
    'Las cosas gruesas o cerradas se secan desde dentro: el peso tiene que haber estado quieto al menos este tiempo.',
  'The evaporation level is trusted to +-30 % until fitted from two weighings per class.':
    'El nivel de evaporación se da por bueno con un margen de +-30 % hasta que se ajuste con dos pesadas por clase.',
  'Thick or closed goods: upper end of the band as a multiple of the thin-goods time. Weigh and extrapolate instead.':
    'Cosas gruesas o cerradas: extremo superior del margen, en veces el tiempo de las cosas finas. Es mejor pesar y extrapolar.',
  // Machines, electric load, the room.
  'Below this a refrigerant coil begins to frost; also the lower edge at which the published curve is read.':
    'Por debajo de esto un serpentín de refrigerante empieza a escarcharse; también es el borde inferior en que se lee la curva publicada.',
  'At and below this a refrigerant dehumidifier is counted as removing nothing.': 'A esta temperatura y por debajo se cuenta que un deshumidificador de compresor no saca nada.',
  'A promise never counts on more than the rating.': 'Una promesa nunca cuenta con más de lo que dice la etiqueta.',
  'Energy factor at the rating point of a machine whose label does not say: low among portable refrigerant units (1.3-2.8 from memory), so that electric load is not made small.':
    'Factor de energía, en las condiciones de su etiqueta, de una máquina cuya etiqueta no lo dice: bajo entre los aparatos portátiles de compresor (1.3-2.8 de memoria), para no dar por pequeña la carga eléctrica.',
  'Continuous load that one socket circuit is counted for: 80 % of 15 A at 120 V (from memory). Set it to your own supply; a licensed electrician decides.':
    'Carga continua con la que se cuenta por circuito de enchufes: 80 % de 15 A a 120 V (de memoria). Póngala según su propia instalación; decide un electricista con licencia.',
  'Electric power of one fan when nobody gives it.': 'Potencia eléctrica de un ventilador cuando nadie la da.',
  'Room humidity that must not be passed, so that one rack does not endanger everything else in the room.':
    'Humedad de la sala que no se debe pasar, para que un estante no ponga en peligro todo lo demás que hay en la sala.',
  'How far below the cap a room is called close to it.': 'A qué distancia por debajo del tope se dice que una sala está cerca de él.',
  'A change is called worth while when it saves at least this share of the drying time, or brings the room below its cap.':
    'Se dice que un cambio vale la pena cuando ahorra al menos esta parte del tiempo de secado, o deja la sala por debajo de su tope.',
  'Outdoor air must be drier by at least this before opening windows is advised: about the error of two ordinary hygrometers.':
    'El aire de fuera tiene que ser más seco al menos en esto para que se aconseje abrir las ventanas: más o menos el error de dos higrómetros comunes.',
  'A reading of the room air holds until the next one, but no longer than this; after that the air is reckoned from it.':
    'Una lectura del aire de la sala vale hasta la siguiente, pero no más que esto; después el aire se calcula a partir de ella.',
  // The mould clock.
  'Hours to red at 22 C and saturation: calibrated to the agency rule "dry or freeze within 48 h", not to experiments.':
    'Horas hasta el rojo a 22 °C y con aire saturado: ajustado a la regla de los organismos «secar o congelar antes de 48 h», no a experimentos.',
  'Short end of the band that the sources span at room temperature.': 'Extremo corto del margen que dan las fuentes a temperatura ambiente.',
  'Long end of the band that the sources span at room temperature.': 'Extremo largo del margen que dan las fuentes a temperatura ambiente.',
  'The 24 h end of the 24-48 h rule.': 'El extremo de 24 h de la regla de 24-48 h.',
  'The 48 h end of the rule.': 'El extremo de 48 h de la regla.',
  'Growth is not counted faster above this temperature.': 'Por encima de esta temperatura no se cuenta un crecimiento más rápido.',
  'Ratio of two published building-material classes (Ojanen et al. 2010) lent to clean synthetics.':
    'Razón entre dos clases publicadas de materiales de construcción (Ojanen et al. 2010), prestada a los sintéticos limpios.',
  'Two readings of a place no further apart than this count as measuring what lies between them (a straight line).':
    'Dos lecturas de un lugar que no están más separadas que esto cuentan como medida de lo que hay entre ellas (una línea recta).',
  'Up to this the straight line between two readings is taken, and the last reading is held; what lasts longer is filled on the cautious side.':
    'Hasta esto se toma la línea recta entre dos lecturas, y se mantiene la última lectura; lo que dura más se rellena del lado prudente.',
  'Air where nobody measured and the air outside is unknown: the warm-weather figure that the rule book takes, too.':
    'Aire donde nadie midió y no se conoce el de fuera: la cifra de tiempo cálido que también toma el libro de reglas.',
  'A freezer that nobody reads is taken to hold the usual 0 F. Read it: one that has failed does not say so.':
    'De un congelador que nadie lee se supone que mantiene los 0 °F de costumbre. Léalo: uno que ha fallado no lo dice.',
  // Heat on people.
  'Added to the estimate for a hall without moving air: the natural wet bulb stays warmer there than the ventilated one. A meter needs none.':
    'Se suma a la estimación en una nave sin aire en movimiento: allí el bulbo húmedo natural queda más caliente que el ventilado. Un medidor no lo necesita.',
  'Added to the outdoor screening estimate, which assumes moderate sun and light wind: raise it for strong sun or no wind.':
    'Se suma a la estimación orientativa al aire libre, que supone sol moderado y viento ligero: súbalo con sol fuerte o sin viento.',
  // What is asked about or refused.
  'A sensor may move by this much at once, as when a door opens; see sensorJumpTempCPerMin.':
    'Un sensor puede cambiar esto de golpe, como cuando se abre una puerta; vea sensorJumpTempCPerMin.',
  'And by this much for every minute since its reading before. Faster than both together is a jump, which a second reading of the same kind confirms.':
    'Y esto por cada minuto desde su lectura anterior. Más rápido que las dos cosas juntas es un salto, que una segunda lectura parecida confirma.',
  'As sensorJumpTempC, for relative humidity: an opened door brings ten to fifteen points in a minute.':
    'Como sensorJumpTempC, para la humedad relativa: una puerta abierta trae de diez a quince puntos en un minuto.',
  'As sensorJumpTempCPerMin, for relative humidity.': 'Como sensorJumpTempCPerMin, para la humedad relativa.',
  'As sensorJumpTempC, in a freezer, whose air warms at once when it is opened and filled.':
    'Como sensorJumpTempC, en un congelador, cuyo aire se calienta de golpe cuando se abre y se llena.',
  'As sensorJumpTempCPerMin, in a freezer.': 'Como sensorJumpTempCPerMin, en un congelador.',
  'A sensor of a room that shows exactly the same temperature and humidity for this long is asked about: air moves at least by a digit.':
    'Se pregunta por un sensor de sala que muestra exactamente la misma temperatura y humedad durante este tiempo: el aire cambia al menos en una cifra.',
  'And only with at least this many readings in that time.': 'Y solo si hay al menos estas lecturas en ese tiempo.',
  'From here air counts as saturated; a sensor that got wet shows 100 % for days.':
    'Desde aquí el aire cuenta como saturado; un sensor que se mojó muestra 100 % durante días.',
  'Saturated air for this long beside a running dehumidifier is asked about.': 'Se pregunta por el aire saturado durante este tiempo junto a un deshumidificador en marcha.',
  'Indoors at and above this a reading is asked about: 45 to 60 are everyday numbers in Fahrenheit (7 to 16 C).':
    'Bajo techo se pregunta por una lectura de esto o más: de 45 a 60 son números corrientes en Fahrenheit (de 7 a 16 °C).',
  'A reading from longer before the flood has a wrong date.': 'Una lectura de más tiempo antes de la inundación tiene mal la fecha.',
  'A thing may be this many times as heavy as its size class before a weight is refused: classes are rough.':
    'Un objeto puede pesar estas veces lo que su clase de tamaño antes de que se rechace un peso: las clases son aproximadas.',
  'Below this share of the dry mass of its size class a weight is refused.': 'Por debajo de esta parte de la masa seca de su clase de tamaño se rechaza un peso.',
  'Below this share of the dry mass of its size class a weight is asked about.': 'Por debajo de esta parte de la masa seca de su clase de tamaño se pregunta por un peso.',
  'Most water in thin cloth: a towel of 0.5 kg/m2 and 4 mm has pores for 7.3 (own formula, poreCeilingX), and some runs off its surface.':
    'Máximo de agua en tela fina: una toalla de 0.5 kg/m2 y 4 mm tiene poros para 7.3 (fórmula propia, poreCeilingX), y algo más corre por su superficie.',
  'Most water in padded goods as they are lifted onto a scale: batting holds more than cloth, and drains under its own weight.':
    'Máximo de agua en cosas acolchadas tal como se levantan a la báscula: el relleno retiene más que la tela, y escurre por su propio peso.',
  'Most water in sheets, prints and books: soaked old books reach 2 (US National Archives), and water stands between pages.':
    'Máximo de agua en hojas, copias fotográficas y libros: los libros viejos empapados llegan a 2 (US National Archives), y queda agua entre las páginas.',
  // Alarms.
  'A room must fall this far below its cap, or below the critical humidity, before the alarm clears: about the error of an ordinary hygrometer (from memory).':
    'Una sala tiene que bajar esto por debajo de su tope, o de la humedad crítica, para que la alarma se apague: más o menos el error de un higrómetro común (de memoria).',
  'Three degrees above the -18 C at which frozen things are held (Waters; UK pocket guide): more than a household freezer swings by itself.':
    'Tres grados por encima de los -18 °C a los que se guarda lo congelado (Waters; UK pocket guide): más de lo que un congelador doméstico oscila por sí solo.',
  'How far below its limit a freezer must fall before the alarm clears.': 'Cuánto tiene que bajar un congelador por debajo de su límite para que la alarma se apague.',
  'Two readings this far apart must be above the limit: a lid that was open for a moment is no alarm.':
    'Dos lecturas con esta separación tienen que estar por encima del límite: una tapa abierta un momento no es una alarma.',
  'A drying room, or a freezer with a logger, that nobody has said anything of is called silent after this.':
    'Una sala de secado, o un congelador con registrador, de los que nadie ha dicho otra cosa, se dan por sin lecturas después de esto.',
  'A freezer whose readings of the last day were all typed in by hand is called silent after this: about two looks a day, as each look lets warm air in.':
    'Un congelador cuyas lecturas del último día se anotaron todas a mano se da por sin lecturas después de esto: unas dos miradas al día, porque cada mirada deja entrar aire caliente.',
  'Where a sensor states how often it is expected to report, its place is silent after this many times as long: half a turn late, and one of a moment earlier is not missed yet.':
    'Donde un sensor dice cada cuánto se espera que informe, su lugar se da por sin lecturas después de tantas veces ese tiempo: con media vuelta de retraso todavía no basta un momento de demora.',
  'And never sooner than this: loggers send together what they gathered.': 'Y nunca antes de esto: los registradores envían junto lo que han reunido.',
  'Over how much time machines are held against their labels: the air of a room answers within minutes, and somebody must still be able to act.':
    'Durante cuánto tiempo se comparan las máquinas con su etiqueta: el aire de una sala responde en minutos, y alguien tiene que poder actuar todavía.',
  'With less measured air than this nothing is said about machines.': 'Con menos aire medido que esto no se dice nada de las máquinas.',
  'A longer gap between readings says nothing about the air within it.': 'Un hueco más largo entre lecturas no dice nada del aire que hubo en él.',
  'If the machines can have taken no more than this share of what their labels promise in this air, something is wrong: a blocked filter, a full tank, ice, a trip.':
    'Si las máquinas no pueden haber sacado más que esta parte de lo que su etiqueta promete con este aire, algo va mal: un filtro tapado, un depósito lleno, hielo, un disparo del interruptor.',
  'From this share on they are believed again.': 'Desde esta parte se les vuelve a creer.',
  'The stated air changes of a room are trusted to this factor, up or down.': 'Las renovaciones de aire indicadas de una sala se dan por buenas con este factor, hacia arriba o hacia abajo.',
  'In drier air a machine may have been switched off by its own hygrostat, as it should be.': 'Con aire más seco puede que a una máquina la haya apagado su propio higrostato, como debe ser.',
  'How many things an alarm names; it counts them all.': 'Cuántos objetos nombra una alarma; los cuenta todos.',
  // Plans.
  'Thick goods such as quilts keep their place in a plan for this multiple of the thin-goods time: the geometric middle of 1 and the upper end of 4 of their band. Weigh twice and plan again; a single number is false precision.':
    'Las cosas gruesas, como las colchas, ocupan su lugar en un plan durante estas veces el tiempo de las cosas finas: el medio geométrico entre 1 y el extremo superior de 4 de su margen. Pese dos veces y planifique de nuevo; un solo número es falsa precisión.',
  'No drying counts longer than this in a plan; what is wet still keeps its place and is planned again from there.':
    'Ningún secado cuenta más que esto en un plan; lo que sigue mojado conserva su lugar y se planifica de nuevo desde ahí.',
  'A drying counts at least this long in a plan.': 'Un secado cuenta al menos esto en un plan.',
  'Air in which drying hours are reckoned where no room of the site can take anything; nothing is planned to dry there then.':
    'Aire con el que se calculan las horas de secado cuando ninguna sala del sitio admite nada; entonces no se planifica secar nada allí.',
  'Humidity of that air.': 'Humedad de ese aire.',
  'What the plan in force lets begin within this time stays as it is in a new plan, unless what it needs has gone: people have got ready for it.':
    'Lo que el plan vigente deja empezar dentro de este tiempo queda igual en un plan nuevo, salvo que falte lo que necesita: la gente ya se ha preparado.',
  'So many small prints lie in one rinse bath together; a sheet counts as 4 of them and a garment as 12, and what is larger is rinsed alone. Whether things may share at all is for the rule book to say.':
    'Tantas fotos pequeñas caben juntas en un baño de enjuague; una hoja cuenta como 4 de ellas y una prenda como 12, y lo que es más grande se enjuaga solo. Si las cosas pueden compartirlo lo dice el libro de reglas.',
  'So many rides to other sites a plan weighs up for each thing that waits, the shortest first; 0 leaves everything where it is. More take longer to plan.':
    'Tantos viajes a otros sitios sopesa un plan para cada objeto que espera, primero los más cortos; con 0 todo queda donde está. Con más se tarda más en planificar.',
  // Care.
  'A thing that no clock presses is to be begun within this time from now.': 'Un objeto al que ningún plazo apremia ha de empezarse dentro de este tiempo a partir de ahora.',
  'When hands are scarce, things that must be begun within the same stretch of this length count as equally pressing; what decides then is told beside the order.':
    'Cuando faltan manos, los objetos que hay que empezar dentro del mismo tramo de esta duración cuentan como igual de urgentes; lo que decide entonces se dice junto al orden.',
  'What a thing of everyday use weighs in a plan: the measure of the others.': 'Lo que pesa en un plan un objeto de uso diario: la medida de los demás.',
  'What a valued thing weighs in a plan against one of everyday use. Not a published scale: agree on it with the families.':
    'Lo que pesa en un plan un objeto apreciado frente a uno de uso diario. No es una escala publicada: acuérdelo con las familias.',
  'What a treasured thing weighs in a plan against one of everyday use.': 'Lo que pesa en un plan un objeto muy querido frente a uno de uso diario.',
  'What an irreplaceable thing weighs in a plan against one of everyday use.': 'Lo que pesa en un plan un objeto irreemplazable frente a uno de uso diario.',
  'An only copy weighs this many times as much; a copy that nobody asked about counts as the only one.': 'Un ejemplar único pesa estas veces más; uno por el que nadie preguntó cuenta como único.',
  'A lot of 10 to 49 pieces weighs this many times as much as one piece: more than one, and far less than ten, because one step serves them all.':
    'Un lote de 10 a 49 piezas pesa estas veces lo que una pieza: más que una y mucho menos que diez, porque un solo paso sirve para todas.',
  'The same for a lot of 50 to 199 pieces.': 'Lo mismo para un lote de 50 a 199 piezas.',
  'The same for a lot of 200 pieces and more.': 'Lo mismo para un lote de 200 piezas o más.',
  'Hands-on minutes to tag a thing, or a lot however many pieces it counts. With photograph: 8 things an hour and person, a working assumption. Time twenty and set it.':
    'Minutos de trabajo para etiquetar un objeto, o un lote por muchas piezas que tenga. Con la fotografía: 8 objetos por hora y persona, una suposición de trabajo. Cronometre veinte y póngalo.',
  'Hands-on minutes to photograph a thing, or a lot however many pieces it counts. See tagMin.': 'Minutos de trabajo para fotografiar un objeto, o un lote por muchas piezas que tenga. Vea tagMin.',
  'Hands-on minutes to assess a thing, or a lot however many pieces it counts. A guess: time twenty and set it.':
    'Minutos de trabajo para evaluar un objeto, o un lote por muchas piezas que tenga. Una estimación: cronometre veinte y póngalo.',
  'Hands-on minutes of a colour test of one piece: 10 an hour and person, a working assumption.':
    'Minutos de trabajo de una prueba de color de una pieza: 10 por hora y persona, una suposición de trabajo.',
  'Hands-on minutes to stabilise one piece of ordinary size; other sizes go in proportion. A guess: time twenty and set it.':
    'Minutos de trabajo para estabilizar una pieza de tamaño corriente; los demás tamaños, en proporción. Una estimación: cronometre veinte y póngalo.',
  'Hands-on minutes to rinse one piece of ordinary size; other sizes go in proportion, so that with blotting 10 small textiles take an hour and one large quilt takes two people half an hour. Working assumptions: no published rate was found.':
    'Minutos de trabajo para enjuagar una pieza de tamaño corriente; los demás tamaños, en proporción, de modo que con el secado con toallas 10 textiles pequeños llevan una hora y una colcha grande lleva media hora a dos personas. Suposiciones de trabajo: no se encontró ningún ritmo publicado.',
  'Hands-on minutes to blot one piece of ordinary size; other sizes go in proportion. See rinseMin.':
    'Minutos de trabajo para secar con toallas una pieza de tamaño corriente; los demás tamaños, en proporción. Vea rinseMin.',
  'Hands-on minutes to lay out or hang one piece of ordinary size; other sizes go in proportion. The hours of drying are reckoned apart.':
    'Minutos de trabajo para extender o colgar una pieza de tamaño corriente; los demás tamaños, en proporción. Las horas de secado se calculan aparte.',
  'Hands-on minutes to look whether one piece is dry; other sizes go in proportion. A guess: time twenty and set it.':
    'Minutos de trabajo para mirar si una pieza está seca; los demás tamaños, en proporción. Una estimación: cronometre veinte y póngalo.',
  'Hands-on minutes to clean the surface of one piece of ordinary size; other sizes go in proportion. A guess: time twenty and set it.':
    'Minutos de trabajo para limpiar la superficie de una pieza de tamaño corriente; los demás tamaños, en proporción. Una estimación: cronometre veinte y póngalo.',
  'Hands-on minutes to wrap one piece for the freezer: 12 an hour and person, a working assumption; other sizes go in proportion.':
    'Minutos de trabajo para envolver una pieza para el congelador: 12 por hora y persona, una suposición de trabajo; los demás tamaños, en proporción.',
  'Hands-on minutes to put a thing, or a lot, into the freezer; other sizes go in proportion. A guess: time twenty and set it.':
    'Minutos de trabajo para meter un objeto, o un lote, en el congelador; los demás tamaños, en proporción. Una estimación: cronometre veinte y póngalo.',
  'Hands-on minutes to hand a thing, or a lot, to a specialist. A guess: time twenty and set it.':
    'Minutos de trabajo para entregar un objeto, o un lote, a un especialista. Una estimación: cronometre veinte y póngalo.',
  'Hands-on minutes to record a thing, or a lot, and let it go with the agreement of its owner. A guess, and no place to hurry.':
    'Minutos de trabajo para documentar un objeto, o un lote, y dejarlo ir con el acuerdo de su dueño. Una estimación, y no es lugar para prisas.',
  'Hands-on minutes to pack one piece of ordinary size; other sizes go in proportion. A guess: time twenty and set it.':
    'Minutos de trabajo para empaquetar una pieza de tamaño corriente; los demás tamaños, en proporción. Una estimación: cronometre veinte y póngalo.',
  'Hands-on minutes to give a thing, or a lot, back to its household with its papers. A guess, and no place to hurry.':
    'Minutos de trabajo para devolver un objeto, o un lote, a su hogar con sus papeles. Una estimación, y no es lugar para prisas.',
  'What somebody calls damp, or dry to the touch, holds this share of what it would hold blotted, until it is weighed. Measure and refit.':
    'Lo que alguien llama húmedo, o seco al tacto, contiene esta parte de lo que contendría secado con toallas, hasta que se pese. Mida y reajuste.',
  'And at most this share: the wet end of its band.': 'Y como mucho esta parte: el extremo húmedo de su margen.',
  'How far the dry mass of a thing is taken to lie from that of its size class in the band of its water and of its dry moment: a share, either way. Fits leave out more (classDryMassError).':
    'Cuánto se supone que la masa seca de un objeto se aparta de la de su clase de tamaño en el margen de su agua y del momento en que estará seco: una parte, en más o en menos. Los ajustes dejan fuera más (classDryMassError).',
  'How far the water of a thing that nobody weighed is taken to lie from the usual water of its stage, in the same band: a share, either way.':
    'Cuánto se supone que el agua de un objeto que nadie pesó se aparta de la habitual en su estado, en el mismo margen: una parte, en más o en menos.',
  'of blotted': 'de lo secado con toallas',
  // Sight.
  'What waits is met by a crew in the course of a shift; after a shift without anybody having met it, it may have been put down elsewhere.':
    'Lo que espera lo encuentra un equipo en el curso de un turno; tras un turno sin que nadie lo haya visto, puede que lo hayan dejado en otro sitio.',
  "What is being worked on is in somebody's hands: half a shift without a word says that it lies forgotten, or left without a scan.":
    'Aquello en lo que se trabaja está en manos de alguien: medio turno sin noticias indica que quedó olvidado, o que salió sin escanearse.',
  'What hangs is turned, touched or weighed about once a day.': 'Lo que está colgado se gira, se toca o se pesa más o menos una vez al día.',
  'What is kept wet on purpose is looked after every shift, or its water goes bad.': 'Lo que se mantiene mojado a propósito se atiende en cada turno, o su agua se estropea.',
  'What is frozen is left alone, as each look lets warm air in; a stock-take once a week finds what is not there.':
    'Lo congelado se deja tranquilo, porque cada mirada deja entrar aire caliente; un recuento por semana descubre lo que falta.',
  'What is with a specialist is asked after every two weeks.': 'Por lo que está con un especialista se pregunta cada dos semanas.',
  // How long what is personal is kept.
  'Yes: the days count from the closing of the incident, which everybody notices. No: they count for each household from the day on which its last thing left. Local law comes first: ask your counsel how long you must and how long you may keep it.':
    'Sí: los días cuentan desde el cierre del incidente, que todos notan. No: cuentan para cada hogar desde el día en que salió su último objeto. La ley local va primero: pregunte a su asesor jurídico cuánto tiempo debe y cuánto puede guardarlo.',
  'Names, numbers, addresses and the words of consents: a year, so that families can still be reached about what comes up later. Local law comes first: ask your counsel how long you must and how long you may keep it.':
    'Nombres, teléfonos, direcciones y las palabras de los permisos: un año, para poder hablar todavía con las familias de lo que surja después. La ley local va primero: pregunte a su asesor jurídico cuánto tiempo debe y cuánto puede guardarlo.',
  'Photographs: half a year, in which questions about the state of a thing mostly come up. Local law comes first: ask your counsel how long you must and how long you may keep it.':
    'Fotografías: medio año, en el que suelen surgir las preguntas sobre el estado de un objeto. La ley local va primero: pregunte a su asesor jurídico cuánto tiempo debe y cuánto puede guardarlo.',
  'Until the notice at the desk is looked after the first time: families have come back to the place by then. No period of law: local law on found property decides, so ask the authority first.': 'Hasta que se revisa por primera vez el aviso en la mesa: para entonces las familias ya han vuelto al lugar. No es un plazo legal: decide la ley local sobre objetos encontrados, así que pregunte primero a la autoridad.',
  'Until it is looked after the second time: two months, in which those come who had to live elsewhere at first. No period of law: local law on found property decides, so ask the authority first.': 'Hasta que se revisa por segunda vez: dos meses, en los que vienen quienes al principio tuvieron que vivir en otro lugar. No es un plazo legal: decide la ley local sobre objetos encontrados, así que pregunte primero a la autoridad.',
  'Until two people may decide: a year, because families may have lost their home and hear of it late. No period of law: local law on found property decides, so ask the authority first.': 'Hasta que pueden decidir dos personas: un año, porque hay familias que perdieron su casa y se enteran tarde. No es un plazo legal: decide la ley local sobre objetos encontrados, así que pregunte primero a la autoridad.',
  'Off: a lead reads the dry run and starts a run by hand. A network that has settled its periods may have the worker do it every so many days; each run does what the dry run of its moment says.': 'Apagado: una persona responsable lee el ensayo e inicia cada ejecución a mano. Una red que ya fijó sus plazos puede dejar que el servicio lo haga cada tantos días; cada ejecución hace lo que dice el ensayo de ese momento.',
  'days; 0 = never': 'días; 0 = nunca',
  'In the hour that begins then: at night, when nobody is in the middle of something. A look that comes too late for it waits for the next day.': 'En la hora que empieza entonces: de noche, cuando nadie está en medio de algo. Si se llega tarde a esa hora, se espera al día siguiente.',
  'hour of the day in the time zone of the network': 'hora del día en la zona horaria de la red',
  'Recorded voices: a quarter of a year; what was said has been written down by then. Local law comes first: ask your counsel how long you must and how long you may keep it.':
    'Voces grabadas: tres meses; para entonces lo dicho ya está por escrito. La ley local va primero: pregunte a su asesor jurídico cuánto tiempo debe y cuánto puede guardarlo.',
  'What families say of their things, and own words about where things went: as long as the contact. Local law comes first: ask your counsel how long you must and how long you may keep it.':
    'Lo que las familias dicen de sus cosas, y las palabras propias sobre adónde fueron: tanto como el contacto. La ley local va primero: pregunte a su asesor jurídico cuánto tiempo debe y cuánto puede guardarlo.',
  'Where messages went, questions in own words, for whom a link was, how matters were settled: half a year. Local law comes first: ask your counsel how long you must and how long you may keep it.':
    'Adónde fueron los mensajes, preguntas con palabras propias, para quién era un enlace, cómo se resolvieron los asuntos: medio año. La ley local va primero: pregunte a su asesor jurídico cuánto tiempo debe y cuánto puede guardarlo.',
  'Signatures on receipts: a year, in which somebody may ask who took a thing. Local law comes first: ask your counsel how long you must and how long you may keep it.':
    'Firmas en los recibos: un año, en el que alguien puede preguntar quién se llevó un objeto. La ley local va primero: pregunte a su asesor jurídico cuánto tiempo debe y cuánto puede guardarlo.',
  'Rows of files that were read in: a quarter of a year; what they said stands with the things. Local law comes first: ask your counsel how long you must and how long you may keep it.':
    'Filas de los archivos leídos: tres meses; lo que decían consta con los objetos. La ley local va primero: pregunte a su asesor jurídico cuánto tiempo debe y cuánto puede guardarlo.',
  'Notes on alarms and words on containers, which may name somebody: a year. Local law comes first: ask your counsel how long you must and how long you may keep it.':
    'Notas en las alarmas y palabras en los contenedores, que pueden nombrar a alguien: un año. La ley local va primero: pregunte a su asesor jurídico cuánto tiempo debe y cuánto puede guardarlo.',
  'Everything else that is known of a household, notes and receipts included: two years, then its key is destroyed. What happened to the things stays provable by ids and hashes. Local law comes first: ask your counsel how long you must and how long you may keep it.':
    'Todo lo demás que se sabe de un hogar, incluidas notas y recibos: dos años; después se destruye su clave. Lo que pasó con los objetos se sigue pudiendo demostrar con identificadores y huellas digitales. La ley local va primero: pregunte a su asesor jurídico cuánto tiempo debe y cuánto puede guardarlo.',
  // What families are told by themselves.
  'What happens to things of one family within this time is told in one message: a crew that unloads a van is done with a family by then.':
    'Lo que pasa con cosas de una familia en este tiempo se cuenta en un solo mensaje: un equipo que descarga una furgoneta ha terminado con una familia para entonces.',
  'Families who wish it are told that things of theirs have come to us.':
    'A las familias que lo desean se les dice que han llegado cosas suyas a nosotros.',
  'Families who wish it are told that things are ready to go back to them.':
    'A las familias que lo desean se les dice que hay cosas listas para devolvérselas.',
  'Families who wish it are told that things were handed back to them, so that they notice if somebody else took them.':
    'A las familias que lo desean se les dice que se les devolvieron cosas, para que noten si se las llevó otra persona.',
  'Families who wish it are told after a thing was let go with their agreement, so that they can speak with us. The message does not name it.':
    'A las familias que lo desean se les avisa después de que, con su acuerdo, nos desprendimos de un objeto, para que puedan hablar con nosotros. El mensaje no lo nombra.',
  'Families who wish it are reminded of what is ready and was not fetched, on the two days that were set for it.':
    'A las familias que lo desean se les recuerda lo que está listo y no se ha recogido, en los dos días fijados para ello.',
};
