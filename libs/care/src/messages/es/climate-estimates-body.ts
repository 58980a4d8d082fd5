/** Clocks of things, and lifting and heat for people. */
export const CLIMATE_ESTIMATES_BODY: Readonly<Record<string, string>> = {
  'Our own calibration, not a published fact: what it leans on stands in the calibration of the network, where it can be set.':
    'Calibración propia, no un dato publicado: en qué se apoya consta en la calibración de la red, donde se puede fijar.',
  'The time that the rule of practice allows is used up: look for mould before handling, wear protection, and ask the lead.':
    'Se ha agotado el tiempo que concede la regla práctica: busque moho antes de tocar nada, use protección y pregunte a la persona responsable.',
  'The clock stands still at this temperature and dryness; it goes on from here when warmed or wetted.':
    'El reloj está detenido a esta temperatura y sequedad; sigue desde aquí si se calienta o se moja.',
  'Begin now: about {hours} h are left by the rule of practice if nothing changes; the sources span {shortest} to {longest} h.':
    'Empiece ya: según la regla práctica quedan unas {hours} h si nada cambia; las fuentes van de {shortest} a {longest} h.',
  'About {hours} h are left by the rule of practice if nothing changes; the sources span {shortest} to {longest} h.':
    'Según la regla práctica quedan unas {hours} h si nada cambia; las fuentes van de {shortest} a {longest} h.',
  'A clock of the rule of practice, not a forecast of when mould starts. A lead who sees the thing decides, and a conservator where there is one.':
    'Es un reloj de la regla práctica, no un pronóstico de cuándo empieza el moho. Decide la persona responsable que ve el objeto, y un conservador donde lo haya.',
  '{count, plural, one {# reading has} other {# readings have}} the moment of another one of the same place; the warmer and damper counts.':
    '{count, plural, one {# lectura tiene} other {# lecturas tienen}} el mismo momento que otra del mismo lugar; cuenta la más cálida y húmeda.',
  '{count, plural, one {# reading is} other {# readings are}} of places where the thing never was and {count, plural, one {does} other {do}} not count.':
    '{count, plural, one {# lectura es} other {# lecturas son}} de lugares donde el objeto nunca estuvo y no {count, plural, one {cuenta} other {cuentan}}.',
  '{percent} % of the dose rests on assumptions: nobody measured the air for {hours} h. Such time counts on the cautious side.':
    'El {percent} % de la dosis se apoya en supuestos: nadie midió el aire durante {hours} h. Ese tiempo cuenta del lado prudente.',
  'Nobody read the freezer for {hours} h. A clock stands still only while things stay frozen: look at the thermometer and write it down.':
    'Nadie leyó el congelador durante {hours} h. El reloj solo se detiene mientras las cosas siguen congeladas: mire el termómetro y anótelo.',
  'How wet the thing was is not known for all of the time; it counts as wet then. Weighing it tells.':
    'No se sabe cuán mojado estaba el objeto todo el tiempo; entonces cuenta como mojado. Al pesarlo se sabe.',
  'left wet': 'dejado mojado',
  'kept in water': 'mantenido en agua',
  'kept in distilled water': 'mantenido en agua destilada',
  frozen: 'congelado',
  'worked on': 'en tratamiento',
  'left to dry on its own': 'dejado secar solo',
  'This thing is harmed by being {holding}: end it, and ask a conservator before the next step.':
    'A este objeto le daña estar {holding}: ponga fin a eso y pregunte a un conservador antes del siguiente paso.',
  'Keeping it wet is a bridge of hours: the clock of mould goes on.': 'Mantenerlo mojado es un puente de horas: el reloj del moho sigue.',
  'It has been kept wet for more than {hours} h, the longest that a source gives: the clock goes on.':
    'Se ha mantenido mojado más de {hours} h, lo más que da una fuente: el reloj sigue.',
  'No source says how temperature changes these hours: warm or cool, an hour counts as an hour.':
    'Ninguna fuente dice cómo cambia la temperatura estas horas: con calor o con fresco, una hora cuenta como una hora.',
  'A. Hukka and H. A. Viitanen, A mathematical model of mould growth on wooden material, Wood Science and Technology 33 (1999), as read in copies of its formulas; found on wood, carried over to textile, paper, leather and photographs by us.':
    'A. Hukka y H. A. Viitanen, A mathematical model of mould growth on wooden material, Wood Science and Technology 33 (1999), leído en copias de sus fórmulas; hallado en madera y extendido por nosotros a textil, papel, cuero y fotografías.',
  'T. Ojanen, H. Viitanen, R. Peuhkuri and others (2010), classes of building materials, as read in a copy.':
    'T. Ojanen, H. Viitanen, R. Peuhkuri y otros (2010), clases de materiales de construcción, leído en una copia.',
  'From memory, not verified: how far the index falls back while nothing can grow.': 'De memoria, sin comprobar: cuánto baja el índice mientras nada puede crecer.',
  'T. Isaksson, S. Thelandersson and others, Building and Environment 65 (2013), as read in a copy of its terms; found on wood.':
    'T. Isaksson, S. Thelandersson y otros, Building and Environment 65 (2013), leído en una copia de sus términos; hallado en madera.',
  'From memory, not verified: the dose at which growth begins in the second model.': 'De memoria, sin comprobar: la dosis con que empieza a crecer en el segundo modelo.',
  'Our own calibration to the rule of practice “dry or freeze within 24 to 48 hours” (US EPA, mould course and 402-K-01-001, chapter 3; NPS/AIC sheet via the University of Iowa); the longer end is the US National Park Service on wet books.':
    'Calibración propia según la regla práctica «secar o congelar en 24 a 48 horas» (US EPA, curso de moho y 402-K-01-001, capítulo 3; hoja NPS/AIC por la Universidad de Iowa); el extremo largo es el US National Park Service sobre libros mojados.',
  'The hours of the rule book, with their marks: GET /v1/rulebook/rules.': 'Las horas del libro de reglas, con sus marcas: GET /v1/rulebook/rules.',
  'Kept wet and covered until frozen: Salvage at a Glance chart, University of Iowa Flood Booklet; Minnesota Historical Society, books (2017).':
    'Se mantiene mojado y cubierto hasta congelarlo: Salvage at a Glance chart, University of Iowa Flood Booklet; Minnesota Historical Society, libros (2017).',
  'Freezing stops inks from spreading: Salvage at a Glance chart, University of Iowa Flood Booklet; UNESCO RAMP study R8707.':
    'Congelar impide que se corran las tintas: Salvage at a Glance chart, University of Iowa Flood Booklet; UNESCO RAMP study R8707.',
  'Freezing can hold it, no prolonged soak: American Institute for Conservation wiki, skin and leather.':
    'Congelarlo puede sostenerlo, sin remojo largo: wiki del American Institute for Conservation, piel y cuero.',
  'Frozen singly and interleaved where it cannot be treated: Salvage at a Glance V (Conserve O Gram 21/8, 2003); American Institute for Conservation wiki, textiles.':
    'Congelado pieza por pieza y con hojas intercaladas donde no se puede tratar: Salvage at a Glance V (Conserve O Gram 21/8, 2003); wiki del American Institute for Conservation, textiles.',
  'Soaked for up to 48 h: FEMA, How to save treasures (2017). That they may be frozen is from memory.':
    'En remojo hasta 48 h: FEMA, How to save treasures (2017). Que se puedan congelar es de memoria.',
  'May be frozen: Northeast Document Conservation Center, leaflet 3.7; Louisiana GOHSEP.': 'Se puede congelar: Northeast Document Conservation Center, folleto 3.7; Louisiana GOHSEP.',
  'May be frozen: Northeast Document Conservation Center, leaflet 3.7.': 'Se puede congelar: Northeast Document Conservation Center, folleto 3.7.',
  'May be frozen: Louisiana GOHSEP, Salvaging Some Common Materials.': 'Se puede congelar: Louisiana GOHSEP, Salvaging Some Common Materials.',
  'May be frozen, its face swells: Louisiana GOHSEP, Salvaging Some Common Materials.': 'Se puede congelar, su cara se hincha: Louisiana GOHSEP, Salvaging Some Common Materials.',
  'From memory, not verified: no soaking of digital prints of unknown kind.': 'De memoria, sin comprobar: sin remojo para impresiones digitales de tipo desconocido.',
  'Never frozen, as a precaution, and kept from soaking: Northeast Document Conservation Center, leaflet 3.7; Hendriks and Lesser 1983, as reported later.':
    'Nunca se congela, por precaución, y se evita el remojo: Northeast Document Conservation Center, folleto 3.7; Hendriks y Lesser 1983, según se contó después.',
  'From memory, not verified: not frozen, air dried at once.': 'De memoria, sin comprobar: no se congela, se seca al aire enseguida.',
  'Sources differ on freezing gelatin on glass, so nothing stops its clock: Northeast Document Conservation Center, leaflet 3.7; University of Texas, Emergency Salvage of Family Treasures.':
    'Las fuentes difieren sobre congelar gelatina en vidrio, así que nada detiene su reloj: Northeast Document Conservation Center, folleto 3.7; University of Texas, Emergency Salvage of Family Treasures.',
  'May be frozen: CERF+, Emergency salvage for artwork.': 'Se puede congelar: CERF+, Emergency salvage for artwork.',
  'From memory, not verified: kept wet until the laboratory re-washes it, never frozen outside one.':
    'De memoria, sin comprobar: se mantiene mojado hasta que el laboratorio lo relava, nunca se congela fuera de uno.',
  'Held in very cold distilled water, never frozen: US National Library of Medicine, videotape page (2014).':
    'Se mantiene en agua destilada muy fría, nunca se congela: US National Library of Medicine, página de cintas de video (2014).',
  'Oxidises while it is wet, never frozen: US National Library of Medicine, videotape page (2014).':
    'Se oxida mientras está mojada, nunca se congela: US National Library of Medicine, página de cintas de video (2014).',
  'Never frozen, damage within minutes to hours: Salvage at a Glance chart, University of Iowa Flood Booklet; Canadian Conservation Institute.':
    'Nunca se congela, el daño llega en minutos u horas: Salvage at a Glance chart, University of Iowa Flood Booklet; Canadian Conservation Institute.',
  'Small wooden things may be frozen: CERF+, Emergency salvage for artwork.': 'Las cosas pequeñas de madera se pueden congelar: CERF+, Emergency salvage for artwork.',
  'Drying begins early and goes slowly: Minnesota Historical Society, wood (1993).': 'El secado empieza pronto y va despacio: Minnesota Historical Society, madera (1993).',
  'Hide and fish glue soften in water: American Institute for Conservation wiki, furniture and wood.':
    'Las colas de piel y de pescado se ablandan en agua: wiki del American Institute for Conservation, muebles y madera.',
  'Leather may be frozen: CERF+, Emergency salvage for artwork.': 'El cuero se puede congelar: CERF+, Emergency salvage for artwork.',
  'Never frozen, cracks when it dries fast: Salvage at a Glance III, NPS/NCPTT; CERF+.': 'Nunca se congela, se agrieta si se seca rápido: Salvage at a Glance III, NPS/NCPTT; CERF+.',
  'Rinsed, blotted and dried at once: Salvage at a Glance III, NPS/NCPTT; Minnesota Historical Society, inorganics (1993).':
    'Se enjuaga, se absorbe el agua y se seca enseguida: Salvage at a Glance III, NPS/NCPTT; Minnesota Historical Society, inorgánicos (1993).',
  'Kept in fresh water until a conservator decides: Salvage at a Glance III, NPS/NCPTT.': 'Se mantiene en agua dulce hasta que decida un conservador: Salvage at a Glance III, NPS/NCPTT.',

  'The load is lifted with one hand.': 'La carga se levanta con una mano.',
  'The lift is made sitting or kneeling.': 'Se levanta estando sentado o de rodillas.',
  'There is no room to stand and move freely.': 'No hay sitio para estar de pie y moverse con libertad.',
  'The load shifts as it is lifted, as water in a tub or a sagging wet bundle does.': 'La carga se mueve al levantarla, como el agua en una tina o un bulto mojado que se dobla.',
  'The load is carried, pushed or pulled.': 'La carga se transporta, se empuja o se tira de ella.',
  'The load is on a shovel or a wheelbarrow.': 'La carga está en una pala o en una carretilla de una rueda.',
  'The lift is fast or jerked.': 'Se levanta rápido o a tirones.',
  'The floor is wet or slippery: its friction is below 0.4.': 'El suelo está mojado o resbala: su rozamiento es menor de 0.4.',
  'Lifting goes on for more than 8 hours.': 'Se levanta durante más de 8 horas.',
  'At {value} °C the air is colder than the 19 °C from which the equation holds.': 'A {value} °C el aire está más frío que los 19 °C desde los que vale la ecuación.',
  'At {value} °C the air is warmer than the 26 °C to which the equation holds.': 'A {value} °C el aire está más caliente que los 26 °C hasta los que vale la ecuación.',
  'At {value} % the air is drier than the 35 % from which the equation holds.': 'Con {value} % el aire está más seco que el 35 % desde el que vale la ecuación.',
  'At {value} % the air is damper than the 50 % to which the equation holds.': 'Con {value} % el aire está más húmedo que el 50 % hasta el que vale la ecuación.',
  'The lifting equation does not hold here, so it gives no number. Drain the load, take it in parts, use a trolley, board or hoist, or ask somebody trained in manual handling.':
    'La ecuación de levantamiento no vale aquí, así que no da ningún número. Escurra la carga, llévela por partes, use una carretilla, una tabla o un montacargas, o pregunte a alguien formado en manejo manual de cargas.',
  '{loadKg} kg is more than 3 people may lift like this. Drain it, take it in parts, or use a trolley, board or hoist.':
    '{loadKg} kg es más de lo que pueden levantar así 3 personas. Escúrralo, llévelo por partes, o use una carretilla, una tabla o un montacargas.',
  '{loadKg} kg is more than the {limitKg} kg that one person may lift like this: {people} people together, or an aid.':
    '{loadKg} kg es más que los {limitKg} kg que una persona puede levantar así: {people} personas juntas, o una ayuda mecánica.',
  'A fourth person adds nothing: more than 3 rarely lift as one.': 'Una cuarta persona no suma nada: más de 3 rara vez levantan a la vez.',
  'Reach, height, way, turn or pace is beyond what the equation allows: nothing is lifted like this. Come nearer, turn the feet, lift in two stages or more slowly, or use an aid.':
    'El alcance, la altura, el recorrido, el giro o el ritmo pasan de lo que permite la ecuación: así no se levanta nada. Acérquese, gire los pies, levante en dos tramos o más despacio, o use una ayuda mecánica.',
  'The limit holds for air of 19 to 26 °C and 35 to 50 %; the air of this place was not told.': 'El límite vale para aire de 19 a 26 °C y de 35 a 50 %; no se dijo cómo es el aire de este lugar.',
  'Local rules and people trained in manual handling come first. For wet things the limit is the most, not an aim.':
    'Las normas locales y quienes están formados en manejo manual de cargas van primero. Para cosas mojadas el límite es lo máximo, no una meta.',
  drained: 'escurrido',
  'wrung by hand': 'retorcido a mano',
  blotted: 'secado con absorbente',
  spun: 'centrifugado',
  'Once {stage} it weighs about {kg} kg: still a load for an aid.': 'Una vez {stage} pesa unos {kg} kg: todavía es una carga para una ayuda mecánica.',
  'Once {stage} it weighs about {kg} kg: a load for {people, plural, one {# person} other {# people}}.': 'Una vez {stage} pesa unos {kg} kg: una carga para {people, plural, one {# persona} other {# personas}}.',
  'Revised NIOSH lifting equation: Applications Manual, DHHS (NIOSH) 94-110, 1994, revised 9/2021, as read in a copy.':
    'Ecuación revisada de levantamiento de NIOSH: Applications Manual, DHHS (NIOSH) 94-110, 1994, revisado 9/2021, leído en una copia.',
  'From memory, not verified: what a good and a poor grip count.': 'De memoria, sin comprobar: cuánto cuentan un agarre bueno y uno malo.',
  'UK HSE, Manual handling guidance L23, paragraphs 119-120, as read in a copy; applying its shares to the NIOSH limit is our own.':
    'UK HSE, Manual handling guidance L23, párrafos 119-120, leído en una copia; aplicar sus partes al límite de NIOSH es cosa nuestra.',
  'Our own calibration: water held at each stage, to be refitted from weighings.': 'Calibración propia: el agua que retiene en cada estado, a reajustar con pesadas.',
  'Our own assumption where the lift is not described: a wet bundle from the floor onto a table, now and then, without handles.':
    'Supuesto propio donde no se describe el levantamiento: un bulto mojado del suelo a una mesa, de vez en cuando, sin asas.',

  'Too hot for this step (wet-bulb globe temperature {wbgt} °C, with what the clothing adds): nobody does it now. Cool the place, wait for a cooler hour, or find a way that needs less protection. Stopping beats finishing the batch.':
    'Demasiado calor para este paso (temperatura de globo y bulbo húmedo {wbgt} °C, con lo que suma la ropa): nadie lo hace ahora. Refresque el lugar, espere una hora más fresca o busque un modo que pida menos protección. Parar es mejor que terminar la tanda.',
  'At most {work} minutes of work in each hour and {rest} minutes of rest (wet-bulb globe temperature {wbgt} °C, with what the clothing adds).':
    'Como máximo {work} minutos de trabajo por hora y {rest} minutos de descanso (temperatura de globo y bulbo húmedo {wbgt} °C, con lo que suma la ropa).',
  'No table holds for a suit that closes the body off: nobody works in one here without people trained to watch over it.':
    'Ninguna tabla vale para un traje que aísla el cuerpo: aquí nadie trabaja con uno sin gente formada que vigile.',
  'Even resting is too hot here in these clothes: take them off and rest in a cooler place.': 'Aquí, con esta ropa, hasta descansar es demasiado calor: quítesela y descanse en un lugar más fresco.',
  'People have died at moderate and harder work from 21 °C of wet-bulb globe temperature on: watch one another.':
    'Ha muerto gente con trabajo moderado o más duro desde los 21 °C de temperatura de globo y bulbo húmedo: cuídense unos a otros.',
  'Not used to this heat yet: at most {percent} % of a shift in it today.': 'Aún sin costumbre a este calor: hoy como máximo el {percent} % de un turno en él.',
  'Somebody looks at the person at least every {minutes} minutes.': 'Alguien mira cómo está la persona al menos cada {minutes} minutos.',
  'A pulse of {pulse} at the start of the rest is high: the next spell of work is a third shorter.': 'Un pulso de {pulse} al empezar el descanso es alto: el siguiente tramo de trabajo es un tercio más corto.',
  'Take the pulse at the start of each rest; above {pulse} a minute the next spell of work is a third shorter.':
    'Tome el pulso al empezar cada descanso; si pasa de {pulse} por minuto, el siguiente tramo de trabajo es un tercio más corto.',
  'Water within reach, small amounts often, before thirst; shade for the rest.': 'Agua a mano, poca y a menudo, antes de la sed; sombra para descansar.',
  'Nobody works alone in heat.': 'Con calor nadie trabaja solo.',
  'Headache, dizziness, nausea or cramps: stop, cool, drink, and stay with them. Confusion, collapse or hot dry skin is an emergency: call for help and cool at once.':
    'Dolor de cabeza, mareo, náuseas o calambres: pare, refresque, dé de beber y no deje sola a la persona. Confusión, desmayo o piel caliente y seca son una emergencia: pida ayuda y refresque enseguida.',
  'Estimated from air alone: a meter for the wet-bulb globe temperature at the place is better.': 'Estimado solo a partir del aire: es mejor un medidor de la temperatura de globo y bulbo húmedo en el lugar.',
  'The estimate holds for a hall without sun, stoves or hot machines; near them it is too low.': 'La estimación vale para una nave sin sol, estufas ni máquinas calientes; cerca de ellas queda corta.',
  'The estimate assumes moderate sun and light wind; in strong sun without wind it is too low.': 'La estimación supone sol moderado y viento ligero; con sol fuerte y sin viento queda corta.',
  'Advice for planning: local law, a safety officer on the spot and how people feel come first. Anybody may stop.':
    'Consejo para planear: la ley local, quien vela por la seguridad en el lugar y cómo se siente la gente van primero. Cualquiera puede parar.',
  'NIOSH 2016-106: recommended alert and exposure limits, and classes of effort, as read in copies.': 'NIOSH 2016-106: límites recomendados de alerta y de exposición, y clases de esfuerzo, leídos en copias.',
  'US OSHA, heat hazard recognition: clothing additions, as read in a copy; hood and short sleeves from a national table after ISO 7243, as read in a copy.':
    'US OSHA, reconocimiento del peligro por calor: lo que suma la ropa, leído en una copia; capucha y manga corta de una tabla nacional según ISO 7243, leída en una copia.',
  'ISO 7243: weights of the thermometers, as read in a copy.': 'ISO 7243: pesos de los termómetros, leído en una copia.',
  'Our own estimate for a hall without sun: wet bulb and air, with a margin for still air.': 'Estimación propia para una nave sin sol: bulbo húmedo y aire, con un margen para el aire quieto.',
  'Common practice: screening estimate from air alone, after the Australian Bureau of Meteorology, from memory; the margin is our own.':
    'Práctica común: estimación rápida solo a partir del aire, según el Australian Bureau of Meteorology, de memoria; el margen es nuestro.',
  'NIOSH: share of a shift for new and returning people, as read in a copy.': 'NIOSH: parte de un turno para gente nueva y que vuelve, leído en una copia.',
  'NIOSH/OSHA/USCG/EPA, Occupational Safety and Health Guidance Manual for Hazardous Waste Site Activities (1985), as read in copies; using its table as the longest spell without somebody looking is our own.':
    'NIOSH/OSHA/USCG/EPA, Occupational Safety and Health Guidance Manual for Hazardous Waste Site Activities (1985), leído en copias; usar su tabla como el mayor tiempo sin que alguien mire es cosa nuestra.',
  'US OSHA Technical Manual III:4 (2017), as read in a copy.': 'US OSHA Technical Manual III:4 (2017), leído en una copia.',
  'US National Weather Service, heat index equation; for shade, light wind and ordinary clothes only.': 'US National Weather Service, ecuación del índice de calor; solo para sombra, viento ligero y ropa corriente.',
  'Our own: minutes are rounded down to quarters of an hour.': 'Propio: los minutos se redondean hacia abajo a cuartos de hora.',
};
