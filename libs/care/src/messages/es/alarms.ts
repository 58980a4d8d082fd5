/** Alarms about the air of rooms, their machines and freezers. */
export const ALARMS: Readonly<Record<string, string>> = {
  'Electricity near water kills: touch no plug, cable or machine with wet hands or while you stand in water. Take the power off before anybody opens, empties or moves a machine that has stopped; a breaker that has tripped is reset by a licensed electrician and by nobody else.':
    'La electricidad cerca del agua mata: no toque enchufes, cables ni máquinas con las manos mojadas o de pie en el agua. Corte la corriente antes de que alguien abra, vacíe o mueva una máquina que se ha parado; un interruptor que ha saltado lo restablece un electricista autorizado y nadie más.',
  'Mould may be growing there: wear a fit-tested N95 respirator or better, gloves and eye protection. Nobody with asthma, a mould allergy or weakened immunity goes in.':
    'Allí puede estar creciendo moho: use un respirador N95 o mejor con prueba de ajuste, guantes y protección para los ojos. No entra nadie con asma, alergia al moho o defensas bajas.',
  'Keep the lid shut, and let nobody open parcels to look. Thawing starts every clock again and can make dyes run.':
    'Mantenga la tapa cerrada y no deje que nadie abra paquetes para mirar. Al descongelarse, todos los plazos vuelven a correr y los tintes pueden correrse.',
  'Do not simply freeze again what has thawed: ask a conservator first, above all for wet photographs, film, books and coated paper, and dry what can be dried.':
    'No vuelva a congelar sin más lo que se ha descongelado: pregunte primero a un conservador, sobre todo por fotografías, películas, libros y papel satinado mojados, y seque lo que se pueda secar.',
  'Read an ordinary hygrometer and type it in. Without readings the air soon counts as saturated, so clocks run fast on paper.':
    'Lea un higrómetro común y anote lo que marca. Sin lecturas el aire pronto cuenta como saturado, así que en el papel los plazos corren deprisa.',
  'Read its thermometer and type it in, with the lid shut if that can be done. Nobody knows whether what lies in it is still frozen.':
    'Lea su termómetro y anote lo que marca, con la tapa cerrada si se puede. Nadie sabe si lo que hay dentro sigue congelado.',
  '{name}: the air is at {humidity} %, above its cap of {cap} %.': '{name}: el aire está al {humidity} %, por encima de su límite del {cap} %.',
  'Hang nothing more there. See that every dehumidifier runs and its tank is empty, and close doors to damp rooms.':
    'No cuelgue nada más allí. Compruebe que todos los deshumidificadores funcionan y tienen el depósito vacío, y cierre las puertas que dan a salas húmedas.',
  'Open windows only while the air outside is drier than the air inside.': 'Abra las ventanas solo mientras el aire de fuera sea más seco que el de dentro.',
  '{name}: at {humidity} % and {temperature} °C mould can grow even on things that are dry.': '{name}: al {humidity} % y {temperature} °C el moho puede crecer incluso en objetos secos.',
  'Bring the humidity down now, or move the dry things out to a drier or colder place. Take the most perishable first.':
    'Baje la humedad ahora, o lleve los objetos secos a un lugar más seco o más frío. Empiece por los más delicados.',
  '{name}: {items, plural, one {the clock of # thing is} other {the clocks of # things are}} at amber ({households, plural, one {# household} other {# households}}); they stand still for now.':
    '{name}: {items, plural, one {el plazo de # objeto está} other {los plazos de # objetos están}} en ámbar ({households, plural, one {# hogar} other {# hogares}}); por ahora no corren.',
  '{name}: {items, plural, one {the clock of # thing is} other {the clocks of # things are}} at amber ({households, plural, one {# household} other {# households}}); the first has about {hours} h left by the 48 h rule of practice.':
    '{name}: {items, plural, one {el plazo de # objeto está} other {los plazos de # objetos están}} en ámbar ({households, plural, one {# hogar} other {# hogares}}); al primero le quedan unas {hours} h según la regla práctica de las 48 h.',
  '{name}: {items, plural, one {the clock of # thing is} other {the clocks of # things are}} at amber ({households, plural, one {# household} other {# households}}). In the present air they hardly run: it would be more than {days} days until the first is red. In damper air it is less.':
    '{name}: {items, plural, one {el plazo de # objeto está} other {los plazos de # objetos están}} en ámbar ({households, plural, one {# hogar} other {# hogares}}). Con el aire actual apenas corren: pasarían más de {days} días hasta que el primero esté en rojo. Con aire más húmedo es menos.',
  'Give them the driest places and a fan that does not blow straight at them, or freeze what may be frozen. A lead decides which.':
    'Deles los lugares más secos y un ventilador que no les sople directamente, o congele lo que se pueda congelar. Decide una persona responsable.',
  '{name}: {items, plural, one {# thing has} other {# things have}} used up the time that the rule of practice allows ({households, plural, one {# household} other {# households}}). That does not say that there is mould.':
    '{name}: {items, plural, one {# objeto ha} other {# objetos han}} agotado el tiempo que da la regla práctica ({households, plural, one {# hogar} other {# hogares}}). Eso no quiere decir que haya moho.',
  'Look at each of them for mould before it is handled further, and record what you see. What has mould goes to quarantine.':
    'Antes de seguir con ellos, revise si cada uno tiene moho y anote lo que vea. Lo que tenga moho va a cuarentena.',
  '{name}: the dehumidifier {code} is recorded as tripped.': '{name}: consta que el deshumidificador {code} se paró por sí solo.',
  'Ask for a licensed electrician, and for another machine meanwhile. Record it as running when it runs again.':
    'Pida un electricista autorizado y, mientras tanto, otra máquina. Cuando vuelva a funcionar, anótelo.',
  '{name}: in {hours} h {running, plural, one {the dehumidifier} other {the # dehumidifiers}} should have taken about {expected} kg of water from this air, and can have taken {taken} kg at most.':
    '{name}: en {hours} h {running, plural, one {el deshumidificador debía} other {los # deshumidificadores debían}} haber sacado de este aire unos {expected} kg de agua, y a lo sumo se sacaron {taken} kg.',
  'Go and look: does it run, is the tank full, the filter blocked, the coil iced, a door open? If one has stopped, record it as tripped or off.':
    'Vaya a mirar: ¿funciona, está lleno el depósito, obstruido el filtro, con hielo el serpentín, abierta una puerta? Si alguno se ha parado, anote si se paró por sí solo o si está apagado.',
  'It is reckoned from the air, the things that hang and the labels, so a wrong label or an open door gives the same picture.':
    'Se calcula a partir del aire, de lo que está colgado y de las placas de las máquinas, así que una placa errónea o una puerta abierta dan la misma imagen.',
  '{name}: the freezer is at {temperature} °C, warmer than {limit} °C. Frozen things are held at -18 °C.': '{name}: el congelador está a {temperature} °C, por encima de {limit} °C. Lo congelado se mantiene a -18 °C.',
  'See that the lid is shut, the plug in and nothing warm was just put in. If it does not fall within the hour, find another freezer and move the parcels closed.':
    'Compruebe que la tapa está cerrada, que está enchufado y que no se acaba de meter nada caliente. Si no baja en una hora, busque otro congelador y traslade los paquetes cerrados.',
  '{name}: the freezer is at {temperature} °C. What lies in it thaws, and its clocks run again.': '{name}: el congelador está a {temperature} °C. Lo que hay dentro se descongela y sus plazos vuelven a correr.',
  'Move the parcels, closed and still frozen ones first, to another freezer. Take out only what can be dried in this session.':
    'Traslade los paquetes a otro congelador, primero los cerrados que sigan congelados. Saque solo lo que se pueda secar en esta sesión.',
  '{name}: no reading for {minutes} min, where one is expected every {every} min.': '{name}: sin lecturas desde hace {minutes} min, cuando se espera una cada {every} min.',
  '{name}: no reading for {hours} h, where one is expected every {every} h.': '{name}: sin lecturas desde hace {hours} h, cuando se espera una cada {every} h.',
  '{name}: no reading for {hours} h, where one is expected every {every} min.': '{name}: sin lecturas desde hace {hours} h, cuando se espera una cada {every} min.',
  '{name}: nobody has met {items, plural, one {# thing} other {# things}} for longer than is usual at this stage ({households, plural, one {# household} other {# households}}).':
    '{name}: nadie ha visto {items, plural, one {# objeto} other {# objetos}} desde hace más tiempo de lo habitual en esta etapa ({households, plural, one {# hogar} other {# hogares}}).',
  'Look for each where it is on record, the longest unseen first, and scan it there. What is not found is reported missing.':
    'Busque cada uno donde figura en el registro, primero el que lleva más tiempo sin verse, y escanéelo allí. Lo que no aparece se comunica como perdido.',
  '{name}: no reading for {hours} h.': '{name}: sin lecturas desde hace {hours} h.',
};
