/**
 * Why each number of our own calibration is what it is, and the units that are words: those of the people checks, and those of the
 * climate library, which cannot reach this catalogue; the English sentence of its table is the key.
 */
export const CALIBRATION: Readonly<Record<string, string>> = {
  'faces': 'caras',
  'times': 'veces',
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
};
