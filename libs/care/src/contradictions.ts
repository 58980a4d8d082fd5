/** Observations that cannot all be true; told together, so that a person corrects them in one go. */
import { partsOf } from './facts.js';
import type { Family } from './materials.js';
import { MATERIALS } from './materials.js';
import { say } from './messages/message.js';
import type { Assessment, Fibre, MaterialClass, TriageContext } from './types.js';

/** One contradiction with the members it lies in, the one to correct first standing first. */
export interface Contradiction {
  code: ContradictionCode;
  members: (keyof Assessment | keyof TriageContext)[];
  text: string;
}

export const CONTRADICTION_CODES = [
  'wetted-ahead', 'wetting-time-not-a-time', 'count-not-whole', 'dripping-after-drying', 'dripping-while-frozen', 'silk-of-another-fibre', 'wool-of-another-fibre', 'fibre-of-no-textile',
  'all-tested-without-test', 'colour-without-name', 'colour-not-listed', 'mud-from-clean-water', 'sewage-in-clean-water', 'part-named-unknown',
] as const;
export type ContradictionCode = (typeof CONTRADICTION_CODES)[number];

interface Check extends Contradiction {
  holds: (assessment: Assessment, context: TriageContext) => boolean;
}

/** Families in which no textile fibre is found; canvas, bindings, upholstery and baskets have theirs. */
const FIBRELESS: ReadonlySet<Family> = new Set<Family>(['photo', 'film', 'audio-visual', 'inorganic', 'paper', 'leather']);

const isNamed = (fibre: Fibre): boolean => fibre !== 'unknown' && fibre !== 'mixed';
const isSilk = (materialClass: MaterialClass): boolean => materialClass === 'textile-silk' || materialClass === 'textile-silk-painted-or-weighted';
const sameWord = (text: string): string => text.trim().toLowerCase();

function notListed({ colours, colourTests }: Assessment): boolean {
  if (colours === undefined || colours.length === 0) return false;
  const listed = new Set(colours.map(sameWord));
  return colourTests.some(({ colour }) => !listed.has(sameWord(colour)));
}

const dripping = ({ wetState }: Assessment): boolean => wetState === 'dripping';
const done = (context: TriageContext, step: 'dry' | 'freeze'): boolean => context.doneSteps?.includes(step) ?? false;

const CHECKS: readonly Check[] = [
  {
    code: 'wetted-ahead', members: ['wettedAtMs'], text: say('The time of wetting lies ahead. Leave it out when nobody knows it.').text,
    holds: ({ wettedAtMs }, { nowMs }) => wettedAtMs !== null && wettedAtMs > nowMs,
  },
  {
    code: 'wetting-time-not-a-time', members: ['wettedAtMs'], text: say('The time of wetting is not a time. Leave it out when nobody knows it.').text,
    holds: ({ wettedAtMs }) => wettedAtMs !== null && !Number.isFinite(wettedAtMs),
  },
  {
    code: 'count-not-whole', members: ['count'], text: say('A lot counts whole pieces, one at least.').text,
    holds: ({ count }) => !Number.isInteger(count) || count < 1,
  },
  {
    code: 'dripping-after-drying', members: ['wetState', 'doneSteps'], text: say('It is said to be dripping and to be dried. If it was wetted again, say so as a correction.').text,
    holds: (assessment, context) => dripping(assessment) && done(context, 'dry'),
  },
  {
    code: 'dripping-while-frozen', members: ['wetState', 'doneSteps'], text: say('It is said to be dripping and to lie frozen. If it thawed, record the thaw first.').text,
    holds: (assessment, context) => dripping(assessment) && done(context, 'freeze'),
  },
  {
    code: 'silk-of-another-fibre', members: ['fibre', 'materialClass'], text: say('It is called silk, and its fibre is another. Correct one of the two, or call the fibre mixed.').text,
    holds: ({ materialClass, fibre }) => isSilk(materialClass) && isNamed(fibre) && fibre !== 'silk',
  },
  {
    code: 'wool-of-another-fibre', members: ['fibre', 'materialClass'], text: say('It is called wool, and its fibre is another. Correct one of the two, or call the fibre mixed.').text,
    holds: ({ materialClass, fibre }) => materialClass === 'textile-wool' && isNamed(fibre) && fibre !== 'wool',
  },
  {
    code: 'fibre-of-no-textile', members: ['fibre', 'materialClass', 'parts'], text: say('A textile fibre is named for a thing without any textile. Correct the material, or add the textile as a part.').text,
    holds: (assessment) => assessment.fibre !== 'unknown' && partsOf(assessment).every((materialClass) => FIBRELESS.has(MATERIALS[materialClass].family)),
  },
  {
    code: 'all-tested-without-test', members: ['allColoursTested', 'colourTests'], text: say('All colours are said to be tested, and no test is recorded.').text,
    holds: ({ allColoursTested, colourTests }) => allColoursTested && colourTests.length === 0,
  },
  {
    code: 'colour-without-name', members: ['colourTests'], text: say('A colour test names no colour.').text,
    holds: ({ colourTests }) => colourTests.some(({ colour }) => colour.trim() === ''),
  },
  {
    code: 'colour-not-listed', members: ['colourTests', 'colours'], text: say('A test grades a colour that is not among those listed.').text,
    holds: notListed,
  },
  {
    code: 'mud-from-clean-water', members: ['water', 'soil'], text: say('Clean water leaves no heavy mud. Correct the water, or say that nobody knows it.').text,
    holds: ({ water, soil }) => water === 'clean' && soil === 'heavy-mud',
  },
  {
    code: 'sewage-in-clean-water', members: ['water', 'hazards'], text: say('Sewage was seen, and the water is called clean. Correct the water, or say that nobody knows it.').text,
    holds: ({ water, hazards }) => water === 'clean' && hazards.includes('sewage'),
  },
  {
    code: 'part-named-unknown', members: ['parts'], text: say('A part is named without its material. Leave the part out, or call the whole thing unknown.').text,
    holds: ({ materialClass, parts }) => materialClass !== 'unknown' && (parts?.includes('unknown') ?? false),
  },
];

/** All contradictions of an assessment at once, in a fixed order; empty when it can be true. Pure. */
export function contradictionsIn(assessment: Assessment, context: TriageContext): Contradiction[] {
  return CHECKS.filter(({ holds }) => holds(assessment, context)).map(({ code, members, text }) => ({ code, members: [...members], text }));
}
