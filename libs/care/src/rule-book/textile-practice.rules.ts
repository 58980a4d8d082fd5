/** Textiles by fibre, and how any textile is rinsed, blotted and dried. */
import { fromMemory, own, practice, published } from '../sources.js';
import type { Fibre } from '../types.js';
import { caution, isSalvagedTextile, never } from './rule.js';
import type { Rule } from './rule.js';

/** A wet textile of the salvage line whose face may be touched. */
const untouchedFaceExcepted: Rule['applies'] = (assessment, facts) => isSalvagedTextile(assessment, facts) && facts.handledAs !== 'textile-painted-or-glazed';

const ofFibre = (...fibres: Fibre[]): Rule['applies'] => (assessment, facts) => fibres.includes(assessment.fibre) && facts.family === 'textile' && !facts.dry;

const byFibre: Rule[] = [
  {
    id: 'textile.fibre.cellulosic',
    text: 'Cotton and linen stand rinsing best, and mould takes them first.',
    because: ['fibre'],
    families: ['textile'],
    applies: ofFibre('cotton', 'linen'),
    concludes: [never('Never wring cotton or linen.')],
    source: published('cci1315'),
  },
  {
    id: 'textile.fibre.man-made-early',
    text: 'Viscose and acetate are handled least of all; museums do not wash them.',
    because: ['fibre'],
    families: ['textile'],
    applies: ofFibre('viscose', 'acetate'),
    concludes: [caution('Least handling: rinse only what is soaked and dirty, on a screen.', { steps: ['rinse', 'blot', 'dry'] })],
    source: published('cci1314', 'cci137'),
  },
  {
    id: 'textile.fibre.viscose-weak',
    text: 'Viscose loses about half its strength when wet.',
    because: ['fibre'],
    families: ['textile'],
    applies: ofFibre('viscose'),
    concludes: [caution('Lift only on a support: the wet cloth has about half its strength.', { steps: ['rinse', 'blot', 'dry', 'wrap'] })],
    source: fromMemory('viscose loses about half its strength wet.'),
  },
  {
    id: 'textile.fibre.synthetic',
    text: 'On nylon, polyester and acrylic mould grows only on soil or finish: among equals they may come later.',
    because: ['fibre'],
    families: ['textile'],
    applies: ofFibre('nylon', 'polyester', 'acrylic'),
    concludes: [never('Never dry synthetics with heat.')],
    source: published('cci1315'),
  },
  {
    id: 'textile.fibre.unknown',
    text: 'The fibre is not known: cool water, no agitation, full support, as for the weakest.',
    because: ['fibre'],
    families: ['textile'],
    applies: (assessment, facts) => isSalvagedTextile(assessment, facts) && (assessment.fibre === 'unknown' || assessment.fibre === 'mixed'),
    concludes: [never('Never use hot water or agitation while the fibre is not known.')],
    source: own('the cautious side of the fibre rules.'),
  },
];

const practiceRules: Rule[] = [
  {
    id: 'textile.rinse.how',
    text: 'Successive cool clean-water baths, a flow and never a jet; the muddiest pre-rinsed; whites apart from colours; water pressed out by the palm.',
    because: ['materialClass', 'wetState'],
    families: ['textile'],
    applies: isSalvagedTextile,
    concludes: [
      never('Never wring, spin, machine-wash, tumble or iron it.'),
      caution('Cool water, flow not jet; ease silt with a soft brush; change baths until clear; press out with the palm.', { steps: ['rinse'] }),
    ],
    source: published('tieu', 'canISaveThis', 'fema2017', 'salvageTextiles', 'cci137'),
  },
  {
    id: 'textile.rinse.plain-water',
    text: 'First aid rinses with plain water; soap is the practitioner’s choice.',
    because: ['materialClass'],
    families: ['textile'],
    applies: isSalvagedTextile,
    concludes: [caution('Plain water only; detergent is a conservator’s decision.', { steps: ['rinse'] })],
    source: published('salvageTextiles', 'cci137'),
    choice: 'Plain water in first aid.',
    alternative: 'NPS allows mild detergent for cotton and linen and dry-cleaning for rayon, wool and silk.',
    choiceId: 'cleaning-agent',
  },
  {
    id: 'textile.dry.how',
    text: 'Flat, one layer, absorbent above and below; a clean cloth pressed to the face stays until dry so that soil wicks into it.',
    because: ['materialClass'],
    families: ['textile'],
    applies: isSalvagedTextile,
    concludes: [
      caution('One layer, flat, absorbent under and over, indoors with the lights on.', { steps: ['dry'] }),
      caution('Palm pressure with lint-free towels.', { steps: ['blot'] }),
    ],
    source: published('salvageTextiles', 'mnhsTextiles'),
    until: '2026.2',
  },
  {
    id: 'textile.dry.how',
    text: 'Flat, one layer, absorbent above and below, indoors with the lights on; painted and glazed cloth lies face up with nothing touching it and is not concerned.',
    because: ['materialClass'],
    families: ['textile'],
    applies: untouchedFaceExcepted,
    concludes: [
      caution('One layer, flat, absorbent under and over, indoors with the lights on.', { steps: ['dry'] }),
      caution('Palm pressure with lint-free towels.', { steps: ['blot'] }),
    ],
    source: published('salvageTextiles', 'mnhsTextiles'),
    since: '2026.11',
    why: 'Painted and glazed cloth was told to lie face up with nothing touching it and to have absorbent over it. K. Francis and CCI Notes 13/14 let nothing touch such a face.',
  },
  {
    id: 'textile.dry.air',
    text: 'Moving air is kept low and indirect; for textiles it may pass across the surface from a distance.',
    because: ['materialClass', 'mould'],
    families: ['textile'],
    applies: (assessment, facts) => isSalvagedTextile(assessment, facts) && facts.mould !== 'active',
    concludes: [caution('Fans low and indirect: across the cloth from a distance, never on it.', { steps: ['dry'] })],
    source: published('mnhsTextiles', 'salvageObjects'),
    choice: 'Low and indirect; textiles across at a distance.',
    alternative: 'Minnesota Historical Society blows across the textile; most object guides keep air off the items.',
    choiceId: 'fan-direction',
    until: '2026.2',
  },
  {
    id: 'textile.dry.air',
    text: 'Moving air is kept low and indirect; for textiles it may pass across the surface from a distance.',
    because: ['materialClass', 'mould'],
    families: ['textile'],
    applies: (assessment, facts) => isSalvagedTextile(assessment, facts) && facts.mould !== 'active',
    concludes: [caution('Fans low and indirect, across the cloth from a distance.', { steps: ['dry'] })],
    source: published('mnhsTextiles', 'salvageObjects'),
    choice: 'Low and indirect; textiles across at a distance.',
    alternative: 'Minnesota Historical Society blows across the textile; most object guides keep air off the items.',
    choiceId: 'fan-direction',
    since: '2026.11',
    why: 'That no fan blows on the piece was said twice; it stands as a prohibition.',
  },
  {
    id: 'textile.dry.cover-cloth',
    text: 'A clean cloth on the upper side takes the soil that moves outward as a flat textile dries; where dye moves, another rule says how.',
    because: ['materialClass', 'colourTests'],
    classes: ['textile-flat-small', 'textile-flat-large', 'textile-quilt-padded'],
    applies: (_assessment, facts) => !facts.dry && facts.dye !== 'bleeding',
    concludes: [caution('Press a clean cloth to its upper side and leave it there until all is dry: the soil moves into the cloth.', { steps: ['dry'] })],
    source: published('salvageTextiles'),
    since: '2026.11',
    why: 'The cloth stood in the reason alone, and whoever lays a flat textile out to dry was not told.',
  },
  {
    id: 'textile.two-days-in-all',
    text: 'Whether to treat it now turns on cleaning and drying together: what cannot be both in time is frozen.',
    because: ['materialClass', 'wettedAtMs', 'wetState'],
    families: ['textile'],
    applies: (assessment, facts) => isSalvagedTextile(assessment, facts) && !facts.stabilised,
    concludes: [caution('Reckon cleaning and drying together: what cannot be clean and dry in time goes to the freezer first, where its material may be frozen.')],
    source: published('npsWetTextiles', 'salvageTextiles'),
    since: '2026.11',
    why: 'The sources ask for cleaning and drying within the time, and the clock of this book for the beginning of drying; nobody was told to reckon the one with the other.',
  },
  {
    id: 'textile.pockets',
    text: 'Folds and pockets of flooded cloth hide glass, needles and pins.',
    because: ['materialClass'],
    families: ['textile'],
    applies: (assessment, facts) => facts.family === 'textile' && !facts.dry,
    concludes: [caution('Look before you touch, do not squeeze, never reach into folds or pockets: there may be glass or needles.', { zones: ['dirty', 'quarantine'] })],
    source: practice('salvage crews check folds before reaching in; care guidance section 9 no. 12.'),
  },
];

/** Rules about fibres and textile practice, in reading order. */
export const TEXTILE_PRACTICE_RULES: readonly Rule[] = [...byFibre, ...practiceRules];
