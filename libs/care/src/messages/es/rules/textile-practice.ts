/** How textiles are rinsed and dried. */
export const TEXTILE_PRACTICE: Readonly<Record<string, string>> = {
  'Cotton and linen stand rinsing best, and mould takes them first.': 'El algodón y el lino son los que mejor soportan el enjuague, y los que el moho ataca primero.',
  'Never wring cotton or linen.': 'Nunca escurra algodón ni lino retorciéndolos.',
  'Viscose and acetate are handled least of all; museums do not wash them.': 'La viscosa y el acetato son lo que menos se manipula; los museos no los lavan.',
  'Least handling: rinse only what is soaked and dirty, on a screen.': 'La menor manipulación: enjuague solo lo empapado y sucio, sobre una malla.',
  'Viscose loses about half its strength when wet.': 'La viscosa pierde cerca de la mitad de su resistencia cuando está mojada.',
  'From memory, not verified: viscose loses about half its strength wet.': 'De memoria, sin comprobar: la viscosa mojada pierde cerca de la mitad de su resistencia.',
  'Lift only on a support: the wet cloth has about half its strength.': 'Levántelo solo sobre un soporte: la tela mojada tiene cerca de la mitad de su resistencia.',
  'On nylon, polyester and acrylic mould grows only on soil or finish: among equals they may come later.':
    'En nailon, poliéster y acrílico el moho crece solo sobre la suciedad o el acabado: entre iguales pueden ir después.',
  'Never dry synthetics with heat.': 'Nunca seque fibras sintéticas con calor.',
  'The fibre is not known: cool water, no agitation, full support, as for the weakest.': 'No se conoce la fibra: agua fresca, sin agitar, apoyo completo, como para la más débil.',
  'Our own calibration: the cautious side of the fibre rules.': 'Calibración propia: el lado prudente de las reglas de fibras.',
  'Never use hot water or agitation while the fibre is not known.': 'Nunca use agua caliente ni agite mientras no se conozca la fibra.',
  'Successive cool clean-water baths, a flow and never a jet; the muddiest pre-rinsed; whites apart from colours; water pressed out by the palm.':
    'Baños sucesivos de agua fresca y limpia, un flujo y nunca un chorro; lo más embarrado se enjuaga antes; lo blanco aparte de lo de color; el agua se saca presionando con la palma.',
  'Never wring, spin, machine-wash, tumble or iron it.': 'Nunca lo retuerza, centrifugue, lave a máquina, seque en secadora ni planche.',
  'Cool water, flow not jet; ease silt with a soft brush; change baths until clear; press out with the palm.':
    'Agua fresca, flujo y no chorro; suelte el lodo con un cepillo suave; cambie los baños hasta que salga clara; presione con la palma para sacar el agua.',
  'First aid rinses with plain water; soap is the practitioner’s choice.': 'Los primeros auxilios enjuagan con agua sola; el jabón lo elige un profesional.',
  'Plain water in first aid.': 'Agua sola en los primeros auxilios.',
  'NPS allows mild detergent for cotton and linen and dry-cleaning for rayon, wool and silk.': 'NPS permite un detergente suave para algodón y lino, y limpieza en seco para rayón, lana y seda.',
  'Plain water only; detergent is a conservator’s decision.': 'Solo agua; el detergente es decisión de un conservador.',
  'Flat, one layer, absorbent above and below; a clean cloth pressed to the face stays until dry so that soil wicks into it.':
    'Plano, una sola capa, absorbente por arriba y por abajo; una tela limpia presionada contra la cara se queda hasta que seque, para que la suciedad pase a ella.',
  'One layer, flat, absorbent under and over, indoors with the lights on.': 'Una sola capa, plano, absorbente por abajo y por arriba, bajo techo y con las luces encendidas.',
  'Palm pressure with lint-free towels.': 'Presión con la palma y toallas sin pelusa.',
  'Moving air is kept low and indirect; for textiles it may pass across the surface from a distance.':
    'El aire en movimiento se mantiene bajo e indirecto; con textiles puede pasar a lo largo de la superficie, de lejos.',
  'Low and indirect; textiles across at a distance.': 'Bajo e indirecto; a lo largo de los textiles, de lejos.',
  'Minnesota Historical Society blows across the textile; most object guides keep air off the items.':
    'Minnesota Historical Society sopla a lo largo del textil; la mayoría de las guías de objetos mantienen el aire lejos de las piezas.',
  'Fans low and indirect: across the cloth from a distance, never on it.': 'Ventiladores bajos e indirectos: a lo largo de la tela, de lejos, nunca sobre ella.',
  'Folds and pockets of flooded cloth hide glass, needles and pins.': 'Los pliegues y bolsillos de la tela inundada esconden vidrios, agujas y alfileres.',
  'salvage crews check folds before reaching in; care guidance section 9 no. 12.': 'los equipos de rescate revisan los pliegues antes de meter la mano; guía de cuidados, sección 9, n.º 12.',
  'Look before you touch, do not squeeze, never reach into folds or pockets: there may be glass or needles.': 'Mire antes de tocar, no apriete, no meta la mano en pliegues ni bolsillos: puede haber vidrios o agujas.',
};
