import { triage } from '#care';
import type { RegisterIncidentInput } from '#contracts';
import { DAY, FLOOD_AT_MS } from '../calibration.js';
import { observedBy } from './observed.js';
import type { DemoThing } from './types.js';

/** The rule of practice that the whole day is measured against: what is not begun after two days moulds (FEMA, Mold, 2023; EPA 402-K-01-001, chapter 3). */
const CRITICAL_UNTIL_MS = FLOOD_AT_MS + 48 * 3_600_000;

/** Hands-on hours if every thing went the first way that triage offers, assessment and colour test included. */
export function workHours(things: readonly DemoThing[]): number {
  const agreed = { treat: true, freeze: true, refer: true, release: null };
  let minutes = 0;
  for (const thing of things) {
    const known = observedBy(thing, agreed);
    const { options } = triage(known, { nowMs: DAY.queueEndsAtMs, floodAtMs: FLOOD_AT_MS, airTempC: 24 });
    // Five minutes for the assessment that precedes every way: the handling table of the care library.
    minutes += 5 + (options[0]?.steps ?? []).reduce((sum, step) => sum + step.minutesPerPiece * thing.count * step.crew, 0);
  }
  return minutes / 60;
}

/** Hours of everybody on shift until two days after the flood. */
export function handHours(documents: readonly RegisterIncidentInput[]): number {
  let ms = 0;
  for (const person of documents.flatMap((document) => document.people ?? [])) {
    for (const shift of person.shifts ?? []) ms += Math.max(0, Math.min(Date.parse(shift.endsAt), CRITICAL_UNTIL_MS) - Date.parse(shift.startsAt));
  }
  return ms / 3_600_000;
}
