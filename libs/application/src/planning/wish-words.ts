/** What people want of the plan, and what a plan has otherwise than the one before, in words. */
import { say, STEP_WORDS, WAY_WORDS, type Message } from '#care';
import { formatTagCode } from '#custody';
import { planStepInWords } from '#planning';
import type { PlannedAt, PlanChange } from '../ports/plan-store.js';
import type { PlanWishView } from '../ports/plan-wish-store.js';
import { blockerInWords } from './plan-summary.js';

/** A wish as a sentence. */
export function wishInWords({ kind, tagCode, stationCode, step, disposition, notBeforeMs }: Pick<PlanWishView, 'kind' | 'tagCode' | 'stationCode' | 'step' | 'disposition' | 'notBeforeMs'>): Message {
  const tag = formatTagCode(tagCode);
  const station = stationCode ?? '';
  switch (kind) {
    case 'pin': return say('{tag} is done just as it was planned: the same places, people and beginnings.', { tag });
    case 'first': return say('{tag} comes before everything that nobody has put first.', { tag });
    case 'not-before': return say('Nothing of {tag} begins before {moment} UTC.', { tag, moment: minuteOf(notBeforeMs ?? 0) });
    case 'bar-station': return step === null ? say('{tag} is not worked on at {station}.', { tag, station }) : say('“{step}” of {tag} is not done at {station}.', { tag, station, step: STEP_WORDS[step] });
    case 'bar-way': return disposition === null ? say('{tag} takes another way.', { tag }) : say('{tag} does not take the way “{way}”.', { tag, way: WAY_WORDS[disposition] });
  }
}

/** A change of the plan for one item, as a sentence. */
export function planChangeInWords(change: PlanChange): Message {
  const { ride, rodeBefore, wayNow } = change;
  const sentence = changeInWords(change);
  if (ride !== null) return say('{sentence} {vehicle} leaves {from} with it at {leaves} UTC and is at {to} by {arrives} UTC, as reckoned.', { sentence, ...ride, leaves: minuteOf(ride.leavesAtMs), arrives: minuteOf(ride.arrivesAtMs) });
  return rodeBefore && wayNow !== null ? say('{sentence} No ride is planned for it any more.', { sentence }) : sentence;
}

function changeInWords(change: PlanChange): Message {
  const thing = `${formatTagCode(change.tagCode)} (${change.description})`;
  switch (change.kind) {
    case 'in-time': return inTime(thing, change);
    case 'fallen-out': return say('{thing} is not in time any more: {why}.', { thing, why: whyOut(change) });
    case 'other-way': return say('{thing} takes the way “{now}” instead of “{before}”.', { thing, now: wayOf(change.wayNow), before: wayOf(change.wayBefore) });
    case 'moved': return moved(thing, change);
  }
}

function inTime(thing: string, { wayNow, step, now }: PlanChange): Message {
  const way = wayOf(wayNow);
  if (step === null || now === null) return say('{thing} is in time now, on the way “{way}”.', { thing, way });
  return say('{thing} is in time now, on the way “{way}”: it begins with “{step}” {when}.', { thing, way, step: planStepInWords(step), when: whenAndWhere(now) });
}

function moved(thing: string, { step, before, now }: PlanChange): Message {
  if (step === null || before === null || now === null) return say('{thing} is planned for another time or place.', { thing });
  return say('{thing}: “{step}” is planned {now} instead of {before}.', { thing, step: planStepInWords(step), now: whenAndWhere(now), before: whenAndWhere(before) });
}

function whyOut({ blockedBy, resourceCode, standingNow }: PlanChange): Message {
  if (blockedBy !== null) return blockerInWords({ ...blockedBy, what: resourceCode ?? blockedBy.what });
  return standingNow === 'look-only' ? say('it is only looked at until its owner decides') : say('every deadline has passed, so it is planned after what can still be in time');
}

function whenAndWhere({ startsAtMs, placeCode }: PlannedAt): Message {
  const moment = minuteOf(startsAtMs);
  return placeCode === null ? say('at {moment} UTC', { moment }) : say('at {moment} UTC at {place}', { moment, place: placeCode });
}

function wayOf(way: PlanChange['wayNow']): Message {
  return way === null ? say('none') : WAY_WORDS[way];
}

/** `2026-05-09 07:15`. */
function minuteOf(ms: number): string {
  return new Date(ms).toISOString().slice(0, 16).replace('T', ' ');
}
