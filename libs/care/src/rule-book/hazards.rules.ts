/** Things at which work stops, and dust and sharps. */
import type { Facts } from '../facts.js';
import { fromMemory, own, practice, published } from '../sources.js';
import type { Hazard, MaterialClass } from '../types.js';
import { addStep, bar, barPeople, caution, never, ppe, prefer, referral } from './rule.js';
import type { Conclusion, Rule } from './rule.js';

const waterIs = (...kinds: Facts['water'][]): Rule['applies'] => (_assessment, facts) => kinds.includes(facts.water);
const has = (...hazards: Hazard[]): Rule['applies'] => (_assessment, facts) => hazards.some((hazard) => facts.stopHazards.includes(hazard));

const STOP: readonly Conclusion[] = [
  { kind: 'start-by', clock: 'at-once' },
  prefer('refer', 1),
  bar('treat'),
  bar('hold-wet'),
  { kind: 'bath-alone' },
  barPeople(['under-age']),
];

/** Textiles whose route has no rinse. */
const UNRINSED: ReadonlySet<MaterialClass> = new Set<MaterialClass>(['textile-composite', 'textile-hat-or-shoe', 'textile-knit-bias-or-lined']);

/** Rules about hazards, in reading order. */
export const HAZARD_RULES: readonly Rule[] = [
  {
    id: 'hazard.stop-and-isolate',
    text: 'Something here can hurt people: stop, isolate, leave it to the competent authority.',
    because: ['hazards', 'materialClass'],
    applies: (_assessment, facts) => facts.stopHazards.length > 0,
    concludes: [...STOP, never('Never put it through the rinse baths.')],
    source: own('care guidance section 9 no. 10 gathers these hazards; "at once" and the bars are our reading of "stop, isolate".'),
    floor: true,
  },
  {
    id: 'hazard.sewage',
    text: 'Known sewage or chemical contact needs professional help; heritage helplines take such things.',
    because: ['hazards'],
    applies: has('sewage'),
    concludes: [
      referral('Sewage contact: stop, isolate, double-bag or tub it, ask the competent authority or a heritage helpline.'),
      caution('Do not rinse, dry or open it here. Bag it twice or put it in a box with a lid, mark it on the outside, tell the lead.', { steps: ['pack', 'wrap'] }),
      ppe(['rubber boots', 'waterproof rubber gloves', 'goggles'], {}),
      { kind: 'need', dispositions: ['hold-frozen'], text: 'a freezer kept apart for contaminated things and the lead’s recorded decision', consent: null },
    ],
    source: published('hentf', 'gorges', 'cdcFloodWater'),
    floor: true,
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
    floor: true,
  },
  {
    id: 'hazard.poisons',
    text: 'Pesticide, arsenic, mercury, lead, radium, medicines and unknown liquids are not handled further.',
    because: ['hazards'],
    applies: has('pesticide', 'arsenic-era-object', 'mercury', 'lead', 'radium', 'unknown-liquid', 'medicine'),
    concludes: [
      referral('Suspected pesticide, arsenic, mercury, lead, radium, medicine or unknown liquid: stop, isolate, do not touch barehanded, call the competent authority.'),
      ppe(['waterproof gloves', 'eye protection', 'apron or gown'], {}),
      bar('hold-frozen'),
      never('Never handle it with bare hands.'),
    ],
    source: own('care guidance section 9 no. 10: stop, isolate, call the competent authority.'),
    floor: true,
  },
  {
    id: 'hazard.asbestos',
    text: 'Asbestos is for licensed people.',
    because: ['hazards'],
    applies: has('asbestos'),
    concludes: [
      referral('Suspected asbestos: stop, keep it damp and closed, leave it to licensed people.'),
      bar('hold-frozen'),
      never('Never brush, break or dry what may hold asbestos.'),
      ppe(['respirator with P100 cartridge (fit-tested wearer)', 'disposable coverall'], {}),
    ],
    source: own('care guidance section 9 nos. 10 and 13; damp and closed, and the protection, are ours.'),
    floor: true,
  },
  {
    id: 'hazard.ammunition',
    text: 'Ammunition and weapons stay where they are.',
    because: ['hazards'],
    applies: has('ammunition'),
    concludes: [referral('Ammunition or weapon: stop, do not move it, keep people away, call the competent authority.'), bar('hold-frozen'), never('Never move, dry or open ammunition.')],
    source: own('care guidance section 9 no. 10: stop, isolate, call the competent authority.'),
    floor: true,
  },
  {
    id: 'hazard.lithium',
    text: 'Wetted lithium cells may catch fire later.',
    because: ['hazards'],
    applies: has('lithium-cell'),
    concludes: [
      referral('Lithium cell that was wet: stop. If it is hot, swollen, hissing or smoking: do not touch it, get away, call the fire service. If not: put it outdoors, alone, away from anything that burns, and call the competent authority.'),
      bar('hold-frozen'),
      never('Never charge or switch it on.'),
    ],
    source: fromMemory('lithium cells wetted by salt water are a delayed fire risk: isolate outdoors.'),
    floor: true,
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
    floor: true,
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
    floor: true,
  },
  {
    id: 'hazard.silt-dust',
    text: 'Dried silt is dust that must not be breathed.',
    because: ['water'],
    applies: waterIs('grey', 'black'),
    concludes: [ppe(['N95 respirator'], { steps: ['surface-clean'] })],
    source: practice('Smith mould and pest protocol for collections, as read in a copy: N95 for dried silt.'),
    floor: true,
  },
  {
    id: 'hazard.silt-dust.exhaust',
    text: 'Brushing is done outdoors or under extraction.',
    because: ['water'],
    applies: waterIs('grey', 'black'),
    concludes: [caution('Only when it is fully dry: vacuum with a HEPA filter, outdoors or under extraction, with a mask. Never vacuum anything wet.', { steps: ['surface-clean'] })],
    source: fromMemory('HEPA vacuum, outdoors or exhausted.'),
    floor: true,
  },
  {
    id: 'textile.unrinsed-silt',
    text: 'A textile that must not be rinsed is freed of silt when it is dry.',
    because: ['water', 'colourTests', 'materialClass'],
    families: ['textile'],
    applies: (_assessment, facts) =>
      !facts.dry && facts.water !== 'clean' && (facts.dye === 'bleeding' || UNRINSED.has(facts.handledAs)) && !facts.household,
    concludes: [addStep('surface-clean', 'treat')],
    source: own('the bleeding and composite routes leave the dirt in; it is brushed off dry.'),
  },
];
