/** The people of a plan: when they are there, and until when a fitted respirator may be asked of them. */
import { shiftsWithinHours, type PeopleCalibration } from '#care';
import type { PlanPerson } from '#planning';
import { dayIn } from '../care/worked-time.js';
import type { InputPerson, PlanInput, Span } from '../ports/plan-input.js';
import { byId, type SlotGrid } from './slots.js';

/** In the order of their ids; work is placed before `lastSlot`. */
export function planPeople(input: Pick<PlanInput, 'people' | 'timeZone'>, grid: SlotGrid, lastSlot: number, calibration: PeopleCalibration): PlanPerson[] {
  const fitUntil = new Map<string, number>();
  return [...input.people].sort(byId).map((person) => {
    const { id, siteId, skills, restrictions, respiratorFitUntil: day } = person;
    if (day !== null && !fitUntil.has(day)) fitUntil.set(day, slotAfterDay(day, input.timeZone, grid));
    return {
      id, siteId, skills: [...skills].sort(), restrictions: [...restrictions].sort(), shifts: grid.inside(present(person, calibration), lastSlot),
      fitUntilSlot: day === null ? 0 : (fitUntil.get(day) ?? 0),
    };
  });
}

/** On shift, and not for longer than people work here without a real break. */
function present({ shifts }: InputPerson, calibration: PeopleCalibration): Span[] {
  const worked = shifts.map(({ fromMs, toMs }) => ({ startsAtMs: fromMs, endsAtMs: toMs }));
  return shiftsWithinHours(worked, calibration).map(({ startsAtMs, endsAtMs }) => ({ fromMs: startsAtMs, toMs: endsAtMs }));
}

/** The first slot that begins after the day; 0 when it is over, the horizon when it is not over by then. */
function slotAfterDay(day: string, timeZone: string, grid: SlotGrid): number {
  let [after, ahead] = [0, grid.horizonSlots];
  while (after < ahead) {
    const middle = Math.floor((after + ahead) / 2);
    if (dayIn(timeZone, grid.originMs + middle * grid.slotMs) <= day) after = middle + 1;
    else ahead = middle;
  }
  return after;
}
