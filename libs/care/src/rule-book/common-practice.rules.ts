/**
 * What the trade does, as a practitioner of textile salvage states it, with no published source. Some of it repeats in
 * other words what publications say; it stands here because people know it in these words.
 */
import { practice } from '../sources.js';
import type { MaterialClass } from '../types.js';
import { apart, caution, isSalvagedTextile, never, ppe, prefer, storage, wet } from './rule.js';
import type { Rule } from './rule.js';

const TRADE = practice('a practitioner’s account of the trade, with no published source.');
const FLAT: readonly MaterialClass[] = ['textile-flat-small', 'textile-flat-large', 'textile-quilt-padded'];
const BEDCOVERS: readonly MaterialClass[] = ['textile-flat-large', 'textile-quilt-padded'];
const HANDS = ['assess', 'colour-test', 'stabilise', 'rinse', 'blot', 'dry', 'check', 'surface-clean', 'wrap', 'pack', 'thaw'] as const;

const bleeds: Rule['applies'] = (assessment, facts) => isSalvagedTextile(assessment, facts) && facts.dye === 'bleeding';

const before: Rule[] = [
  {
    id: 'practice.weigh-first',
    text: 'Before anything: value, damage and labour are weighed.',
    because: ['significance'],
    applies: wet,
    concludes: [caution('Before anything, weigh what it means, how it is damaged and how long it will take.')],
    source: TRADE,
  },
  {
    id: 'practice.gloves',
    text: 'Powder-free nitrile gloves, always.',
    because: [],
    applies: () => true,
    concludes: [ppe(['powder-free nitrile gloves'], { steps: HANDS })],
    source: TRADE,
  },
  {
    id: 'practice.mould-mask',
    text: 'A mask and eye protection wherever mould is.',
    because: ['mould'],
    applies: (_assessment, facts) => facts.mould === 'active' || facts.mould === 'dry',
    concludes: [caution('Mask and eye protection before the bag is opened.', { zones: ['quarantine', 'dirty'] })],
    source: TRADE,
    floor: true,
  },
  {
    id: 'practice.water-unknown',
    text: 'Nobody knows what was in the water: chemicals and raw sewage are possible.',
    because: ['water'],
    applies: (assessment) => assessment.water === 'unknown' || assessment.water === 'black',
    concludes: [caution('What was in the water is not known; chemicals and raw sewage are possible.', { zones: ['dirty', 'quarantine'] })],
    source: TRADE,
    floor: true,
  },
  {
    id: 'practice.test-every-colour',
    text: 'Every colour is tested by itself with a barely damp swab or sponge before any re-wetting.',
    because: ['colourTests', 'allColoursTested'],
    families: ['textile'],
    applies: (assessment, facts) => isSalvagedTextile(assessment, facts) && facts.dye === 'untested',
    concludes: [caution('Each colour by itself, with a barely damp swab or sponge.', { steps: ['colour-test'] })],
    source: TRADE,
  },
  {
    id: 'practice.one-colour-stops',
    text: 'One colour that transfers stops the re-wetting of the whole piece.',
    because: ['colourTests', 'alreadyBled'],
    families: ['textile'],
    applies: bleeds,
    concludes: [
      never('Never wet or rinse it at all: its dye moves.'),
      caution('Photograph it clearly and write down what it is.', { steps: ['stabilise', 'pack', 'wrap'] }),
      caution('Ask for the family’s memories of it, spoken if that is easiest, and set it aside.', { steps: ['stabilise', 'pack', 'wrap'] }),
    ],
    source: TRADE,
  },
  {
    id: 'practice.precious-bleeding',
    text: 'A very precious piece whose colour moves is frozen, and a specialist is asked, who may cost money.',
    because: ['colourTests', 'alreadyBled', 'significance'],
    families: ['textile'],
    applies: (assessment, facts) => bleeds(assessment, facts) && (assessment.significance === 'treasured' || assessment.significance === 'irreplaceable'),
    concludes: [prefer('hold-frozen', 6), caution('A specialist may cost money: agree a limit with the owner first.', { steps: ['pack', 'refer', 'freeze'] })],
    source: TRADE,
  },
];

const freezing: Rule[] = [
  {
    id: 'practice.freezer-paper',
    text: 'Wax-coated freezer paper at every fold, then a freezer bag, labelled outside on tape that holds.',
    because: ['materialClass', 'wetState'],
    families: ['textile'],
    applies: isSalvagedTextile,
    concludes: [
      caution('Wax-coated freezer paper at every fold, not baking parchment; then a freezer bag.', { steps: ['wrap'] }),
      caution('Write the label on tape that holds in the cold, on the outside.', { steps: ['wrap', 'freeze'] }),
    ],
    source: TRADE,
  },
];

const washing: Rule[] = [
  {
    id: 'practice.plastic-mesh',
    text: 'A wet textile is heavier and weaker than a dry one: it is lifted on plastic screen mesh.',
    because: ['materialClass', 'wetState'],
    families: ['textile'],
    applies: isSalvagedTextile,
    concludes: [caution('Lift it on plastic screen mesh.', { steps: ['stabilise', 'rinse', 'blot', 'dry'] }), never('Never carry or dry it on metal mesh: metal rusts.')],
    source: TRADE,
  },
  {
    id: 'practice.bath',
    text: 'Three baths in sequence with a drip between, again until it is clean enough.',
    because: ['materialClass', 'wetState'],
    families: ['textile'],
    applies: isSalvagedTextile,
    concludes: [
      caution('Distilled water with nothing added; let it soak until the folds relax, then ease debris out.', { steps: ['rinse'] }),
      caution('Three baths, a drip between; look, and run the three again until it is clean enough.', { steps: ['rinse'] }),
      never('Never press it hard.'),
    ],
    source: TRADE,
  },
  {
    id: 'practice.towels',
    text: 'Water is rolled out into white towels under cheesecloth; colour on the cheesecloth is a stop.',
    because: ['materialClass', 'wetState'],
    families: ['textile'],
    applies: isSalvagedTextile,
    concludes: [
      caution('Flat on white towels, cheesecloth over it, a white towel on top; roll gently, move to dry towelling, repeat.', { steps: ['blot'] }),
      caution('Colour on the cheesecloth is a stop: lay flat, report that the dye moved.', { steps: ['blot'] }),
    ],
    source: TRADE,
  },
  {
    id: 'practice.rail-or-rack',
    text: 'A flat piece dries over a padded rail, or on a rack open to the air above and below.',
    because: ['materialClass', 'wetState'],
    classes: FLAT,
    applies: isSalvagedTextile,
    concludes: [caution('Over a padded rail, or on a rack open to the air above and below.', { steps: ['dry'] })],
    source: TRADE,
  },
  {
    id: 'practice.fan',
    text: 'A fan may move the room’s air, never blow on the piece.',
    because: ['materialClass', 'wetState', 'mould'],
    families: ['textile'],
    applies: (assessment, facts) => isSalvagedTextile(assessment, facts) && facts.mould !== 'active',
    concludes: [never('Never let a fan blow on the piece; it may move the room’s air.')],
    source: TRADE,
  },
  {
    id: 'practice.large-quilt.two-people',
    text: 'A large quilt is a two-person move.',
    because: ['materialClass', 'wetState'],
    classes: BEDCOVERS,
    applies: isSalvagedTextile,
    concludes: [caution('Two people for every move of a large quilt.', { steps: ['stabilise', 'rinse', 'blot', 'dry', 'wrap', 'pack'] })],
    source: TRADE,
  },
  {
    id: 'practice.quilt-outdoors',
    text: 'A full-size quilt may in good weather be rinsed outdoors on a slanted board, and dries under a canopy.',
    because: ['materialClass', 'wetState'],
    classes: BEDCOVERS,
    applies: (assessment, facts) => isSalvagedTextile(assessment, facts) && facts.dye === 'fast',
    concludes: [
      caution('Full size and good weather: on a slanted board covered with a tarp, a gentle low-pressure rinse from a distance.', { steps: ['rinse'] }),
      caution('Outdoors only under a canopy: sun bleaches.', { steps: ['dry'] }),
    ],
    source: TRADE,
  },
  {
    id: 'practice.whites-apart',
    text: 'Whites and colours do not share a bath.',
    because: ['colourTests'],
    families: ['textile'],
    applies: isSalvagedTextile,
    concludes: [apart('bath', 'Whites if it is coloured, colours if it is white.')],
    source: TRADE,
  },
];

const keeping: Rule[] = [
  {
    id: 'practice.storage',
    text: 'A dry textile lives in a soft white pillowcase or an archival box, folds padded, high up, and is looked at now and then.',
    because: ['materialClass'],
    families: ['textile'],
    applies: (_assessment, facts) => !facts.household,
    concludes: [
      storage('Keep it in a soft white pillowcase or an archival box.'),
      storage('Pad the folds with plain white paper towel, never printed, or with archival tissue.'),
      storage('In a plastic bin add a desiccant.'),
    ],
    source: TRADE,
  },
  {
    id: 'practice.storage.place',
    text: 'High up, away from places that flood or sweat, and looked at now and then.',
    because: [],
    applies: () => true,
    concludes: [storage('Keep it high up, away from places that flood or sweat.'), storage('Look at it now and then.')],
    source: TRADE,
  },
];

/** What the trade does, in the order in which it is done. */
export const COMMON_PRACTICE_RULES: readonly Rule[] = [...before, ...freezing, ...washing, ...keeping];
