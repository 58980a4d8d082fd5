/** How a drying room stands and what comes of it. */
export const ROOM_CLIMATE: Readonly<Record<string, string>> = {
  'Advice to a trained lead. Local codes and licensed people come first. An alarm is reckoned from readings and may be wrong: go and look.':
    'Consejos para una persona responsable con formación. Las normas locales y las personas con licencia van primero. Una alarma se calcula a partir de lecturas y puede equivocarse: vaya a mirar.',
  'Reckoned from readings, from what hangs there and from the labels of the machines; the speed of drying is trusted to a third, or as weighings have fitted it. Weigh, touch and look before you rely on it. The mould clock is a rule of practice, not a forecast of when mould starts.':
    'Calculado a partir de lecturas, de lo que está colgado y de las placas de las máquinas; en la rapidez del secado se confía con un margen de un tercio, o según la hayan ajustado las pesadas. Pese, toque y mire antes de fiarse. El plazo del moho es una regla práctica, no un pronóstico de cuándo empieza el moho.',
  'The air is below the cap of the room.': 'El aire está por debajo del límite de la sala.',
  'The air is close to the cap: hang no more than the room can take.': 'El aire está cerca del límite: no cuelgue más de lo que la sala admite.',
  'The air is above the cap: everything in the room is at risk. Hang nothing more, and bring the humidity down.': 'El aire está por encima del límite: todo lo que hay en la sala corre peligro. No cuelgue nada más y baje la humedad.',
  'Air this damp lets mould grow even on things that are dry. Hang nothing more, and bring the humidity down.': 'Con un aire tan húmedo el moho crece incluso en objetos secos. No cuelgue nada más y baje la humedad.',
  'How wet it was when it was hung is the usual water of such things: weigh it to know.': 'El agua que tenía al colgarlo es la habitual de objetos así: péselo para saberlo.',
  'The time that the rule of practice allows is used up: look for mould before it is handled, with a respirator, gloves and eye protection.':
    'El tiempo que da la regla práctica se agotó: antes de tocarlo revise si tiene moho, con respirador, guantes y protección para los ojos.',
  'By the rule of practice its time may run out before it is dry. Give it a drier place or a fan that does not blow straight at it, or freeze it if that is allowed.':
    'Según la regla práctica su tiempo puede agotarse antes de que esté seco. Dele un lugar más seco o un ventilador que no le sople directamente, o congélelo si está permitido.',
  '{percent} % of its clock is assumed because nobody measured; such time counts on the cautious side.': 'El {percent} % de su plazo es supuesto, porque nadie midió; ese tiempo se cuenta con la mayor cautela.',
  'It hangs there no longer.': 'Ya no está colgado allí.',
  'By reckoning it is dry. Weigh and touch it before it is taken down.': 'Según el cálculo está seco. Péselo y tóquelo antes de descolgarlo.',
  'In this air it will not be dry within three days. Lower the humidity, or freeze it if that is allowed.': 'Con este aire no estará seco antes de tres días. Baje la humedad, o congélelo si está permitido.',
  'Ready by weight. Feel seams and the thickest place, and look inside what is thick or closed; then keep it at or below 65 % humidity.':
    'Listo según el peso. Palpe las costuras y la parte más gruesa, y mire dentro de lo grueso o cerrado; después guárdelo a 65 % de humedad o menos.',
  'It has come to rest in dry air: ready by weight. Feel seams and the thickest place, and look inside what is thick or closed; then keep it at or below 65 % humidity.':
    'En aire seco ya no pierde peso: listo según el peso. Palpe las costuras y la parte más gruesa, y mire dentro de lo grueso o cerrado; después guárdelo a 65 % de humedad o menos.',
  'Not yet: by weight it still holds water.': 'Todavía no: según el peso aún tiene agua.',
  'Not yet: it is still losing weight.': 'Todavía no: sigue perdiendo peso.',
  'Not yet, and not in this air: it would come to rest damp. Lower the humidity first.': 'Todavía no, y no en este aire: quedaría húmedo. Baje primero la humedad.',
  'It is close to dry, and the scale cannot tell yet: weigh it again.': 'Está casi seco y la balanza aún no puede decirlo: péselo de nuevo.',
  'One weighing cannot tell, because its dry weight is not known well enough: weigh it again.': 'Una sola pesada no basta, porque no se conoce bien su peso en seco: péselo de nuevo.',
  'Too soon after the weighing before: a thing still damp would not show it yet. Weigh it again.': 'Muy pronto después de la pesada anterior: si aún estuviera húmedo no se notaría. Péselo de nuevo.',
  'This scale is too coarse for this thing: use a finer one, or weigh several like things together.': 'Esta balanza es demasiado gruesa para este objeto: use una más fina, o pese juntos varios iguales.',
  'It grew heavier: weigh it again, and see whether it was wetted or mixed up.': 'Pesa más que antes: péselo de nuevo y vea si se mojó o se confundió con otro.',
  'Nobody has read the air here: read it first, the weight alone cannot tell.': 'Nadie ha medido el aire aquí: mídalo primero, el peso solo no lo dice.',
  'It may be dry already, and should be in {latest} h: weigh it.': 'Quizá ya esté seco, y debería estarlo en {latest} h: péselo.',
  'It should be dry in {earliest} h at the earliest, perhaps not within three days.': 'Debería estar seco en {earliest} h como pronto, quizá no antes de tres días.',
  'It should be dry in {earliest} to {latest} h.': 'Debería estar seco en {earliest} a {latest} h.',
  'It should be dry in {earliest} to {latest} h; it dries from inside, so only weighing tells when.': 'Debería estar seco en {earliest} a {latest} h; se seca desde dentro, así que solo pesarlo dice cuándo.',
  'One more would lift the room above its humidity cap: more dehumidification helps, more racks do not.': 'Uno más llevaría la sala por encima de su límite de humedad: sirve deshumidificar más; poner más bastidores, no.',
  'One more would let a mould clock run out before all is dry.': 'Con uno más se agotaría un plazo de moho antes de que todo esté seco.',
  'One more would not be dry in the time asked for.': 'Uno más no estaría seco en el tiempo pedido.',
  'There is no rack area for one more.': 'No hay superficie de secado para uno más.',
  'It was not looked further.': 'No se buscó más allá.',
  'The air of the room is outside what the drying model answers for (1 to 45 °C).': 'El aire de la sala está fuera de lo que abarca el modelo de secado (1 a 45 °C).',
  'The speed of drying was fitted from {weighings} weighings of such things in this room.': 'La rapidez del secado se ajustó con {weighings} pesadas de objetos así en esta sala.',
  'Advice to a trained lead. A fit tells how fast things have dried in the air that was read, with the areas of standard things and by our own calibration; it does not tell that they are dry. Weigh and touch them.':
    'Consejos para una persona responsable con formación. Un ajuste dice con qué rapidez se han secado los objetos en el aire que se leyó, con las superficies de objetos tipo y según nuestra propia calibración; no dice que estén secos. Péselos y tóquelos.',
  'Nobody knows what it weighs dry.': 'Nadie sabe cuánto pesa en seco.',
  'It was nearly dry, and then things slow down by themselves.': 'Estaba casi seco, y entonces los objetos se secan más despacio por sí solos.',
  'It was heavier than before: wetted again, or mixed up. What was weighed from here on counts by itself.': 'Pesaba más que antes: se mojó de nuevo o se confundió con otro. Lo pesado desde aquí cuenta por separado.',
  'It was weighed twice at one moment.': 'Se pesó dos veces en el mismo momento.',
  'Nobody measured the air of the room all the way since the weighing before.': 'Nadie midió el aire de la sala durante todo el tiempo desde la pesada anterior.',
  'On the way the air was outside what the drying model answers for (1 to 45 °C).': 'Entre tanto el aire estuvo fuera de lo que abarca el modelo de secado (1 a 45 °C).',
  'The air was so damp that nothing dries in it.': 'El aire era tan húmedo que en él no se seca nada.',
  'There is no other weighing to compare it with: weigh it again after some hours.': 'No hay otra pesada con la que compararla: péselo de nuevo al cabo de unas horas.',
  'The weighing is in doubt.': 'La pesada está en duda.',
  'Pieces were taken out of the lot since, so it was more then than it is now.': 'Desde entonces se sacaron piezas del lote, así que entonces era más de lo que es ahora.',
  'No weighing could be used, so the room is reckoned with the general factor. Weigh a thing twice while it is clearly wet, some hours apart.':
    'No se pudo usar ninguna pesada, así que la sala se calcula con el factor general. Pese un objeto dos veces mientras esté claramente mojado, con unas horas de diferencia.',
  'What was weighed says little against its own error, so the room is reckoned with the general factor. Wait longer between weighings, or use a finer scale.':
    'Lo pesado dice poco frente a su propio error, así que la sala se calcula con el factor general. Deje más tiempo entre pesadas o use una báscula más fina.',
  'By {weighings} weighings such things dry at {percent} % of the speed that is otherwise assumed, which is faster than can be. Look at the weights and at the scale; the room is reckoned with the general factor.':
    'Según {weighings} pesadas, los objetos así se secan al {percent} % de la rapidez que se supone en general, más de lo posible. Revise los pesos y la báscula; la sala se calcula con el factor general.',
  'By {weighings} weighings such things dry at {percent} % of the speed that is otherwise assumed, most likely {low} to {high} %. The room is reckoned with it.':
    'Según {weighings} pesadas, los objetos así se secan al {percent} % de la rapidez que se supone en general, lo más probable entre el {low} y el {high} %. La sala se calcula con ello.',
  'They dry from inside: this tells how they begin, and only weighing tells when they are dry.': 'Se secan desde dentro: esto dice cómo empiezan, y solo pesarlos dice cuándo están secos.',
};
