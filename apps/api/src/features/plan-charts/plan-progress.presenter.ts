import type { z } from 'zod';
import type { DurationTally, PlanProgress, ProgressPart, PromiseTally } from '#application';
import { render, say, STEP_WORDS, type Language, type Message } from '#care';
import type { PlanProgressBody } from '#contracts';
import { iso } from '../../presenters/time.js';
import { wallClock } from '../../presenters/wall-clock.js';

const STANDING = say('Counted from what was reported: what nobody has reported counts as not begun. It shows where plans are off, and is no measure of people; times of handling are our own calibration until they are compared like this. Nobody is asked to hurry: protection and safety come before speed.');

export function presentPlanProgress({ revision, nowMs, toleranceMinutes, timeZone, inForce, lastDay }: PlanProgress, language: Language): z.output<typeof PlanProgressBody> {
  const clock = wallClock(timeZone, language);
  const said = (messages: readonly Message[]): string[] => messages.map((message) => render(message, language));
  const since = clock.moment(lastDay.sinceMs);
  const reach = lastDay.isCutShort ? say('The detail of older plans is not kept, or there were none: this is told from {since} on.', { since }) : say('The last 24 hours, from {since} on.', { since });
  return {
    incidentId: revision.incidentId, at: iso(nowMs), toleranceMinutes,
    inForce: {
      revision: { id: revision.id, number: revision.number, madeAt: iso(revision.createdAtMs) },
      ...presentPart(inForce, revision.number), inWords: said([say('Plan {number}, made on {moment}.', { number: revision.number, moment: clock.moment(revision.createdAtMs) }), ...tellingOf(inForce, toleranceMinutes)]),
    },
    lastDay: { isCutShort: lastDay.isCutShort, revisionNumbers: lastDay.revisions, ...presentPart(lastDay, lastDay.promisesOf), inWords: said([reach, ...tellingOf(lastDay, toleranceMinutes)]) },
    standing: render(STANDING, language),
  };
}

function presentPart({ sinceMs, starts, durations, ways, promises }: ProgressPart, revisionNumber: number) {
  return { since: iso(sinceMs), starts, durations, ways, promises: promises && { revisionNumber, ...promises } };
}

function tellingOf({ starts, durations, ways, promises }: ProgressPart, minutes: number): Message[] {
  const { delayMinutes: delay } = starts;
  return [
    starts.due === 0
      ? say('Nothing was due to begin yet.')
      : say('{due, plural, one {# beginning was} other {# beginnings were}} due: {onTime} came in time (within {minutes} minutes), {late} late, {notYet} have not come yet.', { ...countsOf(starts), minutes }),
    ...(starts.startUnknown === 0 ? [] : [say('Of {startUnknown} more it is not on record when they began: write the beginning down with the report.', { startUnknown: starts.startUnknown })]),
    ...(starts.dropped === 0 ? [] : [say('{dropped} more fell away, because the thing goes another way or has left.', { dropped: starts.dropped })]),
    ...(delay === null ? [] : [say('Half of what began did so at most {median} minutes after it was planned, four fifths at most {p80} minutes.', { median: delay.median, p80: delay.p80 })]),
    ...durations.flatMap(durationInWords),
    say('{followed} {followed, plural, one {thing goes} other {things go}} the way that was planned, {otherWay} another; with {notBegun} nothing has begun.', { ...ways }),
    ...(promises === null ? [] : promiseInWords(promises)),
  ];
}

function countsOf({ due, onTime, late, notYet }: ProgressPart['starts']) {
  return { due, onTime, late, notYet };
}

/** Own choice: fewer steps, or less of a difference, tell nothing. */
const WORTH_TELLING = { steps: 5, percent: 20 } as const;

function durationInWords({ step, steps, plannedMinutes, actualMinutes }: DurationTally): Message[] {
  const percent = plannedMinutes === 0 ? 100 : Math.round((100 * actualMinutes) / plannedMinutes);
  if (steps < WORTH_TELLING.steps || Math.abs(percent - 100) < WORTH_TELLING.percent) return [];
  return [say('“{step}” takes {percent} % of the time that is planned for it, by {steps} that were reported.', { step: STEP_WORDS[step], percent, steps })];
}

function promiseInWords({ promised, inTime, late, open, overdue }: PromiseTally): Message[] {
  if (promised.items === 0) return [];
  return [say('Of {promised, plural, one {# thing} other {# things}} that the plan had in time, {inTime} {inTime, plural, one {is} other {are}} safe in time, {late} safe too late, {open} not safe; of these the moment has passed for {overdue}.', { promised: promised.items, inTime: inTime.items, late: late.items, open: open.items, overdue: overdue.items })];
}
