/** Routes of textiles. */
export const TEXTILES: Readonly<Record<string, string>> = {
  'A small flat textile is rinsed in clean water, pressed, laid flat and air dried; what cannot be dried in 48 hours is frozen.':
    'Un textil plano pequeño se enjuaga en agua limpia, se presiona, se pone plano y se seca al aire; lo que no se puede secar en 48 horas se congela.',
  'Never wring or twist it.': 'Nunca lo escurra ni lo retuerza.',
  'Boxed for freezing: small groups, freezer or waxed paper between them.': 'En caja para congelar: grupos pequeños, con papel para congelador o encerado entre ellos.',
  'A large flat textile is rinsed, pressed and dried flat, and moves only on a solid support or sling.':
    'Un textil plano grande se enjuaga, se presiona y se seca plano, y solo se mueve sobre un soporte firme o una tela fuerte a modo de hamaca.',
  'The weight of the water tears the seams of a large wet textile.': 'El peso del agua rasga las costuras de un textil grande mojado.',
  'Never lift it by an edge.': 'Nunca lo levante por un borde.',
  'Never stack it wet.': 'Nunca lo apile mojado.',
  'Never unfold it before a prepared space is free.': 'Nunca lo desdoble antes de que haya libre un lugar preparado.',
  'Let the water run off without squeezing; then move it with two people or more, on a board, sling or stretched cloth.': 'Deje que gotee, sin exprimirlo ni retorcerlo; después muévalo entre dos o más personas, sobre una tabla o una tela fuerte tensada.',
  'A padded quilt that is already soaked and whose dyes pass goes the way of large textiles, with a flag for the conservator; otherwise the conservator decides.':
    'Una colcha acolchada que ya está empapada y cuyos tintes pasan la prueba sigue la vía de los textiles grandes, con aviso al conservador; si no, decide el conservador.',
  'Rinse what is already soaked and dye-fast; a dry one is never washed (rule dry.not-wetted-again).':
    'Enjuagar lo que ya está empapado y con tintes firmes; una seca nunca se lava (regla dry.not-wetted-again).',
  'Museum guidance (CCI) does not wash stuffed quilts, wool, knits or composite pieces at all.': 'La guía de los museos (CCI) no lava en absoluto colchas rellenas, lana, punto ni piezas compuestas.',
  'Tell a conservator about every padded or many-fabric quilt in the line.': 'Avise a un conservador de cada colcha acolchada o de muchas telas que haya en la línea.',
  'Batting dries last and moulds first.': 'El relleno se seca al último y cría moho primero.',
  'From memory, not verified: batting dries last and moulds first.': 'De memoria, sin comprobar: el relleno se seca al último y cría moho primero.',
  'Feel for damp inside, not at the surface, before it counts as dry.': 'Palpe la humedad por dentro, no en la superficie, antes de darlo por seco.',
  'A garment, hat or shoe is blotted, padded out to its shape with absorbent filling and dried flat or supported.':
    'A una prenda, un sombrero o un zapato se le absorbe el agua, se rellena hasta su forma con material absorbente y se seca plano o apoyado.',
  'Never hang a wet costume.': 'Nunca cuelgue un traje mojado.',
  'Carry it on a sling; tag every part that comes off and keep it with the rest.': 'Llévelo sobre una tela fuerte a modo de hamaca; etiquete cada parte que se desprenda y guárdela con el resto.',
  'A costume with metal, bone, leather, beads or sequins is dried fast but under control, treated to its most vulnerable part.':
    'Un traje con metal, hueso, cuero, cuentas o lentejuelas se seca rápido pero bajo control, según su parte más vulnerable.',
  'Never give it a long bath.': 'Nunca le dé un baño largo.',
  'Iron stains, bone and baleen warp and may need weights while drying, gelatin sequins dissolve.':
    'El hierro mancha, el hueso y la barba de ballena se alabean y pueden necesitar pesos al secarse, las lentejuelas de gelatina se disuelven.',
  'Mixed costume belongs to the salvage-priority class: its metal parts corrode within the day.':
    'El traje de varios materiales es prioritario en el rescate: sus partes de metal se corroen dentro del día.',
  'Our own calibration: the sources call it a priority class without an hour; 24 h is ours.': 'Calibración propia: las fuentes lo llaman prioritario sin dar una hora; las 24 h son nuestras.',
  'Composite and painted pieces are not frozen without a conservator.': 'Las piezas compuestas y pintadas no se congelan sin un conservador.',
  'Never freeze it without a conservator saying so.': 'Nunca lo congele sin que lo diga un conservador.',
  'Silk is handled as little as possible, flat and supported; fragile silk is referred.': 'La seda se toca lo menos posible, plana y apoyada; la seda frágil se envía a un especialista.',
  'Least handling, flat, on a support.': 'La menor manipulación, plano, sobre un soporte.',
  'Silk that is weak, or whose strength nobody has judged, goes to a conservator first.': 'La seda débil, o cuya resistencia nadie ha juzgado, va primero a un conservador.',
  'If the silk is painted, or stiff and splitting as weighted silk is: stop, keep it flat and supported, ask a conservator.':
    'Si la seda está pintada, o rígida y se parte como la seda cargada: pare, manténgala plana y apoyada, pregunte a un conservador.',
  'Silk is weaker wet, and water spots may stay.': 'La seda es más débil mojada, y las manchas de agua pueden quedarse.',
  'From memory, not verified: silk is weaker wet and water-spotting can be permanent.': 'De memoria, sin comprobar: la seda es más débil mojada y las manchas de agua pueden ser permanentes.',
  'Wet evenly or not at all; support every move.': 'Mójela por igual o nada; apóyela en cada movimiento.',
  'Wool is rinsed cool, without agitation, and dried flat.': 'La lana se enjuaga en agua fresca, sin agitar, y se seca plana.',
  'Heat and movement felt wool; it is weak and heavy when wet.': 'El calor y el movimiento afieltran la lana; mojada es débil y pesada.',
  'From memory, not verified: no hot water and no agitation for wool; weaker wet; heavy.': 'De memoria, sin comprobar: nada de agua caliente ni de agitar la lana; más débil mojada; pesada.',
  'Never use hot water on wool.': 'Nunca use agua caliente en la lana.',
  'Never agitate or rub wool.': 'Nunca agite ni frote la lana.',
  'Support its weight; wet wool is weak and heavy.': 'Sostenga su peso; la lana mojada es débil y pesada.',
  'Chintz, glazed, painted, gilded or pigment-printed cloth is referred: its surface comes first.':
    'El chintz y las telas satinadas, pintadas, doradas o estampadas con pigmento se envían a un especialista: su superficie va primero.',
  'Never blot the painted or glazed face.': 'Nunca ponga toallas ni papel secante en la cara pintada o satinada.',
  'Never immerse it.': 'Nunca lo sumerja.',
  'Finish or paint lifts: face up, nothing touching it.': 'El acabado o la pintura se levanta: boca arriba, sin que nada lo toque.',
  'Until the conservator comes, a wet painted textile may be air dried face up, untouched.':
    'Hasta que llegue el conservador, un textil pintado mojado se puede secar al aire boca arriba, sin tocarlo.',
  'Our own calibration: guidance says only refer; air drying untouched is our fallback and stands behind it.':
    'Calibración propia: la guía dice solo enviarlo a un especialista; secarlo al aire sin tocarlo es nuestro recurso y queda por detrás.',
  'A very degraded textile is supported and referred at once; nobody else rinses it.': 'Un textil muy degradado se apoya y se envía de inmediato a un especialista; nadie más lo enjuaga.',
  'Never lift it without a support under all of it.': 'Nunca lo levante sin un soporte debajo de todo él.',
  'Never rinse it without a conservator.': 'Nunca lo enjuague sin un conservador.',
  'Wet old wool may turn to jelly.': 'La lana vieja mojada puede volverse gelatina.',
  'Degraded wet textile is lost first: at once.': 'El textil degradado mojado es lo primero que se pierde: de inmediato.',
  'Where no conservator can be had in time, freezing on its support stops the clock.': 'Donde no se consigue un conservador a tiempo, congelarlo sobre su soporte detiene el reloj.',
  'Everyday washable clothing goes to a household wash after the heirlooms, not through the salvage line.':
    'La ropa lavable de uso diario va al lavado doméstico después de los objetos de familia, no por la línea de rescate.',
  'Never mix it with heirlooms.': 'Nunca lo mezcle con objetos de familia.',
  'For the household: hot water and detergent, apart from clean loads.': 'Para el hogar: agua caliente y detergente, aparte de las cargas limpias.',
  'An everyday garment that its family treasures is handled as a garment of the salvage line.': 'Una prenda de uso diario muy querida por su familia se maneja como una prenda de la línea de rescate.',
  'Our own calibration: the owner weighs what a thing means.': 'Calibración propia: el dueño sopesa lo que significa un objeto.',
  'Pillows, stuffed toys and the like that lay in flood water and mean nothing special are on the discard lists; the owner decides.':
    'Almohadas, muñecos de peluche y cosas así que estuvieron en agua de inundación y no significan nada especial están en las listas de descarte; decide el dueño.',
  'Never let it take drying space from heirlooms.': 'Nunca deje que quite espacio de secado a los objetos de familia.',
  'If the owner does not let it go, it is packed and given back unwashed, with the caution that it was contaminated.':
    'Si el dueño no quiere desprenderse de él, se embala y se devuelve sin lavar, con la advertencia de que estuvo contaminado.',
  'Our own calibration: the discard lists give no second way; giving it back keeps the decision with the owner.':
    'Calibración propia: las listas de descarte no dan una segunda vía; devolverlo deja la decisión al dueño.',
  'A stuffed thing that means something is rinsed if soaked and dye-fast, padded to shape and dried for long.':
    'Un objeto relleno que significa algo se enjuaga si está empapado y con tintes firmes, se rellena hasta su forma y se seca largo tiempo.',
  'Salvage with the owner’s consent and isolation.': 'Salvarlo con el consentimiento del dueño y aislamiento.',
  'Public-health lists (CDC) discard stuffed things from flood water.': 'Las listas de salud pública (CDC) descartan lo relleno que estuvo en agua de inundación.',
  'Our own calibration: no source gives a route for heirloom stuffed things; the padded-quilt route is used.':
    'Calibración propia: ninguna fuente da una vía para objetos rellenos de familia; se usa la de la colcha acolchada.',
};
