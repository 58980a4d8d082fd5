/** Estimates of drying, rooms and what they can take. */
export const CLIMATE_AIR: Readonly<Record<string, string>> = {
  'No water leaves this room: neither machines nor outdoor air take any. Hang nothing wet here.': 'De este cuarto no sale agua: ni las máquinas ni el aire de fuera se la llevan. No cuelgue aquí nada mojado.',
  'The air rises to about {peakPct} %, above the cap of {capPct} %: everything else in the room is at risk. Hang less, or take more water out of the air.':
    'El aire sube a cerca de {peakPct} %, por encima del tope de {capPct} %: todo lo demás que hay en el cuarto corre riesgo. Cuelgue menos, o saque más agua del aire.',
  'By the clock of the rule of practice mould may come before these goods are dry. Freeze or cool what may be, or give it a better place first.':
    'Según el reloj de la regla práctica, el moho puede llegar antes de que estas cosas estén secas. Congele o enfríe lo que se pueda, o dele antes un lugar mejor.',
  'Some goods would come to rest damp in this air and never dry. Lower the humidity.': 'En este aire algunas cosas se quedarían húmedas y no se secarían nunca. Baje la humedad.',
  'Some goods may not be dry within {withinH} h.': 'Puede que algunas cosas no estén secas en {withinH} h.',
  'The air reaches saturation: water would settle on cold walls, windows and goods.': 'El aire llega a la saturación: el agua se posaría en paredes frías, ventanas y cosas.',
  'Thick or closed goods dry from inside: a single number would be false precision, so only a band is given. Weigh them.':
    'Lo grueso o cerrado se seca desde dentro: un solo número sería una precisión falsa, así que solo se da un margen. Péselo.',
  'At {airTempC} °C a refrigerant dehumidifier frosts and takes out far less than its label.': 'A {airTempC} °C un deshumidificador de compresor se escarcha y saca mucho menos de lo que dice su etiqueta.',
  'Outdoor air is drier: exchanging air takes water away. Keep the room warm, and keep rain, dust and draughts off the goods.':
    'El aire de fuera es más seco: ventilar se lleva agua. Mantenga el cuarto templado, y las cosas lejos de lluvia, polvo y corrientes.',
  'Outdoor air holds as much water as the room or more: opening windows would not dry it. Keep them closed.':
    'El aire de fuera tiene tanta agua como el del cuarto o más: abrir las ventanas no lo secaría. Déjelas cerradas.',
  'About {totalKw} kW of electric load. Ask a licensed electrician about the supply; keep cords and plugs off wet floors and behind a residual-current device (GFCI).':
    'Cerca de {totalKw} kW de carga eléctrica. Pregunte por la instalación a un electricista con licencia; mantenga cables y enchufes lejos de pisos mojados y tras un interruptor diferencial (GFCI).',
  'About {totalKw} kW of electric load: more than one circuit of {circuitKw} kW carries, at least {circuitsAtLeast}. Do not plug it all into one. Ask a licensed electrician about the supply; keep cords and plugs off wet floors and behind a residual-current device (GFCI).':
    'Cerca de {totalKw} kW de carga eléctrica: más de lo que aguanta un circuito de {circuitKw} kW; hacen falta al menos {circuitsAtLeast}. No lo enchufe todo a uno. Pregunte por la instalación a un electricista con licencia; mantenga cables y enchufes lejos de pisos mojados y tras un interruptor diferencial (GFCI).',
  'Moving air lifts the room to about {peakPct} % and saves about {hoursSaved} h: the air can take no more water than leaves it. Take more water out first.':
    'Mover el aire sube el cuarto a cerca de {peakPct} % y ahorra cerca de {hoursSaved} h: el aire no puede tomar más agua de la que sale. Saque antes más agua.',
  'Worth while.': 'Vale la pena.',
  'It changes little.': 'Cambia poco.',
  'A fan alone lifts the room to about {peakPct} % and saves about {hoursSaved} h: the air can take no more water than leaves it. Take more water out first.':
    'Un ventilador solo sube el cuarto a cerca de {peakPct} % y ahorra cerca de {hoursSaved} h: el aire no puede tomar más agua de la que sale. Saque antes más agua.',
  'Outdoor air is not drier by enough: opening windows would not dry the room. Keep them closed.': 'El aire de fuera no es lo bastante más seco: abrir las ventanas no secaría el cuarto. Déjelas cerradas.',
  'Holding the temperature would take about {moreHeatKw} kW more heat; without it the room cools and dries more slowly than said here.':
    'Mantener la temperatura pediría cerca de {moreHeatKw} kW más de calor; sin él el cuarto se enfría y seca más despacio de lo que se dice aquí.',
  'The air would still rise above its cap, to about {peakPct} %.': 'El aire subiría aún por encima de su tope, a cerca de {peakPct} %.',
  'It brings the room below its cap, to at most about {peakPct} %.': 'Deja el cuarto por debajo de su tope, en cerca de {peakPct} % como mucho.',
  'One more machine like the largest one; 20 litres a day where there is none.': 'Una máquina más, como la más grande; de 20 litros al día donde no hay ninguna.',
  'A fan that moves air at 1 m/s across the faces.': 'Un ventilador que mueva el aire a 1 m/s sobre las caras.',
  'Windows open, four changes of air an hour.': 'Ventanas abiertas, cuatro renovaciones de aire por hora.',
  'Windows shut, a third of a change of air an hour.': 'Ventanas cerradas, un tercio de renovación de aire por hora.',
  'A quarter of the things taken off.': 'Una cuarta parte de las cosas retirada.',
  'The fan and one more machine.': 'El ventilador y una máquina más.',
  'How much water is in it was not told: it counts as drained ({names}). Weighing tells.': 'No se dijo cuánta agua tiene: cuenta como escurrido ({names}). Pesarlo lo dice.',
  'How air reaches it was not told: a packed rack is taken, the slowest ({names}).': 'No se dijo cómo le llega el aire: se toma un estante apretado, lo más lento ({names}).',
  'Whether it is thin was not told: it counts as thick ({names}).': 'No se dijo si es delgado: cuenta como grueso ({names}).',
  'How it lies was not told: flat on a board with one free face is taken ({names}).': 'No se dijo cómo está puesto: se toma plano sobre una tabla, con una cara libre ({names}).',
  'Mass or size are those of a usual thing of its kind ({names}); your own weighing is better.': 'El peso o el tamaño son los de una cosa corriente de su clase ({names}); pesarla es mejor.',
  'This air is too damp: it would come to rest wet and never dry to a safe state. Lower the humidity first, or freeze what may be frozen.':
    'Este aire es demasiado húmedo: se quedaría mojado y nunca llegaría a un estado seguro. Baje antes la humedad, o congele lo que se pueda congelar.',
  'Between {earliestH} and {latestH} h: it dries from inside, and a single number would be false precision. Weigh it twice, some hours apart.':
    'Entre {earliestH} y {latestH} h: se seca desde dentro, y un solo número sería una precisión falsa. Péselo dos veces, con unas horas de diferencia.',
  'Dry after about {hours} h, most likely between {earliestH} and {latestH} h. Weigh and feel it before it is packed.':
    'Seco en cerca de {hours} h, lo más probable entre {earliestH} y {latestH} h. Péselo y tóquelo antes de empacarlo.',
  'one more would lift the room above its humidity cap; more dehumidification, not more racks, is what helps': 'uno más subiría el cuarto por encima de su tope de humedad; lo que ayuda es más deshumidificación, no más estantes',
  'one more would let a mould clock run out before all is dry': 'con uno más, un reloj de moho se agotaría antes de que todo esté seco',
  'one more would not be dry in the time allowed': 'uno más no estaría seco en el tiempo permitido',
  'there is no rack left for one more': 'no queda estante para uno más',
  'All {waiting} can be hung now.': 'Ahora se pueden colgar los {waiting}.',
  'Hang nothing more now: {why}.': 'No cuelgue nada más ahora: {why}.',
  'Hang {accepted} of {waiting} now: {why}.': 'Cuelgue ahora {accepted} de {waiting}: {why}.',
  'An estimate to plan with, not a promise: weigh, feel, watch the hygrometer and plan again. A lead who sees the things decides, and a conservator where there is one.':
    'Una estimación para planear, no una promesa: pese, toque, mire el higrómetro y vuelva a planear. Decide un responsable que ve las cosas, y un conservador donde lo haya.',
  'ASHRAE Handbook, Fundamentals 2017, SI, chapter 1: moist air, as read in the PsychroLib implementation. Valid for -50 to 60 °C; ideal gas, so saturation reads up to 0.6 % low.':
    'ASHRAE Handbook, Fundamentals 2017, SI, capítulo 1: aire húmedo, leído en la implementación PsychroLib. Vale de -50 a 60 °C; gas ideal, así que la saturación sale hasta 0.6 % baja.',
  'From memory, not verified: heat of evaporation as a straight line from 0 to 40 °C.': 'De memoria, sin comprobar: calor de evaporación como una recta de 0 a 40 °C.',
  'Form of the pool equation: ASHRAE Transactions 1998, 104-1A, as read in its abstract. Its level is trusted to 30 % either way until fitted from weighings.':
    'Forma de la ecuación de piscinas: ASHRAE Transactions 1998, 104-1A, leída en su resumen. Su nivel se da por bueno con 30 % de más o de menos, hasta ajustarlo con pesadas.',
  'From memory, not verified: the pool equation in SI units; the inch-pound one converts to it within 1 %.': 'De memoria, sin comprobar: la ecuación de piscinas en unidades SI; la inglesa convertida coincide en 1 %.',
  'Fourt, Sookne, Frishman and Harris, The Rate of Drying of Fabrics, abstract: one rate for all fabrics of an area, set by the air film. Holds for thin goods, below about 5 mm.':
    'Fourt, Sookne, Frishman y Harris, The Rate of Drying of Fabrics, resumen: un mismo ritmo para todas las telas de un área, marcado por la película de aire. Vale para lo delgado, de menos de unos 5 mm.',
  'Regain at 65 % and 20 °C: Bioresources and Bioprocessing 2020, 10.1186/s40643-020-00339-1, table 10, after Morton and Hearle 2008.':
    'Humedad retenida a 65 % y 20 °C: Bioresources and Bioprocessing 2020, 10.1186/s40643-020-00339-1, tabla 10, según Morton y Hearle 2008.',
  'From memory, not verified.': 'De memoria, sin comprobar.',
  'Our own: mixed or unknown goods count as cotton, acetate by the same proportion.': 'Propio: lo mezclado o desconocido cuenta como algodón, el acetato en la misma proporción.',
  'Our own: a straight line through the regain at 65 %, a parabola to saturation; drying slows below saturation. It decides the last tenth or two of the time.':
    'Propio: una recta por la humedad retenida a 65 %, una parábola hasta la saturación; el secado se frena por debajo de ella. Decide la última décima o dos del tiempo.',
  'Winkler, Christensen and Tomerlin, Laboratory Test Report for Six ENERGY STAR Dehumidifiers, NREL, 2011: coefficients as read in copies; the title from memory. Measured down to about 21 °C; below that carried on by us.':
    'Winkler, Christensen y Tomerlin, Laboratory Test Report for Six ENERGY STAR Dehumidifiers, NREL, 2011: coeficientes leídos en copias; el título, de memoria. Medido hasta unos 21 °C; por debajo lo prolongamos nosotros.',
  'The label of the machine at its rating point, as told.': 'La etiqueta de la máquina en su punto de medida, como se dijo.',
  'A. Hukka and H. A. Viitanen, Wood Science and Technology 33 (1999): shape of growth with temperature and humidity, as read in copies; found on wood, carried over by us.':
    'A. Hukka y H. A. Viitanen, Wood Science and Technology 33 (1999): forma del crecimiento según temperatura y humedad, leída en copias; hallada en madera, trasladada por nosotros.',
  'Our own scheme over the balance of water: steps of 15 minutes, checked against an independent integrator within 0.5 %. Temperature is taken as held; walls store neither water nor heat.':
    'Esquema propio sobre el balance del agua: pasos de 15 minutos, comparado con un integrador independiente dentro de 0.5 %. La temperatura se toma como mantenida; las paredes no guardan agua ni calor.',
};
