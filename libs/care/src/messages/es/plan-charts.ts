/** Words in and below the charts of a plan, and what was planned against what was done. Labels are short. */
export const PLAN_CHARTS: Readonly<Record<string, string>> = {
  'Advice to a trained lead, who may decide otherwise with a recorded reason. Times are rules of practice, never promises; what nobody has reported stands here as not done.':
    'Consejos para una persona responsable con formación, que puede decidir otra cosa y anotar el motivo. Los tiempos son reglas prácticas, nunca promesas; lo que nadie ha anotado figura aquí como no hecho.',
  'still to come': 'por hacer',
  'in work': 'en curso',
  'done': 'hecho',
  'late: should have begun': 'con retraso: ya debía haber empezado',
  'dropped: goes another way, or has left': 'descartado: sigue otra vía o ya salió',
  '{name} ({code}), work by the plan': '{name} ({code}), trabajo según el plan',
  'now, {moment}': 'ahora, {moment}',
  'What is in work at the station': 'Lo que está en curso en el puesto',
  'Places of the station: {capacity}; more rows where more is in work': 'Plazas del puesto: {capacity}; más filas donde hay más en curso',
  'closed': 'cerrado',
  '{count, plural, one {# bar has} other {# bars have}} no room for a name: ask for fewer hours.': '{count, plural, one {# barra no tiene} other {# barras no tienen}} sitio para su nombre: pida menos horas.',
  '{tag} and {more} more': '{tag} y {more} más',
  '{who}, “{step}”, {from} to {to}: {state}': '{who}, «{step}», {from} a {to}: {state}',
  'begun {from}': 'empezado {from}',
  'begun {from}, ended {to}': 'empezado {from}, terminado {to}',
  'No plan is in force yet.': 'Todavía no hay un plan en vigor.',
  'By plan {number}.': 'Según el plan {number}.',
  'Of plan {number} it is not kept what it was made from; only what is in work now is shown.': 'Del plan {number} no se conserva con qué se hizo; solo se muestra lo que está en curso ahora.',
  '{bars, plural, one {# piece of work is} other {# pieces of work are}} shown: {done} done, {inWork} in work, {late} late, {planned} still to come.':
    'Se {bars, plural, one {muestra # trabajo} other {muestran # trabajos}}: {done} hechos, {inWork} en curso, {late} con retraso, {planned} por hacer.',
  '{dropped} more {dropped, plural, one {is} other {are}} dropped: the thing goes another way, or has left.': 'Otros {dropped} {dropped, plural, one {se descartó} other {se descartaron}}: el objeto sigue otra vía o ya salió.',
  '{beside, plural, one {# is} other {# are}} in work although the plan has it elsewhere or not at all; when it ends is not foreseen.':
    '{beside, plural, one {# está} other {# están}} en curso aunque el plan lo tiene en otro lugar o no lo tiene; no está previsto cuándo termina.',
  '{leftOut} more do not fit into one answer. Ask for fewer hours.': 'Otros {leftOut} no caben en una respuesta. Pida menos horas.',
  // Loads
  'Stations for “{step}”': 'Puestos para «{step}»',
  'People': 'Personas',
  'People with the skill “{skill}”': 'Personas con la habilidad «{skill}»',
  'Drying area in room {code}': 'Superficie de secado en la sala {code}',
  'Water given to the air of room {code}, and what it takes': 'Agua que recibe el aire de la sala {code}, y la que admite',
  'Volume of freezer {code}': 'Volumen del congelador {code}',
  'Courier or specialist {code}': 'Transporte o especialista {code}',
  'journeys or hours of {service}': 'viajes u horas de {service}',
  'As the plan knew things when it was made. Rates, areas and volumes are our own calibration, and what a room’s air takes is an estimate: look and measure before you rely on it. A trained lead decides, safety and local codes come first.':
    'Tal como el plan conocía las cosas cuando se hizo. Los ritmos, las superficies y los volúmenes son una calibración propia, y lo que admite el aire de una sala es una estimación: mire y mida antes de fiarse. Decide una persona responsable con formación; la seguridad y las normas locales van primero.',
  'stations in use': 'puestos en uso',
  'people at work': 'personas trabajando',
  'square metres': 'metros cuadrados',
  'g of water per hour': 'g de agua por hora',
  'litres': 'litros',
  'pieces': 'piezas',
  '{resource}, at {site}': '{resource}, en {site}',
  'used by the plan': 'usa el plan',
  'there is': 'hay',
  'more than there is': 'más de lo que hay',
  'The plan says nothing of this time': 'El plan no dice nada de este tiempo',
  'The plan says nothing of this time. Ask for one that it covers.': 'El plan no dice nada de este tiempo. Pida uno que abarque.',
  'Nothing of it is used in this time.': 'En este tiempo no se usa nada de ello.',
  'The most is used on {moment}: {used}, where there are {available} ({unit}).': 'Lo máximo se usa el {moment}: {used}, donde hay {available} ({unit}).',
  'For {hours} hours more is in use than there is, because it had begun before the plan was made; the plan places nothing on top of it.':
    'Durante {hours} horas se usa más de lo que hay, porque había empezado antes de hacer el plan; el plan no añade nada encima.',
  // Planned against done
  'Counted from what was reported: what nobody has reported counts as not begun. It shows where plans are off, and is no measure of people; times of handling are our own calibration until they are compared like this. Nobody is asked to hurry: protection and safety come before speed.':
    'Contado a partir de lo anotado: lo que nadie ha anotado cuenta como no empezado. Muestra dónde fallan los planes y no mide a las personas; los tiempos de trabajo son una calibración propia hasta que se comparan así. No se pide a nadie que se apresure: la protección y la seguridad van antes que la rapidez.',
  'The detail of older plans is not kept, or there were none: this is told from {since} on.': 'El detalle de los planes anteriores no se conserva, o no los hubo: esto se cuenta desde el {since}.',
  'The last 24 hours, from {since} on.': 'Las últimas 24 horas, desde el {since}.',
  'Plan {number}, made on {moment}.': 'Plan {number}, hecho el {moment}.',
  'Nothing was due to begin yet.': 'Todavía no debía empezar nada.',
  '{due, plural, one {# beginning was} other {# beginnings were}} due: {onTime} came in time (within {minutes} minutes), {late} late, {notYet} have not come yet.':
    '{due, plural, one {Debía haber # comienzo} other {Debía haber # comienzos}}: {onTime} a tiempo (con {minutes} minutos de margen), {late} con retraso, {notYet} todavía no.',
  'Of {startUnknown} more it is not on record when they began: write the beginning down with the report.': 'De otros {startUnknown} no consta cuándo empezaron: anote el comienzo junto con el resultado.',
  '{dropped} more fell away, because the thing goes another way or has left.': 'Otros {dropped} dejaron de hacer falta, porque el objeto sigue otra vía o ya salió.',
  'Half of what began did so at most {median} minutes after it was planned, four fifths at most {p80} minutes.': 'La mitad de lo empezado lo hizo como mucho {median} minutos después de lo planeado, cuatro quintos como mucho {p80} minutos.',
  '“{step}” takes {percent} % of the time that is planned for it, by {steps} that were reported.': '«{step}» lleva el {percent} % del tiempo planeado, según {steps} anotados.',
  '{followed} {followed, plural, one {thing goes} other {things go}} the way that was planned, {otherWay} another; with {notBegun} nothing has begun.':
    '{followed} {followed, plural, one {objeto sigue} other {objetos siguen}} la vía planeada, {otherWay} otra; con {notBegun} no ha empezado nada.',
  'Of {promised, plural, one {# thing} other {# things}} that the plan had in time, {inTime} {inTime, plural, one {is} other {are}} safe in time, {late} safe too late, {open} not safe; of these the moment has passed for {overdue}.':
    'De {promised, plural, one {# objeto} other {# objetos}} que el plan tenía a tiempo, {inTime} {inTime, plural, one {está} other {están}} a salvo a tiempo, {late} a salvo demasiado tarde, {open} sin estar a salvo; de estos, para {overdue} ya pasó el momento.',
};
