/** Books and albums. */
export const BOOKS: Readonly<Record<string, string>> = {
  'A damp book stands, fanned, and air dries.': 'Un libro húmedo se pone de pie, abierto en abanico, y se seca al aire.',
  'Soaked or many books are wrapped, packed spine down in one layer and frozen; air drying has a ceiling of about a hundred.':
    'Los libros empapados, o muchos libros, se envuelven, se embalan con el lomo hacia abajo en una sola capa y se congelan; el secado al aire llega hasta unos cien.',
  'Spine down, one layer, crate not crammed.': 'Lomo hacia abajo, una sola capa, sin apretar la caja.',
  'Most of the swelling comes in the first four hours or so.': 'La mayor parte de la hinchazón llega en las primeras cuatro horas más o menos.',
  'A wet binding is left as it is, open or shut.': 'Una encuadernación mojada se deja como está, abierta o cerrada.',
  'Never open a closed wet book or close an open one.': 'Nunca abra un libro mojado cerrado ni cierre uno abierto.',
  'Never remove the covers.': 'Nunca quite las tapas.',
  'Only a closed muddy book may be rinsed, held shut.': 'Solo se puede enjuagar un libro embarrado si está cerrado, sujetándolo cerrado.',
  'Leather and vellum bindings are air dried under control at once; many go to the freezer first.':
    'Las encuadernaciones en cuero y vitela se secan al aire bajo control de inmediato; si son muchas, primero al congelador.',
  'Few are dried, many are frozen; freeze-drying only by a specialist.': 'Pocas se secan, muchas se congelan; liofilizar, solo un especialista.',
  'Freeze at once (Iowa chart); dry at once, freeze if many (Louisiana); some bar vacuum freeze-drying of leather and vellum altogether (trade page).':
    'Congelar de inmediato (cuadro de Iowa); secar de inmediato, congelar si son muchas (Luisiana); algunos prohíben del todo liofilizar cuero y vitela al vacío (página del oficio).',
  'Never freeze-dry illuminated or gilded volumes.': 'Nunca liofilice volúmenes iluminados o dorados.',
  'The shape in which it goes in is the shape in which it comes out: square it up first.': 'Con la forma con que entra, sale: cuádrelo primero.',
  'More leather or vellum bindings than can be watched while drying: the freezer first.': 'Más encuadernaciones en cuero o vitela de las que se pueden vigilar al secarse: primero el congelador.',
  'Our own calibration: the sources say "many"; the number is ours.': 'Calibración propia: las fuentes dicen "muchas"; el número es nuestro.',
  'Albums and scrapbooks of mixed pages are frozen whole.': 'Los álbumes con páginas mixtas se congelan enteros.',
  'Never take stuck pages apart.': 'Nunca separe páginas pegadas.',
  'An album is treated to its most fragile part.': 'Un álbum se trata según su parte más frágil.',
  'From memory, not verified: treat albums to the most fragile component; hold intact.': 'De memoria, sin comprobar: tratar los álbumes según su componente más frágil; mantenerlos enteros.',
  'Look for photographs, soluble ink and coated pages: the most fragile part decides.': 'Busque fotografías, tinta soluble y páginas estucadas: decide la parte más frágil.',
  'A wet album is not air dried by volunteers: pages and prints stick as they dry.': 'Los voluntarios no secan al aire un álbum mojado: las páginas y las copias se pegan al secarse.',
  'Our own calibration: the sources hold albums intact; opening pages is left to a conservator.':
    'Calibración propia: las fuentes mantienen enteros los álbumes; abrir páginas se deja a un conservador.',
  'Never air dry a wet album here.': 'Nunca seque aquí al aire un álbum mojado.',
};
