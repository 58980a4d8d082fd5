/** Dyes that move: colour tests and what follows from them. */
import type { DyeState } from '../facts.js';
import { own, practice, published } from '../sources.js';
import { addStep, caution, clock, isSalvagedTextile, never, omitStep, prefer, referral } from './rule.js';
import type { Rule } from './rule.js';

const dyeIs = (...states: DyeState[]): Rule['applies'] => (assessment, facts) => isSalvagedTextile(assessment, facts) && states.includes(facts.dye);

/** Rules about dyes in textiles. */
export const TEXTILE_DYE_RULES: readonly Rule[] = [
  {
    id: 'textile.bleeding.immediate',
    text: 'Dye that moves keeps moving while the cloth is wet: a conservator at once.',
    because: ['alreadyBled', 'colourTests', 'wettedAtMs'],
    families: ['textile'],
    applies: dyeIs('bleeding'),
    concludes: [clock('dye-migration', 'at-once'), prefer('refer', 5)],
    source: published('salvageTextiles', 'mnhsTextiles', 'aicTextiles'),
  },
  {
    id: 'textile.bleeding.meanwhile',
    text: 'Until then: layers kept apart, no water added, dried as fast as is safe under a clean cloth that draws the dye outward.',
    because: ['alreadyBled', 'colourTests'],
    families: ['textile'],
    applies: dyeIs('bleeding'),
    concludes: [
      omitStep('rinse', 'treat'),
      addStep('stabilise', 'treat', 'refer', 'hold-frozen'),
      { kind: 'bath-alone' },
      never('Never rinse it together with anything else.'),
      never('Never fold it on itself without a barrier.'),
      never('Never leave it to dry slowly while folded.'),
      caution('Barrier between all layers; clean cloth on its upper side, changed as it takes dye.', { steps: ['stabilise', 'blot', 'dry'] }),
    ],
    source: published('salvageTextiles', 'mnhsTextiles', 'aicTextiles'),
  },
  {
    id: 'textile.bleeding.freeze-singly',
    text: 'A bleeding textile that cannot be treated is frozen singly, interleaved.',
    because: ['alreadyBled', 'colourTests'],
    families: ['textile'],
    applies: dyeIs('bleeding'),
    concludes: [caution('Wrap singly, freezer or waxed paper between every layer, as few folds as possible.', { steps: ['wrap'] })],
    source: practice("Inside the Conservator's Studio (conservator's blog) on freezing textiles: paper between every layer stops dye transfer."),
  },
  {
    id: 'textile.bleeding.refer-always',
    text: 'Bleeding dyes are beyond first aid: a conservator decides on water.',
    because: ['alreadyBled', 'colourTests'],
    families: ['textile'],
    applies: (assessment, facts) => facts.family === 'textile' && !facts.household && facts.dye === 'bleeding',
    concludes: [referral('The dye moves: ask a conservator before any water touches it.')],
    source: published('npsWetTextiles', 'cci1314'),
  },
  {
    id: 'textile.any-transfer-stops',
    text: 'Any dye on the swab stops the rinse, and a thing that has bled is not tested again but handled as bleeding.',
    because: ['colourTests', 'alreadyBled'],
    families: ['textile'],
    applies: dyeIs('bleeding'),
    concludes: [],
    source: published('npsWetTextiles', 'cci1314'),
  },
  {
    id: 'textile.grade-mapping',
    text: 'Grey-scale grade 5 may be rinsed; 4-5 is rinsed alone, cold and watched; 4 or worse counts as bleeding.',
    because: ['colourTests'],
    families: ['textile'],
    applies: (assessment, facts) => isSalvagedTextile(assessment, facts) && assessment.colourTests.length > 0,
    concludes: [],
    source: own('no conservation source sets a pass grade on the ISO 105-A03 scale; this mapping is a proposal.'),
    choice: '5 rinse, 4-5 alone, 4 or worse refer.',
    alternative: 'The apparel trade commonly accepts 3-4 or 4 (from memory); NPS stops at any transfer.',
    choiceId: 'colour-grade',
  },
  {
    id: 'textile.grade-4-5.alone',
    text: 'A trace on the white cloth (4-5): rinsed alone, cold, and watched.',
    because: ['colourTests'],
    families: ['textile'],
    applies: dyeIs('slight'),
    concludes: [{ kind: 'bath-alone' }, caution('Alone in its bath, cold, and out at the first colour in the water.', { steps: ['rinse'] }), never('Never rinse it together with anything else.')],
    source: own('field mapping of grade 4-5.'),
  },
  {
    id: 'textile.colour-test.first',
    text: 'Not every colour and repair thread has passed a test: the route starts with the colour test.',
    because: ['colourTests', 'allColoursTested', 'alreadyBled'],
    // Mouldy cloth is not rinsed here, so no tester is sent to it.
    families: ['textile'],
    applies: (assessment, facts) => dyeIs('untested')(assessment, facts) && facts.mould !== 'active',
    concludes: [
      addStep('colour-test', 'treat'),
      { kind: 'bath-alone' },
      never('Never rinse before every colour, repair fabric and thread is tested.'),
      caution('Swab every colour, repair fabric and thread; backings and sewing threads too. The test is not foolproof.', { steps: ['colour-test'] }),
    ],
    source: published('npsWetTextiles', 'cci1314', 'aicTextileGroup'),
  },
  {
    id: 'textile.colour-test.within-a-day',
    text: 'Untested dye may be moving already: test within the day.',
    because: ['colourTests', 'allColoursTested', 'wettedAtMs'],
    families: ['textile'],
    applies: dyeIs('untested'),
    concludes: [clock('dye-migration', 'colour-untested')],
    source: own('between "at once" for bleeding and 48 h for fast dyes, so that tests are spent before rinses.'),
  },
  {
    id: 'textile.rinse.watch',
    text: 'The swab test is one sign among several: the rinse water is watched.',
    because: ['colourTests'],
    families: ['textile'],
    applies: dyeIs('fast'),
    concludes: [caution('If the water colours: out at once, blot, lay flat, report that the dye moved.', { steps: ['rinse'] })],
    source: published('cci1314'),
  },
];
