/** What releases after the first one say anew, and why. */
export const RELEASES: Readonly<Record<string, string>> = {
  'The release with which this list begins.': 'La edición con la que empieza esta lista.',
  'Advice that stood in the reasons alone now reaches the people who do the work. Contradictions about painted cloth and salt-soaked clay are gone. A caution about generators is new. Leather and plant fibre have hours of their own.':
    'Los consejos que solo estaban en los motivos llegan ahora a quienes hacen el trabajo. Ya no hay contradicciones sobre la tela pintada ni sobre el barro empapado de sal. Es nueva una precaución sobre los generadores. El cuero y la fibra vegetal tienen sus propias horas.',
  'The padding stood in the reason alone, and whoever blots and dries a garment was not told.': 'El relleno solo estaba en el motivo, y a quien absorbe el agua y seca una prenda no se le decía.',
  'Pad it out to its shape with absorbent filling; dry it flat or supported.': 'Rellénela con material absorbente hasta su forma; séquela plana o con apoyo.',
  'The text names early man-made fibres, and the rule was asked of none of them.': 'El texto nombra las primeras fibras artificiales, y la regla no se aplicaba a ninguna de ellas.',
  'Flat, one layer, absorbent above and below, indoors with the lights on; painted and glazed cloth lies face up with nothing touching it and is not concerned.':
    'Plano, una sola capa, absorbente por arriba y por abajo, bajo techo y con las luces encendidas; la tela pintada o con apresto va con la cara hacia arriba, sin que nada la toque, y a ella no se le aplica.',
  'Painted and glazed cloth was told to lie face up with nothing touching it and to have absorbent over it. K. Francis and CCI Notes 13/14 let nothing touch such a face.':
    'De la tela pintada o con apresto se decía que va con la cara hacia arriba sin que nada la toque y también que lleva absorbente encima. K. Francis y las Notas CCI 13/14 no dejan que nada toque esa cara.',
  'That no fan blows on the piece was said twice; it stands as a prohibition.': 'Que ningún ventilador sople sobre la pieza se decía dos veces; queda como prohibición.',
  'Fans low and indirect, across the cloth from a distance.': 'Ventiladores bajos e indirectos, a lo largo de la tela y de lejos.',
  'A clean cloth on the upper side takes the soil that moves outward as a flat textile dries; where dye moves, another rule says how.':
    'Una tela limpia sobre la cara de arriba recoge la suciedad que sale hacia fuera mientras se seca un textil plano; donde el tinte se mueve, otra regla dice cómo.',
  'The cloth stood in the reason alone, and whoever lays a flat textile out to dry was not told.': 'La tela solo estaba en el motivo, y a quien extiende un textil plano para que se seque no se le decía.',
  'Press a clean cloth to its upper side and leave it there until all is dry: the soil moves into the cloth.': 'Presione una tela limpia contra la cara de arriba y déjela ahí hasta que todo esté seco: la suciedad pasa a la tela.',
  'Whether to treat it now turns on cleaning and drying together: what cannot be both in time is frozen.': 'Que se trate ahora depende de la limpieza y el secado juntos: lo que no alcance a tener los dos a tiempo se congela.',
  'The sources ask for cleaning and drying within the time, and the clock of this book for the beginning of drying; nobody was told to reckon the one with the other.':
    'Las fuentes piden la limpieza y el secado dentro del plazo, y el reloj de este libro pide que empiece el secado; a nadie se le decía que contara lo uno con lo otro.',
  'Reckon cleaning and drying together: what cannot be clean and dry in time goes to the freezer first, where its material may be frozen.':
    'Cuente la limpieza y el secado juntos: lo que no alcance a estar limpio y seco a tiempo va primero al congelador, si su material puede congelarse.',
  'The glass side stood in the reason alone, and whoever lays it out to dry was not told.': 'El lado del vidrio solo estaba en el motivo, y a quien la extiende para que se seque no se le decía.',
  'Stuck to the glass: leave it there and dry it with the glass side down.': 'Pegada al vidrio: déjela ahí y séquela con el lado del vidrio hacia abajo.',
  'Books dry in a room of 50 % relative humidity or less, and stay dangerously wet inside after the room reads safe.':
    'Los libros se secan en una sala con 50 % de humedad relativa o menos, y siguen peligrosamente mojados por dentro cuando la sala ya marca un valor seguro.',
  'The humidity was told to the family that takes a book home, and not to the people who dry it.': 'La humedad se le decía a la familia que se lleva un libro a casa, y no a las personas que lo secan.',
  'Keep the room at 50 % relative humidity or less. A room that reads dry does not make the book dry.': 'Mantenga la sala a 50 % de humedad relativa o menos. Que la sala marque seco no significa que el libro esté seco.',
  'The picture side was forbidden twice, in other words; the rule of all wet image layers says it.': 'La cara de la imagen se prohibía dos veces, con otras palabras; lo dice la regla de todas las capas de imagen mojadas.',
  'Prints come before film, unless the film is deteriorating.': 'Las copias van antes que la película, salvo que la película se esté deteriorando.',
  'The salvage order of the leaflet on wet photographs was followed for what goes first and left out for what may wait.':
    'El orden de rescate del folleto sobre fotografías mojadas se seguía para lo que va primero y se omitía para lo que puede esperar.',
  'Where hands are scarce, prints come before film in good condition.': 'Donde faltan manos, las copias van antes que la película en buen estado.',
  'Its hours were those of the mould clock: a network that gave mould 72 hours gave leather 72 hours as well.': 'Sus horas eran las del reloj del moho: una red que daba 72 horas al moho daba también 72 horas al cuero.',
  'Its hours were those of the mould clock: a network that gave mould 72 hours gave plant fibre 72 hours as well.': 'Sus horas eran las del reloj del moho: una red que daba 72 horas al moho daba también 72 horas a la fibra vegetal.',
  'Low-fired ceramic was told to go into fresh water and never to be soaked; it has its own rule now.': 'De la cerámica de baja cocción se decía que va a agua dulce y que nunca se remoja; ahora tiene su propia regla.',
  'Salt breaks low-fired ceramic as it dries, and water softens it: a conservator is asked within the day.': 'La sal rompe la cerámica de baja cocción al secarse, y el agua la ablanda: se pregunta a un conservador dentro del día.',
  'Low-fired ceramic was told to go into fresh water and never to be soaked; the same hours now lead to a conservator.':
    'De la cerámica de baja cocción se decía que va a agua dulce y que nunca se remoja; las mismas horas llevan ahora a un conservador.',
  'Our own calibration: the source says neither to soak it nor to let it dry; the hours are ours.': 'Calibración propia: la fuente dice que ni se remoje ni se deje secar; las horas son nuestras.',
  'Wet things are wrapped for the freezer on the dirty side, where they came in.': 'Lo mojado se envuelve para el congelador en el lado sucio, por donde entró.',
  'On the dirty side.': 'En el lado sucio.',
  'At the freezer, by people protected as on the dirty side, where the hall has its bench there (our own proposal).':
    'Junto al congelador, por personas protegidas como en el lado sucio, donde el local tiene allí su mesa (propuesta nuestra).',
  'Halls whose only wrapping bench stands at the freezer had no way to it, and no source asks for a bench on the dirty side.':
    'Los locales cuya única mesa de envolver está junto al congelador no tenían cómo llegar a ella, y ninguna fuente pide una mesa en el lado sucio.',
  'Our own calibration: no source says where the bench stands; what was not rinsed stays on its side.': 'Calibración propia: ninguna fuente dice dónde está la mesa; lo que no se enjuagó se queda en su lado.',
  'Our own calibration: the same, where the hall has its only bench at the freezer.': 'Calibración propia: lo mismo, donde el local tiene su única mesa junto al congelador.',
  'Where wet things are wrapped for the freezer': 'Dónde se envuelve lo mojado para el congelador',
  'On the dirty side, where they came in.': 'En el lado sucio, por donde entraron.',
  'At the freezer, by people protected as on the dirty side; what has active mould is wrapped in quarantine all the same.':
    'Junto al congelador, por personas protegidas como en el lado sucio; lo que tiene moho activo se envuelve igualmente en cuarentena.',
  'By this network’s choice wet things are wrapped at the freezer; who wraps them wears what the dirty side asks for.':
    'Por elección de esta red lo mojado se envuelve junto al congelador; quien lo envuelve lleva lo que pide el lado sucio.',
  'A generator that drives fans or dryers gives off carbon monoxide, which nobody sees or smells.': 'Un generador que mueve ventiladores o secadores desprende monóxido de carbono, que nadie ve ni huele.',
  'OSHA names carbon monoxide among the dangers of flooded places; the book had no word about generators.': 'OSHA nombra el monóxido de carbono entre los peligros de los lugares inundados; el libro no decía nada de los generadores.',
  'A generator runs outdoors, far from doors and windows: its fumes kill without a smell.': 'El generador funciona al aire libre, lejos de puertas y ventanas: sus gases matan sin que se huelan.',
  'Across the surface of textiles; toward nothing else.': 'A lo largo de la superficie de los textiles; hacia nada más.',
  'One of the sources that disagree had no side to be chosen: it lets air pass across textiles.': 'Una de las fuentes que no coinciden no tenía lado que elegir: deja que el aire pase a lo largo de los textiles.',
  'By this network’s choice moving air passes across the surface of textiles.': 'Por elección de esta red el aire en movimiento pasa a lo largo de la superficie de los textiles.',
  'Fans low: the air passes across the cloth, never down on it.': 'Ventiladores bajos: el aire pasa a lo largo de la tela, nunca hacia abajo sobre ella.',
};
