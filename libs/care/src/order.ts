/** Who comes first when hands are scarce: things are ranked, never people. */
import { DEFAULT_CALIBRATION } from './calibration.js';
import type { Assessment, DamageKind, Significance, TriageResult } from './types.js';
import { SIGNIFICANCES } from './types.js';

/** What the order needs to know of an item. */
export interface OrderedItem {
  id: string;
  /** Handling must start by this moment, epoch milliseconds. */
  startByMs: number;
  binding: DamageKind | null;
  significance: Significance;
  /** `null` (not asked) counts as the only copy. */
  onlyCopy: boolean | null;
  arrivedAtMs: number;
}

/** Damage that cannot be taken back comes first. Ranking by us: no source compares kinds of damage. */
export const IRREVERSIBILITY: Readonly<Record<DamageKind, number>> = { 'image-loss': 6, blocking: 5, 'dye-migration': 4, corrosion: 3, distortion: 2, mould: 1 };

/** The ordered item of a triage result. */
export function orderedItem(id: string, assessment: Assessment, result: Pick<TriageResult, 'startByMs' | 'binding'>, arrivedAtMs: number): OrderedItem {
  return { id, startByMs: result.startByMs, binding: result.binding, significance: assessment.significance, onlyCopy: assessment.onlyCopy, arrivedAtMs };
}

interface Criterion {
  /** Smaller comes first. */
  key: (item: OrderedItem, stretchMs: number) => number;
  why: (first: OrderedItem, second: OrderedItem) => string;
}

const CRITERIA: readonly Criterion[] = [
  {
    key: (item, stretchMs) => Math.floor(item.startByMs / stretchMs),
    why: (first, second) => `its handling must start ${hours(second.startByMs - first.startByMs)} earlier`,
  },
  {
    key: (item) => -(item.binding === null ? 0 : IRREVERSIBILITY[item.binding]),
    why: (first, second) => `${damageWords(first)} is harder to undo than ${damageWords(second)}`,
  },
  {
    key: (item) => -SIGNIFICANCES.indexOf(item.significance),
    why: (first, second) => `its family calls it ${first.significance}, the other ${second.significance}`,
  },
  { key: (item) => (item.onlyCopy === false ? 1 : 0), why: () => 'it may be the only copy and the other is not' },
  { key: (item) => item.arrivedAtMs, why: () => 'it arrived earlier' },
];

function hours(ms: number): string {
  const rounded = Math.round(ms / 360_000) / 10;
  return rounded < 0.1 ? 'a few minutes' : `${rounded} h`;
}

function damageWords(item: OrderedItem): string {
  return item.binding === null ? 'what threatens it' : item.binding.replace('-', ' ');
}

const compareId = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);

/**
 * Total order, negative when `a` comes first: start-by moment in stretches of an hour, how hard the binding
 * damage is to undo, significance, only copy, arrival, then the id so that no two items ever tie.
 */
export function compareUrgency(a: OrderedItem, b: OrderedItem, stretchMinutes: number = DEFAULT_CALIBRATION.orderStretchMinutes): number {
  const stretchMs = stretchMinutes * 60_000;
  for (const { key } of CRITERIA) {
    const difference = key(a, stretchMs) - key(b, stretchMs);
    if (difference !== 0) return difference;
  }
  return compareId(a.id, b.id);
}

/** One sentence that says which comes first and why, to read out to a lead or a family. */
export function explainOrder(a: OrderedItem, b: OrderedItem, stretchMinutes: number = DEFAULT_CALIBRATION.orderStretchMinutes): string {
  const stretchMs = stretchMinutes * 60_000;
  const order = compareUrgency(a, b, stretchMinutes);
  if (order === 0) return `${a.id} is compared with itself.`;
  const [first, second] = order < 0 ? [a, b] : [b, a];
  const decisive = CRITERIA.find(({ key }) => key(first, stretchMs) !== key(second, stretchMs));
  const why = decisive?.why(first, second) ?? 'nothing else sets them apart, so the tag decides';
  return `${first.id} comes before ${second.id}: ${why}.`;
}
