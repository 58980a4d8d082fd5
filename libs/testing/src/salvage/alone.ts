/** When an item would be stabilised if the house were empty but for it: from the problem alone. */
import type { Interval, PlanItem, PlanOption, PlanProblem, PlanStep } from '#planning';

const NEVER = Number.POSITIVE_INFINITY;

/** Earliest times in an empty house; made once per problem, each question then costs a few look-ups per step. */
export class Alone {
  private readonly horizon: number;
  private readonly fits = new Map<string, Int32Array>();
  private readonly runs = new Map<string, Int32Array>();
  private readonly perStep = new WeakMap<PlanStep, Int32Array>();
  private readonly freezerCl: number;

  /** For problems on one site whose steps need at most one person each and no service, as generated ones are. */
  constructor(private readonly problem: PlanProblem) {
    this.horizon = problem.horizonSlots;
    this.freezerCl = Math.max(0, ...problem.freezers.map(({ volumeCl }) => volumeCl));
  }

  /** Whether no route of the item can have it stabilised in time, or carry it to its end within the horizon, even alone. */
  isLate(item: PlanItem): boolean {
    return !item.options.some((option) => this.isInTime(item, option));
  }

  /** Earliest moment at which a route without a freezer stabilises and still ends within the horizon; infinite when none. */
  earliest(item: PlanItem, option: PlanOption): number {
    return this.walk(option.steps, item.releaseSlot);
  }

  private isInTime(item: PlanItem, { steps }: PlanOption): boolean {
    const at = steps.findIndex(({ freezer }) => freezer !== null);
    if (at < 0) return this.walk(steps, item.releaseSlot) <= item.deadlineSlot;
    const { volumeCl, leastSlots = 1 } = steps[at]!.freezer!;
    const frozenFrom = volumeCl > this.freezerCl ? NEVER : this.end(steps.slice(0, at + 1), item.releaseSlot);
    if (steps.slice(0, at + 1).some(({ stabilises }) => stabilises !== null)) return frozenFrom < this.horizon && frozenFrom <= item.deadlineSlot;
    // The clock stands while it lies frozen: what counts is how long after the thaw begins it is stabilised.
    for (let thaw = frozenFrom + leastSlots; thaw < this.horizon; thaw += 1) {
      if (this.walk(steps.slice(at + 1), thaw) - thaw <= item.deadlineSlot - frozenFrom) return true;
    }
    return false;
  }

  /** Moment of stabilisation of steps from a slot on, infinite when they do not all fit. */
  private walk(steps: readonly PlanStep[], from: number): number {
    let at = from;
    let moment = NEVER;
    for (const step of steps) {
      const start = this.startOf(step, at);
      if (start === NEVER) return NEVER;
      at = start + step.durationSlots;
      if (moment === NEVER && step.stabilises !== null) moment = step.stabilises === 'start' ? start : at;
    }
    return moment;
  }

  private end(steps: readonly PlanStep[], from: number): number {
    return steps.reduce((at, step) => this.startOf(step, at) + step.durationSlots, from);
  }

  private startOf(step: PlanStep, from: number): number {
    if (!(from < this.horizon)) return NEVER;
    let fit = this.perStep.get(step);
    if (!fit) this.perStep.set(step, fit = this.fitOf(step));
    const start = fit[from]!;
    return start + step.durationSlots > this.horizon ? NEVER : start;
  }

  /** For each slot the first start at or after it; the horizon when there is none. */
  private fitOf(step: PlanStep): Int32Array {
    const needs = step.drying ? this.dryingNeeds(step.drying) : this.handsOnNeeds(step);
    const name = `${needs.map(({ what }) => what).join()}/${step.durationSlots}`;
    const known = this.fits.get(name);
    if (known) return known;
    const fit = Int32Array.from({ length: this.horizon }, (_, slot) => slot);
    for (const run of needs.map((need) => this.runsOf(need))) {
      for (let slot = 0; slot < this.horizon; slot += 1) if (run[slot]! < step.durationSlots) fit[slot] = this.horizon;
    }
    for (let slot = this.horizon - 2; slot >= 0; slot -= 1) if (fit[slot] === this.horizon) fit[slot] = fit[slot + 1]!;
    this.fits.set(name, fit);
    return fit;
  }

  private handsOnNeeds({ step: kind, zone, skill, crew, noStation }: PlanStep): Need[] {
    const stations = (): Interval[][] => this.problem.stations.filter((station) => station.capacity > 0 && station.zone === zone && station.steps.some((one) => one === kind)).map(({ open }) => open);
    const people = (): Interval[][] => this.problem.people.filter(({ skills }) => skill === null || skills.includes(skill)).map(({ shifts }) => shifts);
    return [...(noStation ? [] : [{ what: `station ${kind} ${zone}`, calendars: stations }]), ...(crew === 0 ? [] : [{ what: `crew ${skill ?? ''}`, calendars: people }])];
  }

  /** Places that are large enough and hours that are dry enough are known by how many they are, as the largest and driest come first. */
  private dryingNeeds({ areaDm2, loadGPerSlot }: NonNullable<PlanStep['drying']>): Need[] {
    const { places, rooms } = this.problem;
    const dryEnough = rooms.map(({ removalGPerSlot }) => removalGPerSlot.filter(({ limit }) => limit >= loadGPerSlot));
    const large = places.filter((place) => place.areaDm2 >= areaDm2);
    return [
      { what: `places ${large.length}`, calendars: () => large.map(({ open }) => open) },
      { what: `air ${dryEnough.map(({ length }) => length).join(' ')}`, calendars: () => dryEnough.map(joined) },
    ];
  }

  /** For each slot the longest stretch that one of the calendars stays open from it on. */
  private runsOf({ what, calendars }: Need): Int32Array {
    const known = this.runs.get(what);
    if (known) return known;
    const run = new Int32Array(this.horizon);
    for (const calendar of new Map(calendars().map((one) => [JSON.stringify(one), one])).values()) {
      for (const { from, to } of calendar) {
        const end = Math.min(to, this.horizon);
        for (let slot = from; slot < end; slot += 1) run[slot] = Math.max(run[slot]!, end - slot);
      }
    }
    this.runs.set(what, run);
    return run;
  }
}

/** Something a step needs, by a name of its own, and the calendars of which one must be open. */
interface Need { what: string; calendars: () => Interval[][] }

/** Intervals that meet as one. */
function joined(intervals: readonly Interval[]): Interval[] {
  const list: Interval[] = [];
  for (const { from, to } of [...intervals].sort((a, b) => a.from - b.from)) {
    const last = list.at(-1);
    if (last && last.to >= from) last.to = Math.max(last.to, to);
    else list.push({ from, to });
  }
  return list;
}
