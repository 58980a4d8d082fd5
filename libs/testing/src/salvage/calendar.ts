/** When stations are open and who comes: shifts, closures, attendance. */
import type { Interval } from '#planning';
import { slotsOf, type Hours, type Loaded, type Settings } from './settings.js';
import type { Streams } from './streams.js';

const DAY_HOURS: Hours = [[8, 12], [13, 17]];
const EVENING_HOURS: Hours = [[18, 21]];
const EVENING_SHARE = 0.4;
const CLOSURE_SHARE = 0.02;
/** Days for which chance is drawn, whatever the horizon, so that a longer one begins like a shorter one. */
const DRAWN_DAYS = 28;
/** A Friday, far from any real event that the dates might bring to mind. */
export const ORIGIN_MS = Date.UTC(2031, 8, 12);
/** Who comes in the evening has usually not been there by day: half as many. Ours. */
const EVENING_ATTENDANCE = 0.5;

/** Hours of each day of the horizon: by day, and on some days in the evening. */
export interface Day { byDay: Interval[]; evening: Interval[] }

/** The house's calendar as a resource keeps it. */
export function daysOf(streams: Streams, settings: Settings, resource: Loaded): Day[] {
  const { hour, day } = slotsOf(settings);
  const dice = streams('evenings');
  const evenings = Array.from({ length: DRAWN_DAYS }, () => dice.unit() < EVENING_SHARE);
  const own = settings.hours[resource];
  const at = (d: number, hours: Hours): Interval[] => hours.map(([from, to]) => ({ from: d * day + from * hour, to: d * day + to * hour }));
  return Array.from({ length: settings.days }, (_, d) => {
    const away = settings.neverOpen.includes(resource) || (settings.alternateDays.includes(resource) && d % 2 === 1);
    if (away) return { byDay: [], evening: [] };
    return { byDay: at(d, own ?? DAY_HOURS), evening: own === undefined && evenings[d] ? at(d, EVENING_HOURS) : [] };
  });
}

/** Opening of a station: the calendar without the shifts in which it stays closed. */
export function openingOf(streams: Streams, settings: Settings, resource: Loaded): Interval[] {
  const dice = streams(`closures/${resource}`);
  return daysOf(streams, settings, resource).flatMap(({ byDay, evening }) => {
    const closed = [dice.unit(), dice.unit(), dice.unit()].map((unit) => unit < CLOSURE_SHARE);
    return [...byDay.filter((_, k) => !closed[k]), ...evening.filter(() => !closed[2])];
  });
}

/** Share of a crew that comes on a day: fewer at first and at weekends. */
function attendanceShare(d: number): number {
  if (d < 2) return 0.65;
  const weekday = new Date(ORIGIN_MS + d * 86_400_000).getUTCDay();
  return weekday === 0 || weekday === 6 ? 0.7 : 0.85;
}

/**
 * A crew that grows person by person. How many of the crew come on a day is binomial; who comes is always the same order by day and
 * the opposite one in the evening, so that a crew of any size has few distinct patterns of shifts. Somebody always comes.
 */
export class GrowingCrew {
  size = 0;
  private readonly dice;
  private readonly days: Day[];
  private readonly byDay: number[];
  private readonly evening: number[];

  constructor(streams: Streams, settings: Settings, resource: Loaded) {
    this.dice = streams(`attendance/${resource}`);
    this.days = daysOf(streams, settings, resource);
    this.byDay = this.days.map(() => 0);
    this.evening = this.days.map(() => 0);
  }

  /** One more of the crew, with days of their own. */
  grow(): void {
    this.size += 1;
    for (let d = 0; d < DRAWN_DAYS; d += 1) {
      const [day, evening] = [this.dice.unit(), this.dice.unit()];
      if (d >= this.days.length) continue;
      if (day < attendanceShare(d)) this.byDay[d] = this.byDay[d]! + 1;
      if (evening < attendanceShare(d) * EVENING_ATTENDANCE) this.evening[d] = this.evening[d]! + 1;
    }
  }

  /** Person-slots before a slot. */
  slotsBefore(until: number): number {
    const length = (list: Interval[]): number => list.reduce((sum, { from, to }) => sum + Math.max(0, Math.min(to, until) - from), 0);
    return this.days.reduce((sum, { byDay, evening }, d) => sum + length(byDay) * this.present(this.byDay, d) + length(evening) * this.present(this.evening, d), 0);
  }

  /** Shifts of each of the crew. */
  shifts(): Interval[][] {
    return Array.from({ length: this.size }, (_, i) => this.days.flatMap(({ byDay, evening }, d) => [
      ...(i < this.present(this.byDay, d) ? byDay : []),
      ...(i >= this.size - this.present(this.evening, d) ? evening : []),
    ]));
  }

  private present(counts: readonly number[], d: number): number {
    return Math.max(Math.min(1, this.size), counts[d]!);
  }
}
