/** Hats, shoes, knits, lined garments, painted silk, archaeological cloth, man-made fibres. */
import { own, published } from '../sources.js';
import { always, bar, caution, never, offer, prefer, referral, STEPS, wet } from './rule.js';
import type { MaterialClass } from '../types.js';
import type { Rule } from './rule.js';

/** What museums do not wash, whatever its fibre. */
const NEVER_WASHED: ReadonlySet<MaterialClass> = new Set<MaterialClass>(['textile-quilt-padded', 'textile-wool', 'textile-composite', 'textile-knit-bias-or-lined']);

/** Rules about textiles by construction, in reading order. */
export const TEXTILE_CONSTRUCTION_RULES: readonly Rule[] = [
  {
    id: 'textile.hat-or-shoe.route',
    text: 'A hat or shoe is blotted, padded out with absorbent filling and dried on its support.',
    because: ['materialClass', 'wetState'],
    classes: ['textile-hat-or-shoe'],
    applies: wet,
    concludes: [
      offer('treat', 10, STEPS.blotAndAirDry),
      offer('hold-frozen', 20, STEPS.freeze),
      never('Never hang a wet hat or shoe.'),
      caution('Pad it out with absorbent filling; tag every part that comes off.', { steps: ['blot', 'dry', 'check'] }),
    ],
    source: published('mnhsTextiles', 'aicTextiles', 'cerf'),
  },
  {
    id: 'textile.knit.route',
    text: 'Knits, bias-cut and lined garments distort and shrink unevenly: blotted, blocked to shape flat, and dried; a conservator is asked before water.',
    because: ['materialClass', 'wetState'],
    classes: ['textile-knit-bias-or-lined'],
    applies: wet,
    concludes: [
      offer('treat', 10, STEPS.blotAndAirDry),
      prefer('refer', 15),
      never('Never hang a knitted, bias-cut or lined garment.'),
      never('Never rinse a knitted, bias-cut or lined garment before a conservator has answered.'),
      caution('Block it to shape, flat; lining and cover shrink differently.', { steps: ['blot', 'dry'] }),
    ],
    source: published('cci1314', 'francisTextiles'),
  },
  {
    id: 'textile.knit.freezing',
    text: 'A knit that cannot be dried in time is frozen flat.',
    because: ['materialClass', 'wetState'],
    classes: ['textile-knit-bias-or-lined'],
    applies: wet,
    concludes: [offer('hold-frozen', 20, STEPS.freeze)],
    source: published('cerf'),
  },
  {
    id: 'textile.silk-painted.refer',
    text: 'Painted or weighted silk is not for anyone but a conservator.',
    because: ['materialClass'],
    classes: ['textile-silk-painted-or-weighted'],
    applies: always,
    concludes: [
      prefer('refer', 4),
      bar('treat'),
      never('Never treat painted or weighted silk without a conservator.'),
      referral('Painted or weighted silk: stop, keep it flat and supported, ask a conservator.'),
    ],
    source: published('aicTextileGroup'),
  },
  {
    id: 'textile.silk-painted.no-freezing',
    text: 'Painted pieces are not frozen without a conservator; weighted silk is kept from the freezer with them.',
    because: ['materialClass'],
    classes: ['textile-silk-painted-or-weighted'],
    applies: always,
    concludes: [bar('hold-frozen'), never('Never freeze painted or weighted silk without a conservator saying so.')],
    source: published('cerf', 'ukPocket', 'texas'),
    floor: true,
  },
  {
    id: 'textile.archaeological.first',
    text: 'Archaeological and gelatinising cloth goes ahead of all the rest.',
    because: ['materialClass'],
    classes: ['textile-archaeological'],
    applies: always,
    concludes: [prefer('refer', 2), referral('Archaeological or gelatinising cloth: support all of it, ask a conservator at once.')],
    source: published('salvageTextiles', 'mnhsTextiles', 'francisTextiles'),
  },
  {
    id: 'textile.archaeological.no-freezing',
    text: 'No guidance was found for freezing archaeological cloth; it is not frozen without a conservator.',
    because: ['materialClass'],
    classes: ['textile-archaeological'],
    applies: always,
    concludes: [bar('hold-frozen'), never('Never freeze archaeological cloth without a conservator saying so.')],
    source: own('silence of the sources read as no.'),
    floor: true,
  },
  {
    id: 'textile.museum-never-washed',
    text: 'Museums do not wash stuffed quilts, wool, knits, composite pieces or early man-made fibres; what is already soaked is another matter.',
    because: ['materialClass', 'wetState'],
    classes: ['textile-quilt-padded', 'textile-wool', 'textile-composite', 'textile-knit-bias-or-lined'],
    applies: always,
    concludes: [never('Never wash it once it is dry.')],
    source: published('cci1314', 'cci137'),
    choice: 'Split by the present wet state: a soaked, dye-fast piece is rinsed, a dry one never washed.',
    alternative: 'Museum guidance (CCI) never washes them; the University of Alberta did after its flood, with success.',
    choiceId: 'rinse-soaked-pieces',
    until: '2026.2',
  },
  {
    id: 'textile.museum-never-washed',
    text: 'Museums do not wash stuffed quilts, wool, knits, composite pieces or early man-made fibres; what is already soaked is another matter.',
    because: ['materialClass', 'fibre', 'wetState'],
    families: ['textile'],
    applies: (assessment, facts) => !facts.household && (NEVER_WASHED.has(facts.handledAs) || assessment.fibre === 'viscose' || assessment.fibre === 'acetate'),
    concludes: [never('Never wash it once it is dry.')],
    source: published('cci1314', 'cci137'),
    choice: 'Split by the present wet state: a soaked, dye-fast piece is rinsed, a dry one never washed.',
    alternative: 'Museum guidance (CCI) never washes them; the University of Alberta did after its flood, with success.',
    choiceId: 'rinse-soaked-pieces',
    since: '2026.11',
    why: 'The text names early man-made fibres, and the rule was asked of none of them.',
  },
];
