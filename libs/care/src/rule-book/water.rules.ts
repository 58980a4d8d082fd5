/** The water it lay in. */
import type { Facts } from '../facts.js';
import { fromMemory, practice, published } from '../sources.js';
import { barPeople, caution, never, offer, ppe, STEPS } from './rule.js';
import type { Rule } from './rule.js';

const CATEGORIES = 'water categories as trade explainers give them (after ANSI/IICRC S500; edition and clause not seen).';
const WET_WORK = ['colour-test', 'stabilise', 'rinse', 'blot', 'dry', 'wrap', 'pack'] as const;

/** Wet whatever the zone; wrapping and packing are wet only before the clean side. */
const ALWAYS_WET = ['colour-test', 'stabilise', 'rinse', 'blot', 'dry'] as const;

const waterIs = (...kinds: Facts['water'][]): Rule['applies'] => (_assessment, facts) => kinds.includes(facts.water);

/** Rules about water, in reading order. */
export const WATER_RULES: readonly Rule[] = [
  {
    id: 'water.unknown-is-black',
    text: 'Water of unknown origin counts as flood or sewage water until shown otherwise.',
    because: ['water'],
    applies: (assessment) => assessment.water === 'unknown',
    concludes: [],
    source: practice(CATEGORIES),
    floor: true,
  },
  {
    id: 'water.worsens',
    text: 'Water does not stay what it was: clean counts as used or dirty house water after a day, and any as flood or sewage water after two.',
    because: ['water', 'wettedAtMs'],
    applies: (_assessment, facts) => facts.waterWorsened,
    concludes: [],
    source: practice(CATEGORIES),
    choice: 'The early end: grey at 24 h, black at 48 h.',
    alternative: 'Grey after 24-48 h; others say only that it degrades with time.',
    choiceId: 'water-ageing',
    floor: true,
  },
  {
    id: 'water.black.handling',
    text: 'River, sea and storm water is treated as sewage-contaminated: the dirty part of the hall and the clean part stay apart.',
    because: ['water', 'wettedAtMs'],
    applies: waterIs('black'),
    concludes: [
      caution('No eating, drinking, smoking or touching your own face; wash hands on leaving; wash work clothes hot and apart.', { zones: ['dirty', 'quarantine'] }),
      barPeople(['under-age', 'no-wet-work'], { steps: WET_WORK, zones: ['dirty', 'quarantine'] }),
    ],
    source: published('waDoh', 'cdcFloodWater', 'oshaFlood'),
    floor: true,
  },
  {
    id: 'water.black.ppe',
    text: 'Against flood or sewage water: rubber boots, rubber gloves, goggles.',
    because: ['water', 'wettedAtMs'],
    applies: waterIs('black'),
    concludes: [ppe(['rubber boots', 'waterproof rubber gloves', 'goggles'], { zones: ['dirty', 'quarantine'] })],
    source: published('cdcFloodWater', 'oshaFlood'),
    floor: true,
  },
  {
    id: 'water.grey.handling',
    text: 'Used or dirty house water can make people ill: gloves, eye protection, a rinse station of its own.',
    because: ['water', 'wettedAtMs'],
    applies: waterIs('grey'),
    concludes: [
      ppe(['waterproof gloves', 'eye protection'], { zones: ['dirty', 'quarantine'] }),
      caution('Rinse apart from clean-water things; wash hands.', { steps: ['rinse'] }),
      barPeople(['under-age', 'no-wet-work'], { steps: WET_WORK, zones: ['dirty', 'quarantine'] }),
    ],
    source: practice(CATEGORIES),
    floor: true,
  },
  {
    id: 'water.spray',
    text: 'Spraying throws dirty drops.',
    because: ['water'],
    applies: waterIs('grey', 'black'),
    concludes: [caution('Do not spray. If you must: two pairs of gloves and a face shield.', { steps: ['rinse'] })],
    source: fromMemory('double glove and face shield for spraying.'),
    floor: true,
  },
  {
    id: 'water.wet-table.ppe',
    text: 'At any wet table: waterproof gloves, eye protection, apron.',
    because: ['wetState'],
    applies: (_assessment, facts) => !facts.dry,
    concludes: [
      ppe(['nitrile or other waterproof gloves', 'eye protection', 'apron or gown'], { steps: ALWAYS_WET }),
      ppe(['nitrile or other waterproof gloves', 'eye protection', 'apron or gown'], { steps: WET_WORK, zones: ['dirty', 'quarantine'] }),
    ],
    source: published('texas', 'cdcFloodWater'),
    floor: true,
  },
  {
    id: 'water.black.paper-discard-listed',
    text: 'Public health lists most paper and books from flood water for discarding; where the family gives them no special weight the owner is asked.',
    because: ['water', 'significance', 'materialClass'],
    families: ['paper', 'book'],
    applies: (_assessment, facts) => facts.discardListed,
    concludes: [offer('release', 80, STEPS.release)],
    source: published('cdcFloodWater', 'fema2023'),
    choice: 'Salvage stands first, letting go is offered, and the owner decides; never silent.',
    alternative: 'Heritage guidance (NPS, NEDCC, FEMA/HENTF) salvages and freezes what CDC and FEMA 2023 discard.',
    choiceId: 'porous-heirlooms',
  },
  {
    id: 'water.salt.no-plain-drying',
    text: 'Salt crystallises as it dries and breaks surfaces: fresh water first, where the material stands it.',
    because: ['water', 'wetState'],
    applies: (assessment, facts) => facts.salt && !facts.dry && facts.traits.porous,
    concludes: [never('Never simply let salt-soaked things dry.'), caution('Fresh water takes the salt out; ask how many changes.', { steps: ['rinse', 'stabilise'] })],
    source: published('salvageObjects'),
  },
  {
    id: 'water.salt.hold-wet-metal',
    text: 'Mixed costume soaked in salt water waits in fresh water until a conservator decides.',
    because: ['water', 'materialClass', 'wetState'],
    classes: ['textile-composite'],
    applies: (_assessment, facts) => facts.salt && !facts.dry,
    concludes: [offer('hold-wet', 8, STEPS.holdWet), { kind: 'need', dispositions: ['treat'], text: 'a conservator’s word that it may dry', consent: null }],
    source: published('salvageObjects'),
    choice: 'Branch on the water: salt stays wet, fresh is dried at once.',
    alternative: 'Iron from fresh water is rinsed and dried at once.',
    choiceId: 'wet-iron',
  },
];
