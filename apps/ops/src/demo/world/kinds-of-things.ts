import type { MaterialClass, Significance } from '#care';
import type { StandardItemKind } from '#climate';
import type { DemoThing } from './types.js';

/** A kind of thing that families bring. All shares and words are invented for the demo. */
export interface KindOfThing {
  family: DemoThing['family'];
  share: number;
  objects: readonly string[];
  /** As volunteers write it; the intake file turns such words into a class. */
  word: string;
  materialClass: MaterialClass;
  size: StandardItemKind | readonly StandardItemKind[];
  /** Pieces of a lot; left out for single things. */
  pieces?: readonly [number, number];
  significance: Readonly<Partial<Record<Significance, number>>>;
}

const KEPT = { valued: 50, treasured: 35, irreplaceable: 10, everyday: 5 } as const;
const DEAR = { valued: 25, treasured: 45, irreplaceable: 30 } as const;
const PLAIN = { everyday: 65, valued: 30, treasured: 5 } as const;

const photographs: readonly KindOfThing[] = [
  { family: 'photograph', share: 26, word: 'colour photo', materialClass: 'photo-colour-print', size: 'print-10x15', pieces: [20, 150], significance: KEPT, objects: ['Envelope of holiday prints', 'Bundle of birthday prints', 'Shoebox of colour prints', 'School photographs in a bag'] },
  { family: 'photograph', share: 24, word: 'colour photo', materialClass: 'photo-colour-print', size: 'print-10x15', significance: KEPT, objects: ['Colour print of a child at the weir', 'Print of the old kitchen', 'Class photograph', 'Print from the harvest fair'] },
  { family: 'photograph', share: 14, word: 'black and white photo', materialClass: 'photo-silver-gelatin', size: 'print-10x15', pieces: [4, 40], significance: DEAR, objects: ['Black and white prints in a tin', 'Bundle of old black and white prints', 'Prints from the quarry years'] },
  { family: 'photograph', share: 12, word: 'black and white photo', materialClass: 'photo-silver-gelatin', size: 'print-10x15', significance: DEAR, objects: ['Portrait of a great-grandmother', 'Wedding portrait on the mill steps', 'Soldier’s portrait'] },
  { family: 'photograph', share: 6, word: 'stuck photo', materialClass: 'photo-stuck-together', size: 'print-10x15', pieces: [10, 80], significance: KEPT, objects: ['Stack of prints stuck together', 'Photographs stuck in a block'] },
  { family: 'photograph', share: 6, word: 'inkjet', materialClass: 'photo-inkjet-or-digital-print', size: 'print-10x15', significance: PLAIN, objects: ['Inkjet print of a grandchild', 'Digital prints from last summer'] },
  { family: 'photograph', share: 8, word: 'negative', materialClass: 'film-negative', size: 'print-10x15', pieces: [12, 72], significance: KEPT, objects: ['Strips of negatives', 'Box of slides', 'Negatives in paper sleeves'] },
  { family: 'photograph', share: 3, word: 'albumen', materialClass: 'photo-albumen', size: 'print-10x15', significance: DEAR, objects: ['Brown card portrait of a miller', 'Card photograph with a gilt edge'] },
  { family: 'photograph', share: 1, word: 'tintype', materialClass: 'photo-collodion-or-tintype', size: 'print-10x15', significance: DEAR, objects: ['Small portrait on tin', 'Tintype in a paper frame'] },
];

const papersAndBooks: readonly KindOfThing[] = [
  { family: 'paper-or-book', share: 20, word: 'letter', materialClass: 'paper-soluble-media', size: 'a4-sheet', pieces: [5, 60], significance: DEAR, objects: ['Bundle of letters in ink', 'Love letters tied with ribbon', 'Recipe cards in ink', 'Diary pages, loose'] },
  { family: 'paper-or-book', share: 16, word: 'document', materialClass: 'paper-uncoated', size: 'a4-sheet', pieces: [2, 30], significance: KEPT, objects: ['Birth and marriage certificates', 'Deeds of the house', 'School reports', 'Sheet music'] },
  { family: 'paper-or-book', share: 12, word: 'magazine', materialClass: 'paper-coated', size: 'a4-sheet', pieces: [4, 40], significance: PLAIN, objects: ['Exhibition catalogues', 'Programmes on glossy paper', 'Brochures of the old mill'] },
  { family: 'paper-or-book', share: 24, word: 'book', materialClass: 'book-bound', size: 'book', significance: { everyday: 40, valued: 40, treasured: 18, irreplaceable: 2 }, objects: ['Cookery book with notes', 'Atlas', 'Family story book', 'Hymn book', 'Household ledger'] },
  { family: 'paper-or-book', share: 6, word: 'leather bound', materialClass: 'book-leather-or-vellum', size: 'book', significance: DEAR, objects: ['Leather-bound family bible', 'Leather-bound prayer book'] },
  { family: 'paper-or-book', share: 14, word: 'album', materialClass: 'album-or-scrapbook', size: 'book', significance: DEAR, objects: ['Wedding album', 'Baby album', 'Scrapbook of the rowing club'] },
  { family: 'paper-or-book', share: 5, word: 'map', materialClass: 'paper-oversize', size: 'a4-sheet', significance: KEPT, objects: ['Map of the valley', 'Poster of the first fair', 'Building plan of the farm'] },
  { family: 'paper-or-book', share: 3, word: 'framed', materialClass: 'paper-framed', size: 'book', significance: KEPT, objects: ['Framed watercolour of the weir', 'Framed certificate'] },
];

const textiles: readonly KindOfThing[] = [
  { family: 'textile', share: 12, word: 'quilt', materialClass: 'textile-quilt-padded', size: ['crib-quilt', 'throw', 'double-quilt', 'queen-quilt'], significance: DEAR, objects: ['Patchwork quilt', 'Cot quilt', 'Quilt of flour sacks', 'Star quilt'] },
  { family: 'textile', share: 10, word: 'tablecloth', materialClass: 'textile-flat-large', size: 'throw', significance: KEPT, objects: ['Embroidered tablecloth', 'Woven coverlet', 'Club banner'] },
  { family: 'textile', share: 20, word: 'linen', materialClass: 'textile-flat-small', size: 'a4-sheet', significance: KEPT, objects: ['Embroidered sampler', 'Lace collar', 'Handkerchief with initials', 'Christening cap'] },
  { family: 'textile', share: 20, word: 'dress', materialClass: 'textile-garment-3d', size: 'garment', significance: KEPT, objects: ['Wedding dress', 'Christening gown', 'Uniform jacket', 'Festival skirt', 'Work shirt of a grandfather'] },
  { family: 'textile', share: 8, word: 'silk', materialClass: 'textile-silk', size: 'garment', significance: DEAR, objects: ['Silk shawl', 'Silk blouse', 'Silk wedding veil'] },
  { family: 'textile', share: 12, word: 'wool', materialClass: 'textile-wool', size: 'garment', significance: KEPT, objects: ['Hand-knitted pullover', 'Woollen coat', 'Woollen blanket of a child'] },
  { family: 'textile', share: 18, word: 'everyday clothes', materialClass: 'textile-everyday', size: 'garment', significance: { everyday: 85, valued: 15 }, objects: ['Bag of everyday clothes', 'Towels', 'Bed linen'] },
];

const others: readonly KindOfThing[] = [
  { family: 'other', share: 40, word: 'stuffed toy', materialClass: 'textile-stuffed', size: 'garment', significance: { everyday: 45, valued: 30, treasured: 25 }, objects: ['Teddy bear', 'Cloth rabbit', 'Cushion sewn by a child'] },
  { family: 'other', share: 12, word: 'beaded', materialClass: 'textile-composite', size: 'garment', significance: DEAR, objects: ['Dance costume with sequins', 'Beaded purse', 'Hat with feathers'] },
  { family: 'other', share: 8, word: 'painted cloth', materialClass: 'textile-painted-or-glazed', size: 'throw', significance: DEAR, objects: ['Painted procession banner', 'Painted silk scarf'] },
  { family: 'other', share: 6, word: 'parchment', materialClass: 'parchment', size: 'a4-sheet', significance: DEAR, objects: ['Guild letter on parchment', 'Apprentice’s letter on vellum'] },
  { family: 'other', share: 34, word: '', materialClass: 'unknown', size: 'garment', significance: KEPT, objects: ['Music box', 'Wooden horse', 'Clock with a paper face', 'Oil painting on board', 'Doll’s house', 'Wicker basket with lining'] },
];

/** All kinds by family; shares count within a family. */
export const KINDS_OF_THINGS: Readonly<Record<DemoThing['family'], readonly KindOfThing[]>> = { photograph: photographs, 'paper-or-book': papersAndBooks, textile: textiles, other: others };
