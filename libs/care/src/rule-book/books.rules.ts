/** Books and albums. */
import { fromMemory, own, published } from '../sources.js';
import { always, bar, caution, clock, never, offer, prefer, STEPS, wet } from './rule.js';
import type { Rule } from './rule.js';

/** Rules about books and albums, in reading order. */
export const BOOK_RULES: readonly Rule[] = [
  {
    id: 'book.bound.damp',
    text: 'A damp book stands, fanned, and air dries.',
    because: ['materialClass', 'wetState', 'count'],
    applies: (assessment, facts) => facts.handledAs === 'book-bound' && assessment.wetState === 'damp' && !facts.moreBooksThanAirDries,
    concludes: [prefer('treat', 8)],
    source: published('iowaChart', 'mnhsBooks'),
  },
  {
    id: 'book.bound.route',
    text: 'Soaked or many books are wrapped, packed spine down in one layer and frozen; air drying has a ceiling of about a hundred.',
    because: ['materialClass', 'wetState', 'count'],
    classes: ['book-bound'],
    applies: wet,
    concludes: [
      offer('hold-frozen', 10, STEPS.freeze),
      offer('treat', 20, STEPS.interleaveAndAirDry),
      caution('Spine down, one layer, crate not crammed.', { steps: ['wrap', 'pack'] }),
      caution('Most of the swelling comes in the first four hours or so.'),
    ],
    source: published('iowaChart', 'mnhsBooks', 'waters'),
  },
  {
    id: 'book.bound.handling',
    text: 'A wet binding is left as it is, open or shut.',
    because: ['materialClass', 'wetState'],
    classes: ['book-bound', 'book-leather-or-vellum'],
    applies: wet,
    concludes: [never('Never open a closed wet book or close an open one.'), never('Never remove the covers.'), caution('Only a closed muddy book may be rinsed, held shut.', { steps: ['stabilise'] })],
    source: published('iowaChart', 'mnhsBooks', 'waters'),
  },
  {
    id: 'book.leather.route',
    text: 'Leather and vellum bindings are air dried under control at once; many go to the freezer first.',
    because: ['materialClass', 'wetState', 'count', 'wettedAtMs'],
    classes: ['book-leather-or-vellum'],
    applies: wet,
    concludes: [
      clock('distortion', 'at-once'),
      offer('treat', 10, STEPS.interleaveAndAirDry),
      offer('hold-frozen', 20, STEPS.freeze),
      never('Never freeze-dry illuminated or gilded volumes.'),
      caution('The shape in which it goes in is the shape in which it comes out: square it up first.', { steps: ['stabilise', 'wrap'] }),
    ],
    source: published('iowaChart', 'louisiana', 'nlmLeather'),
    choice: 'Few are dried, many are frozen; freeze-drying only by a specialist.',
    alternative: 'Freeze at once (Iowa chart); dry at once, freeze if many (Louisiana); some bar vacuum freeze-drying of leather and vellum altogether (trade page).',
    choiceId: 'leather-bindings',
  },
  {
    id: 'book.leather.many',
    text: 'More leather or vellum bindings than can be watched while drying: the freezer first.',
    because: ['materialClass', 'count'],
    applies: (_assessment, facts) => facts.handledAs === 'book-leather-or-vellum' && !facts.dry && facts.moreLeatherThanAirDries,
    concludes: [prefer('hold-frozen', 8)],
    source: own('the sources say "many"; the number is ours.'),
  },
  {
    id: 'book.album.route',
    text: 'Albums and scrapbooks of mixed pages are frozen whole.',
    because: ['materialClass', 'wetState'],
    classes: ['album-or-scrapbook'],
    applies: wet,
    concludes: [offer('hold-frozen', 10, STEPS.freeze), never('Never take stuck pages apart.')],
    source: published('louisiana'),
  },
  {
    id: 'book.album.weakest-part',
    text: 'An album is treated to its most fragile part.',
    because: ['materialClass'],
    classes: ['album-or-scrapbook'],
    applies: always,
    concludes: [caution('Look for photographs, soluble ink and coated pages: the most fragile part decides.'), { kind: 'prefer', disposition: 'refer', rank: 20 }],
    source: fromMemory('treat albums to the most fragile component; hold intact.'),
  },
  {
    id: 'book.album.dry',
    text: 'A wet album is not air dried by volunteers: pages and prints stick as they dry.',
    because: ['materialClass', 'wetState'],
    classes: ['album-or-scrapbook'],
    applies: wet,
    concludes: [bar('treat'), never('Never air dry a wet album here.')],
    source: own('the sources hold albums intact; opening pages is left to a conservator.'),
  },
];
