/** Damage clocks, the moment handling must start, and the urgency that follows from it. */
import type { CareCalibration } from './calibration.js';
import type { Findings } from './conclusions.js';
import type { Facts } from './facts.js';
import type { Clock, DamageKind, Urgency } from './types.js';

const HOUR_MS = 3_600_000;

/** One clock for each threatened damage, earliest deadline first; none once frozen or dried. Rules of practice, never promises. */
export function clocksOf(findings: Findings, facts: Facts, calibration: CareCalibration): Clock[] {
  if (facts.stabilised) return [];
  const earliest = new Map<DamageKind, Clock>();
  for (const { damage, clock, ruleId } of findings.drawn.clock) {
    const hours = calibration.clockHours[clock];
    const candidate: Clock = {
      damage,
      deadlineAtMs: facts.wettedAtMs + hours.deadline * HOUR_MS,
      warnAtMs: facts.wettedAtMs + hours.warn * HOUR_MS,
      ruleId,
    };
    const known = earliest.get(damage);
    if (known === undefined || candidate.deadlineAtMs < known.deadlineAtMs) earliest.set(damage, candidate);
  }
  return [...earliest.values()].sort((a, b) => a.deadlineAtMs - b.deadlineAtMs);
}

/** When handling must start, and the damage that says so (`null`: people's safety, or nothing presses). */
export interface StartBy {
  startByMs: number;
  binding: DamageKind | null;
}

/** The earliest clock binds, unless people's safety asks for an earlier start; it may lie in the past. */
export function startByOf(findings: Findings, clocks: readonly Clock[], facts: Facts, nowMs: number, calibration: CareCalibration): StartBy {
  const first = clocks[0];
  const safety = findings.drawn['start-by'].map(({ clock }) => facts.wettedAtMs + calibration.clockHours[clock].deadline * HOUR_MS);
  const safetyMs = Math.min(...safety);
  if (first !== undefined && first.deadlineAtMs <= safetyMs) return { startByMs: first.deadlineAtMs, binding: first.damage };
  if (safety.length > 0) return { startByMs: safetyMs, binding: null };
  return { startByMs: nowMs + calibration.canWaitHours * HOUR_MS, binding: null };
}

/** Urgency from the slack that is left; the bounds are our calibration. */
export function urgencyOf(startByMs: number, nowMs: number, calibration: CareCalibration): Urgency {
  const slackHours = (startByMs - nowMs) / HOUR_MS;
  const { immediate, withinADay, withinTwoDays } = calibration.urgencyWithinHours;
  if (slackHours <= immediate) return 'immediate';
  if (slackHours <= withinADay) return 'within-a-day';
  return slackHours <= withinTwoDays ? 'within-two-days' : 'can-wait';
}

/**
 * The next deadline that has not passed yet, or `null`. Where `startByMs` is already past, this is the
 * moment a planner can still meet.
 */
export function nextDeadlineAtMs(clocks: readonly Clock[], nowMs: number): number | null {
  const ahead = clocks.map((clock) => clock.deadlineAtMs).filter((deadlineAtMs) => deadlineAtMs > nowMs);
  return ahead.length === 0 ? null : Math.min(...ahead);
}
