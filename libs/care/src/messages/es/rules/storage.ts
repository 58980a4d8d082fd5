/** How the family keeps it. */
export const STORAGE: Readonly<Record<string, string>> = {
  'What is not known to be dry is dried first.': 'Lo que no consta que esté seco se seca primero.',
  'Our own calibration: the drying rules in words for a family.': 'Calibración propia: las reglas del secado en palabras para una familia.',
  'It is not known to be dry: spread it out in moving air, away from sun and heaters, before you put it away.':
    'No consta que esté seco: extiéndalo donde el aire se mueva, lejos del sol y de calefactores, antes de guardarlo.',
  'Below 60 % relative humidity with good air movement mould on cloth is unlikely.': 'Por debajo de 60 % de humedad relativa y con buen movimiento de aire es poco probable que salga moho en la tela.',
  'Keep cloth in moving air below 60 % relative humidity.': 'Guarde la tela donde el aire se mueva y por debajo de 60 % de humedad relativa.',
  'Clean, fully dry, in acid-free paper, not against wood or plastic.': 'Limpio, completamente seco, en papel libre de ácido, sin contacto con madera ni plástico.',
  'From memory, not verified: acid-free, no wood or plastic contact.': 'De memoria, sin comprobar: libre de ácido, sin contacto con madera ni plástico.',
  'Put it away clean and fully dry, in acid-free paper, not against bare wood.': 'Guárdelo limpio y completamente seco, en papel libre de ácido, sin contacto con madera desnuda.',
  'Books are kept as dry as the room in which they dried: 50 % relative humidity or less.': 'Los libros se guardan tan secos como la sala en que se secaron: 50 % de humedad relativa o menos.',
  'Our own calibration: the drying-room target of a salvage guide for books, carried to the shelf.':
    'Calibración propia: la meta de la sala de secado de una guía de salvamento de libros, llevada al estante.',
  'Keep books and papers at or below 50 % relative humidity, upright or flat, not pressed.': 'Guarde libros y papeles a 50 % de humedad relativa o menos, de pie o planos, sin apretarlos.',
  'Wood finishes drying at 50-55 % relative humidity.': 'La madera termina de secarse a 50-55 % de humedad relativa.',
  'Our own calibration: the humidity at which wood is to finish drying, carried to the home.': 'Calibración propia: la humedad a la que la madera debe terminar de secarse, llevada a la casa.',
  'Keep wood at 50-55 % relative humidity, away from heaters and sun; it goes on drying for weeks.':
    'Guarde la madera a 50-55 % de humedad relativa, lejos de calefactores y del sol; sigue secándose durante semanas.',
  'Photographs are kept flat, by the edges, in a folder each.': 'Las fotografías se guardan planas, tomadas por los bordes, cada una en una carpeta.',
  'Our own calibration: the handling rules carried to the drawer.': 'Calibración propia: las reglas de manejo llevadas al cajón.',
  'Keep photographs cool, dry and flat, each in its own folder; touch only the edges.':
    'Guarde las fotografías en un lugar fresco y seco, planas, cada una en su propia carpeta; toque solo los bordes.',
  'A thing may be dangerously wet inside long after the room reads safe.': 'Un objeto puede estar peligrosamente mojado por dentro mucho después de que la sala parezca segura.',
  'Dry air in the room does not mean that it is dry inside.': 'Que el aire de la sala esté seco no significa que el objeto esté seco por dentro.',
  'Damp and mould show late in thick things.': 'En las cosas gruesas la humedad y el moho se notan tarde.',
  'Our own calibration: two weeks are our choice.': 'Calibración propia: las dos semanas las elegimos nosotros.',
  'Look at it after two weeks, and feel inside folds, spines and padding; if it is damp, smells musty or shows new spots, take it into dry air apart from other things, and ask.':
    'Revíselo después de dos semanas y palpe dentro de pliegues, lomos y rellenos; si está húmedo, huele a moho o tiene manchas nuevas, llévelo al aire seco, lejos de otras cosas, y pregunte.',
  'Frozen things stay frozen until somebody can dry them.': 'Lo congelado sigue congelado hasta que alguien pueda secarlo.',
  'From memory, not verified: pull from the freezer only what can be dried in that session.': 'De memoria, sin comprobar: sacar del congelador solo lo que se puede secar en esa sesión.',
  'While it is frozen keep it frozen, and thaw only what can be dried in one go.': 'Mientras esté congelado, manténgalo congelado, y descongele solo lo que se pueda secar de una vez.',
  'Rinsing and drying do not make a porous thing sterile.': 'Enjuagar y secar un objeto poroso no lo esteriliza.',
  'It lay in contaminated water and is not sterile: wash your hands after handling, and keep it from small children, food and bedding.':
    'Estuvo en agua contaminada y no es estéril: lávese las manos después de tocarlo y manténgalo lejos de niños pequeños, de la comida y de la ropa de cama.',
  'Dead mould still harms.': 'El moho muerto también hace daño.',
  'It had mould: gloves and a mask if any can be seen, and away from people who are sensitive to it.': 'Tuvo moho: guantes y mascarilla si se ve algo, y lejos de las personas sensibles a él.',
  'A rescued tape is copied before it is kept.': 'Una cinta rescatada se copia antes de guardarla.',
  'Our own calibration: a record that was wet may fail later.': 'Calibración propia: una grabación que se mojó puede fallar más tarde.',
  'Have it copied before you rely on it, and keep the copy elsewhere.': 'Haga que la copien antes de confiar en ella, y guarde la copia en otro lugar.',
};
