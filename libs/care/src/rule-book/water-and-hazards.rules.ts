/** The water it lay in, and things at which work stops. */
import type { Facts } from '../facts.js';
import { fromMemory, own, practice, published } from '../sources.js';
import type { Hazard } from '../types.js';
import { addStep, bar, barPeople, caution, never, offer, ppe, prefer, referral, STEPS } from './rule.js';
import type { Conclusion, Rule } from './rule.js';

const CATEGORIES = 'water categories as trade explainers give them (after ANSI/IICRC S500; edition and clause not seen).';
const WET_WORK = ['colour-test', 'stabilise', 'rinse', 'blot', 'dry', 'wrap', 'pack'] as const;

/** Wet whatever the zone; wrapping and packing are wet only before the clean side. */
const ALWAYS_WET = ['colour-test', 'stabilise', 'rinse', 'blot', 'dry'] as const;

const waterIs = (...kinds: Facts['water'][]): Rule['applies'] => (_assessment, facts) => kinds.includes(facts.water);

const water: Rule[] = [
  {
    id: 'water.unknown-is-black',
    text: 'Water of unknown origin counts as black until shown otherwise.',
    because: ['water'],
    applies: (assessment) => assessment.water === 'unknown',
    concludes: [],
    source: practice(CATEGORIES),
  },
  {
    id: 'water.worsens',
    text: 'Water does not stay what it was: clean counts as grey after a day, and any as black after two.',
    because: ['water', 'wettedAtMs'],
    applies: (_assessment, facts) => facts.waterWorsened,
    concludes: [],
    source: practice(CATEGORIES),
    choice: 'The early end: grey at 24 h, black at 48 h.',
    alternative: 'Grey after 24-48 h; others say only that it degrades with time.',
  },
  {
    id: 'water.black.handling',
    text: 'River, sea and storm water is treated as sewage-contaminated: dirty side and clean side stay apart.',
    because: ['water', 'wettedAtMs'],
    applies: waterIs('black'),
    concludes: [
      caution('No eating, drinking, smoking or touching the face; wash hands on leaving; wash work clothes hot and apart.', { zones: ['dirty', 'quarantine'] }),
      barPeople(['under-age', 'no-wet-work'], { steps: WET_WORK, zones: ['dirty', 'quarantine'] }),
    ],
    source: published('waDoh', 'cdcFloodWater', 'oshaFlood'),
  },
  {
    id: 'water.black.ppe',
    text: 'Against black water: rubber boots, rubber gloves, goggles.',
    because: ['water', 'wettedAtMs'],
    applies: waterIs('black'),
    concludes: [ppe(['rubber boots', 'waterproof rubber gloves', 'goggles'], { zones: ['dirty', 'quarantine'] })],
    source: published('cdcFloodWater', 'oshaFlood'),
  },
  {
    id: 'water.grey.handling',
    text: 'Grey water can make people ill: gloves, eye protection, a rinse station of its own.',
    because: ['water', 'wettedAtMs'],
    applies: waterIs('grey'),
    concludes: [
      ppe(['waterproof gloves', 'eye protection'], { zones: ['dirty', 'quarantine'] }),
      caution('Rinse apart from clean-water things; wash hands.', { steps: ['rinse'] }),
      barPeople(['under-age', 'no-wet-work'], { steps: WET_WORK, zones: ['dirty', 'quarantine'] }),
    ],
    source: practice(CATEGORIES),
  },
  {
    id: 'water.spray',
    text: 'Spraying throws dirty drops.',
    because: ['water'],
    applies: waterIs('grey', 'black'),
    concludes: [caution('If you spray: double gloves and a face shield.', { steps: ['rinse'] })],
    source: fromMemory('double glove and face shield for spraying.'),
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
  },
  {
    id: 'water.black.paper-discard-listed',
    text: 'Public health lists most paper and books from flood water for discarding; where the family gives them no special weight the owner is asked.',
    because: ['water', 'significance', 'materialClass'],
    applies: (_assessment, facts) => facts.discardListed && facts.family !== 'textile',
    concludes: [offer('release', 80, STEPS.release)],
    source: published('cdcFloodWater', 'fema2023'),
    choice: 'Salvage stands first, letting go is offered, and the owner decides; never silent.',
    alternative: 'Heritage guidance (NPS, NEDCC, FEMA/HENTF) salvages and freezes what CDC and FEMA 2023 discard.',
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
    applies: (_assessment, facts) => facts.salt && !facts.dry && facts.handledAs === 'textile-composite',
    concludes: [offer('hold-wet', 8, STEPS.holdWet)],
    source: published('salvageObjects'),
    choice: 'Branch on the water: salt stays wet, fresh is dried at once.',
    alternative: 'Iron from fresh water is rinsed and dried at once.',
  },
];

const has = (...hazards: Hazard[]): Rule['applies'] => (_assessment, facts) => hazards.some((hazard) => facts.stopHazards.includes(hazard));

const STOP: readonly Conclusion[] = [
  { kind: 'start-by', clock: 'at-once' },
  prefer('refer', 1),
  bar('treat'),
  bar('hold-wet'),
  { kind: 'bath-alone' },
  barPeople(['under-age']),
];

const hazards: Rule[] = [
  {
    id: 'hazard.stop-and-isolate',
    text: 'Something here can hurt people: stop, isolate, leave it to the competent authority.',
    because: ['hazards', 'materialClass'],
    applies: (_assessment, facts) => facts.stopHazards.length > 0,
    concludes: [...STOP, never('Never put it on the shared rinse line.')],
    source: own('care guidance section 9 no. 10 gathers these hazards; "at once" and the bars are our reading of "stop, isolate".'),
  },
  {
    id: 'hazard.sewage',
    text: 'Known sewage or chemical contact needs professional help; heritage helplines take such things.',
    because: ['hazards'],
    applies: has('sewage'),
    concludes: [
      referral('Sewage contact: stop, isolate, double-bag or tub it, ask the competent authority or a heritage helpline.'),
      caution('Double-bag or tub it, marked on the outside.', { steps: ['pack', 'wrap'] }),
      { kind: 'need', dispositions: ['hold-frozen'], text: 'a freezer kept apart for contaminated things and the lead’s recorded decision', consent: null },
    ],
    source: published('hentf', 'gorges'),
  },
  {
    id: 'hazard.fuel',
    text: 'Fuel or solvent smell: outdoors or well aired, away from flame; a dust mask stops no vapour.',
    because: ['hazards'],
    applies: has('fuel-or-solvent'),
    concludes: [
      referral('Fuel or solvent: stop, move outdoors or to moving air, no flame or switch, ask the competent authority.'),
      bar('hold-frozen'),
      ppe(['respirator with organic-vapour cartridge (fit-tested wearer)'], {}),
      caution('An N95 does nothing against vapour; air the place first.'),
    ],
    source: practice('flood FAQ copy on dust masks and organic vapour (weak source).'),
  },
  {
    id: 'hazard.poisons',
    text: 'Pesticide, arsenic-era objects and unknown liquids are not handled further.',
    because: ['hazards'],
    applies: has('pesticide', 'arsenic-era-object', 'unknown-liquid'),
    concludes: [
      referral('Suspected pesticide, arsenic or unknown liquid: stop, isolate, do not touch barehanded, call the competent authority.'),
      bar('hold-frozen'),
      never('Never handle it with bare hands.'),
    ],
    source: own('care guidance section 9 no. 10: stop, isolate, call the competent authority.'),
  },
  {
    id: 'hazard.lithium',
    text: 'Wetted lithium cells may catch fire later.',
    because: ['hazards'],
    applies: has('lithium-cell'),
    concludes: [
      referral('Lithium cell that was wet: stop, isolate outdoors away from everything that burns, call the competent authority.'),
      bar('hold-frozen'),
      never('Never charge or switch it on.'),
    ],
    source: fromMemory('lithium cells wetted by salt water are a delayed fire risk: isolate outdoors.'),
  },
  {
    id: 'hazard.nitrate',
    text: 'Nitrate film burns fiercely.',
    because: ['hazards', 'materialClass'],
    applies: has('nitrate-film'),
    concludes: [
      referral('Nitrate film: stop, isolate, no heat or flame, call the competent authority.'),
      never('Never warm it or keep it with other things.'),
      { kind: 'need', dispositions: ['hold-frozen'], text: 'the competent authority’s agreement to freeze nitrate film', consent: null },
    ],
    source: fromMemory('nitrate is flammable; isolate, no heat.'),
  },
  {
    id: 'hazard.sharps',
    text: 'Needles or broken glass were seen.',
    because: ['hazards'],
    applies: (assessment) => assessment.hazards.includes('sharps'),
    concludes: [
      ppe(['cut-resistant gloves under the waterproof ones'], {}),
      caution('Sharps inside: tools, not fingers; a rigid box for what you take out. Used needles are for the competent authority.'),
      barPeople(['under-age']),
    ],
    source: own('care guidance section 9 no. 10 and 12.'),
  },
  {
    id: 'hazard.silt-dust',
    text: 'Dried silt is dust that must not be breathed.',
    because: ['water'],
    applies: waterIs('grey', 'black'),
    concludes: [ppe(['N95 respirator'], { steps: ['surface-clean'] })],
    source: practice('Smith mould and pest protocol for collections, as read in a copy: N95 for dried silt.'),
  },
  {
    id: 'hazard.silt-dust.exhaust',
    text: 'Brushing is done outdoors or under extraction.',
    because: ['water'],
    applies: waterIs('grey', 'black'),
    concludes: [caution('Outdoors or under extraction, HEPA vacuum.', { steps: ['surface-clean'] })],
    source: fromMemory('HEPA vacuum, outdoors or exhausted.'),
  },
  {
    id: 'textile.unrinsed-silt',
    text: 'A textile that must not be rinsed is freed of silt when it is dry.',
    because: ['water', 'colourTests', 'materialClass'],
    applies: (_assessment, facts) =>
      facts.family === 'textile' && !facts.dry && facts.water !== 'clean' && (facts.dye === 'bleeding' || facts.handledAs === 'textile-composite') && !facts.household,
    concludes: [addStep('surface-clean', 'treat')],
    source: own('the bleeding and composite routes leave the dirt in; it is brushed off dry.'),
  },
];

/** Rules about water and hazards, in reading order. */
export const WATER_AND_HAZARD_RULES: readonly Rule[] = [...water, ...hazards];
