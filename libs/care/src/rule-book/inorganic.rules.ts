/** Ceramics, glass, stone, metals (care guidance, section 1f), and what salt does to them. */
import { own, practice, published } from '../sources.js';
import type { MaterialClass } from '../types.js';
import { always, bar, caution, clock, never, offer, prefer, referral, STEPS, wet } from './rule.js';
import type { Conclusion, Rule } from './rule.js';

const LAST: readonly MaterialClass[] = ['ceramic-glazed', 'glass-object', 'stone', 'metal-other'];
const METALS: readonly MaterialClass[] = ['metal-iron', 'metal-other'];
const HELD_IN_FRESH_WATER: readonly MaterialClass[] = ['ceramic-glazed', 'glass-object', 'stone', 'metal-other'];

const CONSERVATOR_FIRST: Conclusion = { kind: 'need', dispositions: ['treat'], text: 'a conservator’s word that it may dry', consent: null };

const soakedInSalt: Rule['applies'] = (_assessment, facts) => facts.salt && !facts.dry;

/** Rules about inorganic things, in reading order. */
export const INORGANIC_RULES: readonly Rule[] = [
  {
    id: 'inorganic.last.route',
    text: 'Glazed ceramic, glass, stone and most metal come last: a short wetting does them little harm. Rinsed or sponged, blotted, air dried off the floor.',
    because: ['materialClass', 'wetState'],
    classes: LAST,
    applies: wet,
    concludes: [offer('treat', 10, STEPS.textileTreat), caution('Rinse or sponge the mud off, blot, dry raised off the floor.', { steps: ['rinse', 'blot', 'dry'] }), caution('It can wait: things that spoil sooner come first.')],
    source: published('salvageObjects', 'mnhsInorganics', 'fema2017'),
  },
  {
    id: 'inorganic.shards',
    text: 'Shards are kept together and glued by nobody until they are dry.',
    because: ['materialClass', 'detachedParts'],
    classes: ['ceramic-glazed', 'ceramic-low-fired', 'glass-object', 'stone'],
    applies: (_assessment, facts) => facts.loose,
    concludes: [never('Never glue shards before they are dry.'), caution('All shards of one object in one labelled container.', { steps: ['rinse', 'blot', 'dry', 'wrap', 'pack'] })],
    source: published('salvageObjects'),
  },
  {
    id: 'inorganic.glass.no-freezing',
    text: 'Ceramics and glass are not frozen.',
    because: ['materialClass'],
    classes: ['ceramic-glazed', 'ceramic-low-fired', 'glass-object'],
    applies: always,
    concludes: [bar('hold-frozen'), never('Never freeze ceramics or glass.')],
    source: practice('some guides bar ceramics and glass from the freezer.'),
    floor: true,
  },
  {
    id: 'inorganic.other.no-freezing',
    text: 'Freezing has nothing to give stone or metal.',
    because: ['materialClass'],
    classes: ['stone', 'metal-iron', 'metal-other'],
    applies: always,
    concludes: [bar('hold-frozen'), never('Never freeze stone or metal.')],
    source: own('silence of the sources read as no: frost splits wet stone.'),
    floor: true,
  },
  {
    id: 'iron.route',
    text: 'Iron and steel corrode fast: rinsed, blotted and dried at once, earlier than other inorganic things.',
    because: ['materialClass', 'wetState', 'water'],
    classes: ['metal-iron'],
    applies: wet,
    concludes: [offer('treat', 10, STEPS.textileTreat), caution('Rinse, blot and dry in one go.', { steps: ['rinse', 'blot', 'dry'] })],
    source: published('salvageObjects', 'mnhsInorganics'),
  },
  {
    id: 'iron.hours',
    text: 'Wet iron is begun within hours.',
    because: ['materialClass', 'wetState', 'wettedAtMs'],
    classes: ['metal-iron'],
    applies: wet,
    concludes: [clock('corrosion', 'iron')],
    source: own('the sources say at once and earlier than other inorganics; six hours is ours.'),
  },
  {
    id: 'iron.fresh-water.not-left-wet',
    text: 'Iron from fresh water is not left wet.',
    because: ['materialClass', 'water'],
    classes: ['metal-iron'],
    applies: (_assessment, facts) => !facts.dry && !facts.salt,
    concludes: [never('Never leave iron wet.')],
    source: published('salvageObjects', 'mnhsInorganics'),
  },
  {
    id: 'metal.gentle-warmth',
    text: 'Bare metal stands gentle warmth, to 38 C at most.',
    because: ['materialClass', 'wetState'],
    classes: METALS,
    applies: wet,
    concludes: [caution('Bare metal only: gentle warmth of 32-38 C is acceptable.', { steps: ['dry'] })],
    source: published('mnhsInorganics'),
    choice: 'Metal only, capped at 38 C.',
    alternative: 'No hair dryers or ovens at all (FEMA); a low-heat dryer for metal (FEMA 2017).',
    choiceId: 'heat-for-metal',
  },
  {
    id: 'ceramic.low-fired.route',
    text: 'Unfired and low-fired ceramic is porous and soft: earlier than glazed ware, dried slowly, not soaked.',
    because: ['materialClass', 'wetState'],
    classes: ['ceramic-low-fired'],
    applies: wet,
    concludes: [offer('treat', 10, STEPS.airDry), caution('Slow air drying.', { steps: ['dry'] })],
    source: published('salvageObjects'),
  },
  {
    id: 'ceramic.low-fired.no-soaking',
    text: 'Unfired clay falls apart in water.',
    because: ['materialClass'],
    classes: ['ceramic-low-fired'],
    applies: always,
    concludes: [bar('hold-wet'), never('Never soak unfired or low-fired ceramic.')],
    source: published('salvageObjects'),
  },
  {
    id: 'inorganic.salt.hold-wet',
    text: 'What was soaked in salt water waits in fresh water until a conservator decides.',
    because: ['materialClass', 'water', 'wetState'],
    classes: HELD_IN_FRESH_WATER,
    applies: soakedInSalt,
    concludes: [offer('hold-wet', 8, STEPS.holdWet), prefer('refer', 9), never('Never let it dry with the salt in it.'), CONSERVATOR_FIRST, caution('Fresh water, until a conservator has decided.', { steps: ['stabilise'] })],
    source: published('salvageObjects'),
  },
  {
    id: 'iron.salt.hold-wet',
    text: 'Iron soaked in salt water is kept wet in fresh water; from fresh water it is dried at once.',
    because: ['materialClass', 'water', 'wetState'],
    classes: ['metal-iron'],
    applies: soakedInSalt,
    concludes: [offer('hold-wet', 8, STEPS.holdWet), prefer('refer', 9), never('Never let salt-soaked iron dry before a conservator has decided.'), CONSERVATOR_FIRST],
    source: published('salvageObjects'),
    choice: 'Branch on the water: salt stays wet, fresh is dried at once.',
    alternative: 'Wet iron is rinsed and dried at once, whatever the water.',
    choiceId: 'wet-iron',
  },
  {
    id: 'inorganic.salt.hours',
    text: 'Salt breaks the surface as it dries: into fresh water within the day.',
    because: ['materialClass', 'water', 'wettedAtMs'],
    classes: ['ceramic-glazed', 'ceramic-low-fired', 'stone', 'metal-iron', 'metal-other'],
    applies: soakedInSalt,
    concludes: [clock('salt-crystals', 'salt')],
    source: own('the source says not to let it dry; the hours are ours.'),
  },
  {
    id: 'ceramic.low-fired.salt',
    text: 'Salt-soaked low-fired ceramic may neither dry nor soak: a conservator decides.',
    because: ['materialClass', 'water', 'wetState'],
    classes: ['ceramic-low-fired'],
    applies: soakedInSalt,
    concludes: [prefer('refer', 5), CONSERVATOR_FIRST, referral('Low-fired ceramic soaked in salt water: keep it damp and covered, ask a conservator.')],
    source: own('two published rules meet here, no soaking and no drying with salt in; the way out is a conservator.'),
  },
];
