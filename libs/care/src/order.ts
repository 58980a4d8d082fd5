/** Who comes first when hands are scarce: things are ranked, never people. */
import { DEFAULT_CALIBRATION } from './calibration.js';
import { say } from './messages/message.js';
import type { Message } from './messages/message.js';
import { isLate, stretchInWords } from './messages/start-by.js';
import { DAMAGE_WORDS, SIGNIFICANCE_WORDS } from './messages/words.js';
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
export const IRREVERSIBILITY: Readonly<Record<DamageKind, number>> = {
  'image-loss': 6, 'binder-loss': 6, blocking: 5, flaking: 5, cracking: 5, 'dye-migration': 4, delamination: 3, corrosion: 3, 'salt-crystals': 3, warping: 2, distortion: 2, mould: 1,
};

/** The ordered item of a triage result. */
export function orderedItem(id: string, assessment: Assessment, result: Pick<TriageResult, 'startByMs' | 'binding'>, arrivedAtMs: number): OrderedItem {
  return { id, startByMs: result.startByMs, binding: result.binding, significance: assessment.significance, onlyCopy: assessment.onlyCopy, arrivedAtMs };
}

/** What decides between two items, in the order in which it is asked. */
export const ORDER_CRITERIA = ['slack', 'irreversibility', 'significance', 'only-copy', 'arrival', 'tag'] as const;
export type OrderCriterion = (typeof ORDER_CRITERIA)[number];

/** Which of two items comes first, and by what. */
export interface OrderDecision {
  first: OrderedItem;
  second: OrderedItem;
  by: OrderCriterion;
  /** How much sooner the first must be started, for `slack`; otherwise 0. */
  soonerMs: number;
}

interface Criterion {
  by: OrderCriterion;
  /** Smaller comes first. */
  key: (item: OrderedItem, stretchMs: number) => number;
}

const CRITERIA: readonly Criterion[] = [
  { by: 'slack', key: (item, stretchMs) => Math.floor(item.startByMs / stretchMs) },
  { by: 'irreversibility', key: (item) => -(item.binding === null ? 0 : IRREVERSIBILITY[item.binding]) },
  { by: 'significance', key: (item) => -SIGNIFICANCES.indexOf(item.significance) },
  { by: 'only-copy', key: (item) => (item.onlyCopy === false ? 1 : 0) },
  { by: 'arrival', key: (item) => item.arrivedAtMs },
];

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

/** Which of two different items comes first and by what, as data; `null` for an item and itself. */
export function orderDecision(a: OrderedItem, b: OrderedItem, stretchMinutes: number = DEFAULT_CALIBRATION.orderStretchMinutes): OrderDecision | null {
  const order = compareUrgency(a, b, stretchMinutes);
  if (order === 0) return null;
  const [first, second] = order < 0 ? [a, b] : [b, a];
  const by = decisive(first, second, stretchMinutes)?.by ?? 'tag';
  return { first, second, by, soonerMs: by === 'slack' ? second.startByMs - first.startByMs : 0 };
}

function decisive(first: OrderedItem, second: OrderedItem, stretchMinutes: number): Criterion | undefined {
  const stretchMs = stretchMinutes * 60_000;
  return CRITERIA.find(({ key }) => key(first, stretchMs) !== key(second, stretchMs));
}

/**
 * Which comes first and why, to read out to a lead or a family at `nowMs`. A moment that has passed is called late, because
 * "three hours sooner" of two moments that both lie behind us sounds as if there were time.
 */
export function explainOrder(decision: OrderDecision, nowMs: number): Message {
  const { first, second, by } = decision;
  const sentence = { first: first.id, second: second.id, why: WHY[by](decision, nowMs) };
  if (!isLate(first.startByMs, nowMs)) return say('{first} comes before {second}: {why}.', sentence);
  return isLate(second.startByMs, nowMs) ? say('{first} comes before {second}: {why}. The moment to start has passed for both: begin now.', sentence) : say('{first} comes before {second}: {why}. The moment to start it has passed: begin now.', sentence);
}

function sooner({ first, soonerMs }: OrderDecision, nowMs: number): Message {
  const minutes = Math.round(soonerMs / 60_000);
  if (isLate(first.startByMs, nowMs)) return say('its handling should have started {stretch} sooner', { stretch: stretchInWords(soonerMs) });
  if (minutes < 120) return say('its handling must start {minutes, plural, one {# minute} other {# minutes}} sooner', { minutes });
  return say('its handling must start {hours, plural, one {# hour} other {# hours}} sooner', { hours: Math.round(minutes / 60) });
}

const damageOf = ({ binding }: OrderedItem): Message => (binding === null ? say('no damage that is known') : DAMAGE_WORDS[binding]);

const WHY: Readonly<Record<OrderCriterion, (decision: OrderDecision, nowMs: number) => Message>> = {
  slack: sooner,
  irreversibility: ({ first, second }) => say('what threatens it first ({damage}) is harder to undo than what threatens the other ({otherDamage})', { damage: damageOf(first), otherDamage: damageOf(second) }),
  significance: ({ first, second }) => say('to its family it is {significance}, the other is {otherSignificance}', { significance: SIGNIFICANCE_WORDS[first.significance], otherSignificance: SIGNIFICANCE_WORDS[second.significance] }),
  'only-copy': () => say('it may be the only copy, and the other is not'),
  arrival: () => say('it arrived earlier'),
  tag: () => say('nothing else sets them apart, so the name decides'),
};
