/** People first: what stands in every output, and what weight and water ask. */
import { own, published } from '../sources.js';
import { always, barPeople, caution } from './rule.js';
import type { Rule } from './rule.js';

/** Rules about the people who do the work, in reading order. */
export const PEOPLE_RULES: readonly Rule[] = [
  {
    id: 'people.wounds',
    text: 'A wound that met flood water is washed, work stops, and medical advice is sought.',
    because: ['water'],
    applies: (_assessment, facts) => facts.water !== 'clean',
    concludes: [caution('Wound and flood water: wash, stop work, seek medical advice.', { zones: ['dirty', 'quarantine'] })],
    source: published('oshaFlood'),
    floor: true,
  },
  {
    id: 'people.under-age',
    text: 'No one under age at cleanup or mould work.',
    because: ['water', 'mould'],
    applies: always,
    concludes: [barPeople(['under-age'], { zones: ['dirty', 'quarantine'] })],
    source: published('fema2023'),
    floor: true,
  },
  {
    id: 'people.wet-work',
    text: 'Rinsing and blotting are wet work.',
    because: ['wetState'],
    applies: (_assessment, facts) => !facts.dry,
    concludes: [barPeople(['no-wet-work'], { steps: ['rinse', 'blot'] })],
    source: own('the restriction taken at its word.'),
    floor: true,
  },
  {
    id: 'people.heavy-wet-textile',
    text: 'Wet textiles weigh three to four times their dry weight: two people, drained, on a sling or board.',
    because: ['materialClass', 'wetState'],
    applies: (_assessment, facts) => !facts.dry && facts.traits.heavyWhenWet,
    concludes: [
      barPeople(['no-lifting'], { steps: ['stabilise', 'rinse', 'blot', 'dry', 'freeze'] }),
      barPeople(['no-lifting'], { steps: ['wrap', 'pack'], zones: ['dirty', 'quarantine'] }),
      caution('Two people, drained first, sling or board. Never a full tub on a wet floor.', { steps: ['stabilise', 'rinse', 'blot', 'dry', 'wrap', 'pack', 'freeze'] }),
    ],
    source: own('weight factor derived from fabric weights and water held; two people is our rule.'),
    floor: true,
  },
  {
    id: 'people.heat',
    text: 'Warm air and protective clothing overheat people.',
    because: ['airTempC'],
    applies: (_assessment, facts) => facts.warmAir,
    concludes: [caution('Warm hall: water, shade, short turns; stopping beats finishing the batch.'), barPeople(['no-heat'], { zones: ['dirty', 'quarantine'] })],
    source: own('OSHA Technical Manual III:4 warns from 21 C at moderate work; the threshold here is the warm-air setting.'),
    floor: true,
  },
  {
    id: 'people.generator',
    text: 'A generator that drives fans or dryers gives off carbon monoxide, which nobody sees or smells.',
    because: ['wetState'],
    applies: (_assessment, facts) => !facts.dry,
    concludes: [caution('A generator runs outdoors, far from doors and windows: its fumes kill without a smell.', { steps: ['dry'] })],
    source: published('oshaFlood'),
    floor: true,
    since: '2026.11',
    why: 'OSHA names carbon monoxide among the dangers of flooded places; the book had no word about generators.',
  },
  {
    id: 'people.licensed',
    text: 'Structure, gas, electricity, asbestos, medicine, valuation, insurance and law belong to licensed people.',
    because: [],
    applies: always,
    concludes: [caution('Buildings, power, asbestos, medical, valuation, insurance and legal questions: ask the licensed person; local codes come first.')],
    source: own('care guidance section 9 nos. 1 and 13.'),
    floor: true,
  },
  {
    id: 'people.owner-decides',
    text: 'People are grieving: the owner decides, and no outcome is promised.',
    because: [],
    applies: always,
    concludes: [caution('The owner decides; promise no outcome.', { steps: ['release', 'refer', 'hand-back'] })],
    source: own('care guidance section 9 nos. 15 and 16.'),
    floor: true,
  },
];
