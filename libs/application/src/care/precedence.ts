/** Why one thing comes before another, in words and as numbers to check. */
import { explainOrder, IRREVERSIBILITY, orderDecision, type CareCalibration, type Message, type OrderDecision, type OrderedItem } from '#care';

/** One thing with what decides its turn. */
export interface Rank {
  item: OrderedItem;
  /** Minutes until its handling must start; negative when that is past. */
  slackMin: number;
  /** How hard the damage that threatens first is to undo, 6 the hardest, 0 for none. Our own ranking. */
  irreversibility: number;
}

export function rankOf(item: OrderedItem, nowMs: number): Rank {
  return { item, slackMin: Math.round((item.startByMs - nowMs) / 60_000), irreversibility: item.binding === null ? 0 : IRREVERSIBILITY[item.binding] };
}

/** Two things with which comes first, by what, and that in words. */
export interface Precedence {
  decision: OrderDecision;
  because: Message;
}

/** Which of two different things comes first, said at `nowMs`; null for a thing and itself. */
export function precedenceOf(a: OrderedItem, b: OrderedItem, nowMs: number, { orderStretchMinutes }: Pick<CareCalibration, 'orderStretchMinutes'>): Precedence | null {
  const decision = orderDecision(a, b, orderStretchMinutes);
  return decision === null ? null : { decision, because: explainOrder(decision, nowMs) };
}
