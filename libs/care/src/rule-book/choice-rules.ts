/** What the rule book becomes when a network switches a marked choice. */
import { practice, published } from '../sources.js';
import type { ChoiceOption } from './choices.js';
import { addStep, bar, caution, never, offer, omitStep, prefer, STEPS, wet } from './rule.js';

type Replacement = NonNullable<ChoiceOption['rules']>;

/** Changes to the rules, by the option that brings them. */
export const CHOICE_REPLACEMENTS = {
  museum: {
    add: [
      {
        id: 'choice.museum.no-rinse',
        text: 'By this network’s choice stuffed quilts and wool are not rinsed: blotted and dried with their soil, which is brushed off afterwards.',
        because: ['materialClass', 'wetState'],
        classes: ['textile-quilt-padded', 'textile-wool'],
        applies: wet,
        concludes: [omitStep('rinse', 'treat'), addStep('surface-clean', 'treat'), never('Never rinse it: this network keeps the museum rule.')],
        source: published('cci1314'),
        choiceId: 'rinse-soaked-pieces',
      },
    ],
  },
  faceUp: {
    replace: {
      'painting.posture': {
        text: 'By this network’s choice a wet painting is drained and lies face up.',
        concludes: [caution('Drain it, then lay it face up, level, on its stretcher.', { steps: ['stabilise', 'dry', 'pack'] })],
        source: published('iowaChart'),
      },
    },
  },
  faceDown: {
    replace: {
      'painting.posture': {
        text: 'By this network’s choice a wet painting lies face down on a padded bed and is carried upright.',
        concludes: [caution('Face down on a padded, non-stick bed; carried upright.', { steps: ['stabilise', 'dry', 'pack'] })],
        source: published('mnhsPaintings'),
      },
    },
  },
  holdAt18: {
    replace: {
      'freezing.set-point': {
        text: 'By this network’s choice frozen and held at -18 C, with air around the parcels.',
        concludes: [caution('Freeze and hold at -18 C or colder; leave air around parcels.', { steps: ['freeze'] })],
        source: published('waters', 'ukPocket'),
      },
    },
  },
  freezeTo30: {
    replace: {
      'freezing.set-point': {
        text: 'By this network’s choice frozen to -30 C or by blast, held at -18 C or colder, with air around the parcels.',
        concludes: [caution('Freeze to -30 C or by blast, hold at -18 C or colder; leave air around parcels.', { steps: ['freeze'] })],
        source: published('unescoRamp'),
      },
    },
  },
  fansAway: {
    replace: {
      'textile.dry.air': {
        text: 'By this network’s choice no fan points at belongings, textiles included.',
        concludes: [caution('Fans low and turned away from the cloth.', { steps: ['dry'] })],
        source: published('salvageObjects'),
      },
    },
  },
  fansAcross: {
    drop: ['practice.fan'],
    replace: {
      'textile.dry.air': {
        text: 'By this network’s choice moving air passes across the surface of textiles.',
        concludes: [caution('Fans low: the air passes across the cloth, never down on it.', { steps: ['dry'] })],
        source: published('mnhsTextiles'),
      },
    },
  },
  wrapAtFreezer: {
    replace: {
      'freezing.wrap.bench': {
        text: 'By this network’s choice wet things are wrapped at the freezer; who wraps them wears what the dirty side asks for.',
        concludes: [{ kind: 'bench', disposition: 'hold-frozen', step: 'wrap', zone: 'cold' }],
      },
    },
  },
  sunForEveryday: {
    replace: {
      'mould.sunlight': {
        text: 'By this network’s choice heirlooms are not put in the sun; everyday things may be.',
        because: ['wetState', 'significance'],
        applies: (_assessment, facts) => !facts.dry && facts.heirloom,
        source: published('fema2017', 'gorges'),
      },
    },
  },
  soakStuckPrints: {
    add: [
      {
        id: 'choice.soak-stuck-prints',
        text: 'By this network’s choice stuck prints are first soaked in clean cold water, for 48 hours at most, until they part by themselves.',
        because: ['materialClass', 'wetState'],
        classes: ['photo-stuck-together'],
        applies: wet,
        concludes: [offer('hold-wet', 5, STEPS.holdWet), prefer('hold-wet', 5), caution('Soak in clean cold water for 48 hours at most; let them part by themselves.', { steps: ['stabilise'] })],
        source: published('fema2017'),
        choiceId: 'stuck-photographs',
      },
    ],
  },
  photographsBarred: {
    add: [
      {
        id: 'choice.photographs-not-frozen',
        text: 'By this network’s choice photographs other than colour prints and film are not frozen.',
        because: ['materialClass'],
        classes: ['photo-silver-gelatin', 'photo-albumen', 'photo-collodion-print', 'photo-carbon-or-woodburytype', 'photo-gelatin-deteriorated'],
        applies: () => true,
        concludes: [bar('hold-frozen'), never('Never freeze this photograph: this network keeps the stricter protocol.')],
        source: practice('Smith mould and pest protocol for collections, as read in a copy.'),
        choiceId: 'photographs-in-freezer',
        floor: true,
      },
    ],
  },
  mildDetergent: {
    replace: {
      'textile.rinse.plain-water': {
        text: 'By this network’s choice cotton and linen may be washed by hand with a mild laundry detergent; everything else meets plain water.',
        concludes: [caution('Plain water; for cotton and linen a mild laundry detergent by hand, rinsed out well.', { steps: ['rinse'] })],
        source: published('npsWetTextiles'),
      },
    },
  },
} as const satisfies Record<string, Replacement>;
