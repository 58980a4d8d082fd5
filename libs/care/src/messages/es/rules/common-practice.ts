/** Common practice of the trade. */
export const COMMON_PRACTICE: Readonly<Record<string, string>> = {
  'Before anything: value, damage and labour are weighed.': 'Antes de nada se sopesan el valor, el daño y el trabajo.',
  'a practitioner’s account of the trade, with no published source.': 'relato del oficio de una persona que lo practica, sin fuente publicada.',
  'Before anything, weigh what it means, how it is damaged and how long it will take.': 'Antes de nada, sopese qué significa, cómo está dañado y cuánto tiempo llevará.',
  'Powder-free nitrile gloves, always.': 'Guantes de nitrilo sin polvo, siempre.',
  'A mask and eye protection wherever mould is.': 'Mascarilla y protección para los ojos donde haya moho.',
  'Mask and eye protection before the bag is opened.': 'Mascarilla y protección para los ojos antes de abrir la bolsa.',
  'Nobody knows what was in the water: chemicals and raw sewage are possible.': 'Nadie sabe qué había en el agua: puede haber químicos y aguas residuales sin tratar.',
  'What was in the water is not known; chemicals and raw sewage are possible.': 'No se sabe qué había en el agua; puede haber químicos y aguas residuales sin tratar.',
  'Every colour is tested by itself with a barely damp swab or sponge before any re-wetting.':
    'Cada color se prueba por separado, con un hisopo o una esponja apenas húmedos, antes de volver a mojar.',
  'Each colour by itself, with a barely damp swab or sponge.': 'Cada color por separado, con un hisopo o una esponja apenas húmedos.',
  'One colour that transfers stops the re-wetting of the whole piece.': 'Un solo color que se transfiere impide volver a mojar la pieza entera.',
  'Never wet or rinse it at all: its dye moves.': 'Nunca lo moje ni lo enjuague: su color se corre.',
  'Photograph it clearly and write down what it is.': 'Fotografíela con claridad y anote qué es.',
  'Ask for the family’s memories of it, spoken if that is easiest, and set it aside.': 'Pregunte por los recuerdos que la familia tiene de ella, de palabra si es más fácil, y déjela aparte.',
  'A very precious piece whose colour moves is frozen, and a specialist is asked, who may cost money.':
    'Una pieza muy preciada cuyo color se corre se congela, y se pregunta a un especialista, que puede cobrar.',
  'A specialist may cost money: agree a limit with the owner first.': 'Un especialista puede cobrar: acuerde antes un límite con el dueño.',
  'Wax-coated freezer paper at every fold, then a freezer bag, labelled outside on tape that holds.':
    'Papel para congelador encerado en cada pliegue, después una bolsa para congelador, rotulada por fuera en cinta que no se despegue.',
  'Wax-coated freezer paper at every fold, not baking parchment; then a freezer bag.': 'Papel para congelador encerado en cada pliegue, no papel de hornear; después una bolsa para congelador.',
  'Write the label on tape that holds in the cold, on the outside.': 'Escriba la etiqueta en cinta que aguante el frío, por fuera.',
  'A wet textile is heavier and weaker than a dry one: it is lifted on plastic screen mesh.': 'Un textil mojado es más pesado y más débil que seco: se levanta sobre malla plástica.',
  'Lift it on plastic screen mesh.': 'Levántelo sobre malla plástica.',
  'Never carry or dry it on metal mesh: metal rusts.': 'Nunca lo lleve ni lo seque sobre malla de metal: el metal se oxida.',
  'Three baths in sequence with a drip between, again until it is clean enough.': 'Tres baños seguidos, dejando escurrir entre uno y otro, y de nuevo hasta que esté bastante limpio.',
  'Distilled water with nothing added; let it soak until the folds relax, then ease debris out.':
    'Agua destilada sin añadir nada; déjelo en remojo hasta que cedan los pliegues y después saque los restos con suavidad.',
  'Three baths, a drip between; look, and run the three again until it is clean enough.': 'Tres baños, dejando escurrir entre uno y otro; mire, y repita los tres hasta que esté bastante limpio.',
  'Never press it hard.': 'Nunca lo apriete con fuerza.',
  'Water is rolled out into white towels under cheesecloth; colour on the cheesecloth is a stop.': 'El agua se saca enrollando en toallas blancas bajo una gasa; si la gasa toma color, se para.',
  'Flat on white towels, cheesecloth over it, a white towel on top; roll gently, move to dry towelling, repeat.':
    'Plano sobre toallas blancas, una gasa encima y una toalla blanca arriba; enrolle con suavidad, pase a toallas secas, repita.',
  'Colour on the cheesecloth is a stop: lay flat, report that the dye moved.': 'Color en la gasa: pare, póngalo plano, avise que el tinte se corrió.',
  'A flat piece dries over a padded rail, or on a rack open to the air above and below.': 'Una pieza plana se seca sobre una barra acolchada, o en un bastidor abierto al aire por arriba y por abajo.',
  'Over a padded rail, or on a rack open to the air above and below.': 'Sobre una barra acolchada, o en un bastidor abierto al aire por arriba y por abajo.',
  'A fan may move the room’s air, never blow on the piece.': 'Un ventilador puede mover el aire de la sala, nunca soplar sobre la pieza.',
  'Never let a fan blow on the piece; it may move the room’s air.': 'Nunca deje que un ventilador sople sobre la pieza; puede mover el aire de la sala.',
  'A large quilt is a two-person move.': 'Mover una colcha grande es cosa de dos personas.',
  'Two people for every move of a large quilt.': 'Dos personas cada vez que se mueva una colcha grande.',
  'A full-size quilt may in good weather be rinsed outdoors on a slanted board, and dries under a canopy.':
    'Una colcha de tamaño completo se puede enjuagar al aire libre con buen tiempo, sobre una tabla inclinada, y se seca bajo un toldo.',
  'Full size and good weather: on a slanted board covered with a tarp, a gentle low-pressure rinse from a distance.':
    'Tamaño completo y buen tiempo: sobre una tabla inclinada cubierta con una lona, enjuague suave, a baja presión y de lejos.',
  'Outdoors only under a canopy: sun bleaches.': 'Al aire libre, solo bajo un toldo: el sol decolora.',
  'Whites and colours do not share a bath.': 'Lo blanco y lo de color no comparten baño.',
  'Whites if it is coloured, colours if it is white.': 'Lo blanco, si es de color; lo de color, si es blanco.',
  'A dry textile lives in a soft white pillowcase or an archival box, folds padded, high up, and is looked at now and then.':
    'Un textil seco se guarda en una funda de almohada blanca y suave o en una caja de archivo, con los pliegues rellenos, en alto, y se mira de vez en cuando.',
  'Keep it in a soft white pillowcase or an archival box.': 'Guárdelo en una funda de almohada blanca y suave o en una caja de archivo.',
  'Pad the folds with plain white paper towel, never printed, or with archival tissue.': 'Rellene los pliegues con toalla de papel blanca sin estampar, nunca impresa, o con papel de seda de archivo.',
  'In a plastic bin add a desiccant.': 'En una caja de plástico, añada un desecante.',
  'High up, away from places that flood or sweat, and looked at now and then.': 'En alto, lejos de lugares que se inundan o sudan, y se mira de vez en cuando.',
  'Keep it high up, away from places that flood or sweat.': 'Guárdelo en alto, lejos de lugares que se inundan o sudan.',
  'Look at it now and then.': 'Mírelo de vez en cuando.',
};
