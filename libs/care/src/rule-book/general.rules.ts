/** What holds for every material: dry things, unknown things, referral, market value. */
import type { Family } from '../materials.js';
import { own, published } from '../sources.js';
import type { MaterialClass } from '../types.js';
import { addStep, always, bar, bathAlone, caution, clock, never, offer, omitStep, prefer, STEPS, wet } from './rule.js';
import type { Rule } from './rule.js';

/** Surfaces that are not brushed here, wet or dry. */
const UNTOUCHED: ReadonlySet<Family> = new Set<Family>(['photo', 'film', 'audio-visual', 'painting']);
const UNTOUCHED_CLASSES: ReadonlySet<MaterialClass> = new Set<MaterialClass>(['wood-painted-or-gilded', 'taxidermy-or-skin', 'herbarium', 'mineral-or-fossil']);

/** Rules for every material, in reading order. */
export const GENERAL_RULES: readonly Rule[] = [
  {
    id: 'dry.not-wetted-again',
    text: 'What has dried is not wetted again: the museum rules hold for it, surface cleaning only.',
    because: ['wetState'],
    applies: (_assessment, facts) => facts.dry && !facts.household,
    concludes: [offer('treat', 6, STEPS.dryCare), never('Never wash or wet it again without a conservator.')],
    source: published('cci1314', 'cci137', 'ellis'),
    choice: 'Split by the present wet state.',
    alternative: 'Flood practice (Alberta) wet-treated pieces that museums never wash, because they were already soaked.',
    choiceId: 'rinse-soaked-pieces',
  },
  {
    id: 'dry.surface-clean',
    text: 'Dry dirt is brushed or vacuumed off; the faces of photographs, paintings and painted or collected things are left alone.',
    because: ['wetState', 'materialClass'],
    applies: (_assessment, facts) => facts.dry && !facts.household && !facts.rinsedAndDriedHere && !UNTOUCHED.has(facts.family) && !UNTOUCHED_CLASSES.has(facts.handledAs),
    concludes: [addStep('surface-clean', 'treat')],
    source: own('surface cleaning is what remains when washing is barred.'),
  },
  {
    id: 'dry.no-holding',
    text: 'A dry thing without active mould needs no freezer and no tub.',
    because: ['wetState', 'mould'],
    applies: (_assessment, facts) => facts.dry && facts.mould !== 'active',
    concludes: [bar('hold-frozen'), bar('hold-wet')],
    source: own('freezing stops a clock that is not running.'),
  },
  {
    id: 'dry.mould-may-be-frozen',
    text: 'A dry thing with active mould may go to the freezer if its material allows.',
    because: ['wetState', 'mould', 'materialClass'],
    families: ['textile', 'book', 'paper', 'leather'],
    applies: (_assessment, facts) => facts.dry && facts.mould === 'active' && !facts.household,
    concludes: [offer('hold-frozen', 20, STEPS.freeze), bar('hold-wet')],
    source: published('amnhFreezing', 'cerf'),
  },
  {
    id: 'stabilised.clocks-stopped',
    text: 'It is frozen, or dried here: its clocks have stopped. Freezing only pauses them until the thaw.',
    because: ['doneSteps', 'mould'],
    applies: (_assessment, facts) => facts.stabilised,
    concludes: [],
    source: published('unescoRamp', 'amnhFreezing'),
  },
  {
    id: 'wet-state.unknown',
    text: 'Nobody has said whether it is wet: the clocks of wet things run, and it is looked at before any water.',
    because: ['wetState'],
    applies: (assessment) => assessment.wetState === 'unknown',
    concludes: [addStep('assess', 'treat'), caution('If it turns out dry, it is not wetted.', { steps: ['assess', 'rinse'] })],
    source: own('the cautious side of both: fast for wet, no water for dry.'),
  },
  {
    id: 'material.unknown',
    text: 'The material is not known: it is handled as the most delicate, neither washed nor frozen, and looked at first.',
    because: ['materialClass'],
    classes: ['unknown'],
    applies: always,
    concludes: [bar('treat'), bar('hold-frozen'), bar('hold-wet'), addStep('assess', 'refer'), bathAlone, never('Never wash, freeze or take it apart before someone has said what it is.')],
    source: own('the cautious side of every material rule.'),
    floor: true,
  },
  {
    id: 'material.unknown.look-soon',
    text: 'It might stick together within hours: someone looks at it within six.',
    because: ['materialClass', 'wetState', 'wettedAtMs'],
    classes: ['unknown'],
    applies: wet,
    concludes: [clock('blocking', 'unknown-material')],
    source: own('the coated-paper clock for what might be coated paper.'),
  },
  {
    id: 'fragility.support',
    text: 'Weak, or nobody has judged its strength: full support in every move.',
    because: ['fragility'],
    applies: (_assessment, facts) => facts.weak,
    concludes: [caution('Carry it on a support; do not pull.')],
    source: published('mnhsTextiles', 'npsWetTextiles'),
  },
  {
    id: 'fragility.degraded.refer',
    text: 'Very degraded: a conservator before hands.',
    because: ['fragility'],
    applies: (_assessment, facts) => facts.degraded && facts.family !== 'textile',
    concludes: [prefer('refer', 5)],
    source: own('the textile rule, carried to other materials.'),
  },
  {
    id: 'colour-runs.no-water',
    text: 'Colour that has been seen to move moves again in water.',
    because: ['alreadyBled', 'colourTests'],
    families: ['audio-visual', 'painting', 'wood', 'leather', 'organic', 'inorganic'],
    applies: (_assessment, facts) => facts.dye === 'bleeding' && !facts.dry,
    concludes: [omitStep('rinse', 'treat'), bathAlone, never('Never wet again a thing whose colour has moved.')],
    source: own('the textile rule, carried to other materials.'),
  },
  {
    id: 'market-value.high',
    text: 'High market value: a conservator decides.',
    because: ['highMarketValue'],
    applies: (assessment) => assessment.highMarketValue === true,
    concludes: [prefer('refer', 5), caution('Take no step that cannot be undone before a conservator has answered.')],
    source: own('care guidance section 9 no. 14: anything of high market value is deferred to a conservator.'),
  },
  {
    id: 'market-value.unknown',
    text: 'Nobody has asked whether it is valuable.',
    because: ['highMarketValue'],
    applies: (assessment) => assessment.highMarketValue === null,
    concludes: [caution('Ask whether it is valuable before any step that cannot be undone. Valuation itself is for a licensed person.', { steps: ['rinse', 'surface-clean', 'release'] })],
    source: own('the cautious side.'),
  },
  {
    id: 'general.refer',
    text: 'A specialist may always be asked.',
    because: [],
    applies: always,
    concludes: [offer('refer', 90, STEPS.refer)],
    source: own('referral is the way out when every other way is barred.'),
  },
];
