/** What is usually asked for where a plan is short, as a coordinator would ask for it. */
import type { PlanWhatIfChange } from '#contracts';
import { type Plan, suggestChanges } from '#planning';
import { dayIn } from '../../care/worked-time.js';
import { isTimeZone, momentsOf } from '../../intake/import/local-time.js';
import { type ChangeGround, SUGGESTED_DEHUMIDIFIER, toAskedChange, withMachine } from './asked-changes.js';

const DAY_MS = 86_400_000;
/** Volunteers are asked for the next morning, from eight to noon by the clock of the network. Our own choice. */
const MORNING = { fromHour: 8, toHour: 12 };

/** By the plan that is made of the rows as they stand. */
export function suggestedChanges(plan: Plan, ground: ChangeGround, nowMs: number): PlanWhatIfChange[] {
  const { problem, grid, input } = ground;
  const [volunteers] = grid.inside([tomorrowMorning(nowMs, input.timeZone)], ground.windowSlots);
  const dehumidifierGPerSlot = new Map(input.rooms.map(({ id }) => [id, withMachine(id, SUGGESTED_DEHUMIDIFIER, ground)]));
  return suggestChanges(problem, plan, { volunteers: volunteers ?? { from: 0, to: 0 }, dehumidifierGPerSlot }).flatMap((whatIf) => whatIf.flatMap((change) => toAskedChange(change, grid, problem.services) ?? []));
}

/** In a day without one of the hours it is the whole morning all the same: the clock changes at night. */
export function tomorrowMorning(nowMs: number, timeZone: string): { fromMs: number; toMs: number } {
  const [year = 0, month = 1, day = 1] = new Date(Date.parse(`${dayIn(timeZone, nowMs)}T00:00:00Z`) + DAY_MS).toISOString().slice(0, 10).split('-').map(Number);
  const momentAt = (hour: number): number => momentsOf({ year, month, day, hour, minute: 0, second: 0 }, isTimeZone(timeZone) ? timeZone : 'UTC')[0] ?? Date.UTC(year, month - 1, day, hour);
  return { fromMs: momentAt(MORNING.fromHour), toMs: momentAt(MORNING.toHour) };
}
