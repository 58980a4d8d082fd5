/** Why there: what else could have served a planned step at its time, and why it did not. Read from the problem and the plan alone. */
import { stepsByItem } from './explain-moment.js';
import type { FallingLoad, FixedUse, Interval, Plan, PlanAssignment, PlanItem, PlanProblem, PlanStep } from './types.js';

/** Why another place does not serve a step at the time of the plan; `free` when it would. */
export type NotThere = 'barred' | 'too-small' | 'closed' | 'in-use' | 'company' | 'room-air' | 'free';

/** Another station, drying place or freezer for a planned step. */
export interface Alternative {
  kind: 'station' | 'drying-place' | 'freezer';
  id: string;
  because: NotThere;
}

/** A use of a resource; `amountAt` counts from its beginning. */
interface Use { interval: Interval; amountAt: (slot: number) => number; company?: string | undefined }

/** What is taken of every station, place, room and freezer but by one item. O(assignments). */
export class OthersUse {
  private readonly uses = new Map<string, Use[]>();
  private readonly items: ReadonlyMap<string, PlanItem>;
  private readonly roomOf: ReadonlyMap<string, string>;

  constructor(private readonly problem: PlanProblem, plan: Plan, exceptItemId: string) {
    this.items = new Map(problem.items.map((item) => [item.id, item]));
    this.roomOf = new Map(problem.places.map(({ id, roomId }) => [id, roomId]));
    // A batch takes one unit: that of the first of its things, and none that the item itself shares.
    const counted = new Set(plan.assignments.filter(({ itemId }) => itemId === exceptItemId).map(({ batchId }) => batchId ?? null));
    for (const steps of stepsByItem(plan.assignments).values()) {
      if (steps[0]!.itemId !== exceptItemId) for (const assignment of steps) this.enter(assignment, steps, counted);
    }
    for (const use of problem.fixed) if (use.itemId !== exceptItemId) this.enterFixed(use);
  }

  /** The most that others take of a resource in one slot of the interval. */
  mostOf(kind: 'station' | 'drying-place' | 'room' | 'freezer', id: string, { from, to }: Interval): number {
    const uses = (this.uses.get(`${kind} ${id}`) ?? []).filter(({ interval }) => interval.from < to && interval.to > from);
    return mostAtOnce(uses, from, to);
  }

  /** Whether something lies there in the interval that a company must not be with. */
  keepsAway(kind: 'drying-place' | 'freezer', id: string, company: string | undefined, { from, to }: Interval): boolean {
    if (company === undefined) return false;
    const closeness = kind === 'freezer' ? 'frozen' : (this.problem.places.find((place) => place.id === id)?.closeness ?? 'side-by-side');
    const { companies = [] } = this.problem;
    const lists = (one: string, other: string): boolean => companies.find((entry) => entry.id === one)?.notWith[closeness]?.includes(other) === true;
    return (this.uses.get(`${kind} ${id}`) ?? []).some(({ interval, company: there }) => there !== undefined && interval.from < to && interval.to > from && (lists(company, there) || lists(there, company)));
  }

  /** Whether a room's air can take a load in every slot of the interval. */
  canDry(roomId: string, { loadGPerSlot, falling }: { loadGPerSlot: number; falling?: FallingLoad[] }, { from, to }: Interval): boolean {
    const limits = this.problem.rooms.find(({ id }) => id === roomId)?.removalGPerSlot ?? [];
    const own = loadOf(loadGPerSlot, falling);
    const uses = (this.uses.get(`room ${roomId}`) ?? []).filter(({ interval }) => interval.from < to && interval.to > from);
    for (let slot = from; slot < to; slot += 1) {
      const limit = limits.find((entry) => entry.from <= slot && slot < entry.to)?.limit ?? 0;
      if (amountAt(uses, slot) + own(slot - from) > limit) return false;
    }
    return true;
  }

  private enter(assignment: PlanAssignment, ofItem: readonly PlanAssignment[], counted: Set<string | null>): void {
    const { itemId, position, stationId, dryingPlaceId, freezerId, startSlot, endSlot, batchId = null } = assignment;
    const interval = { from: startSlot, to: endSlot };
    const step = stepOf(this.items.get(itemId), assignment);
    if (stationId !== null && (batchId === null || !counted.has(batchId))) this.add('station', stationId, interval, () => 1);
    counted.add(batchId);
    if (dryingPlaceId !== null && step?.drying) this.addDrying(dryingPlaceId, step.drying, interval, step.company);
    const next = freezerId === null ? undefined : ofItem.find((one) => one.position === position + 1);
    if (freezerId !== null) this.add('freezer', freezerId, { from: endSlot, to: next?.startSlot ?? this.problem.horizonSlots }, () => step?.freezer?.volumeCl ?? 0, step?.company);
  }

  private enterFixed({ stationId, dryingPlaceId, areaDm2, loadGPerSlot, falling, freezerId, volumeCl, interval, company }: FixedUse): void {
    if (stationId !== null) this.add('station', stationId, interval, () => 1);
    if (dryingPlaceId !== null) this.addDrying(dryingPlaceId, { areaDm2, loadGPerSlot, falling }, interval, company);
    if (freezerId !== null) this.add('freezer', freezerId, interval, () => volumeCl, company);
  }

  private addDrying(placeId: string, { areaDm2, loadGPerSlot, falling }: { areaDm2: number; loadGPerSlot: number; falling?: FallingLoad[] | undefined }, interval: Interval, company: string | undefined): void {
    this.add('drying-place', placeId, interval, () => areaDm2, company);
    this.add('room', this.roomOf.get(placeId) ?? '', interval, loadOf(loadGPerSlot, falling));
  }

  private add(kind: string, id: string, interval: Interval, amount: Use['amountAt'], company?: string): void {
    const key = `${kind} ${id}`;
    const known = this.uses.get(key);
    if (known === undefined) this.uses.set(key, [{ interval, amountAt: amount, company }]);
    else known.push({ interval, amountAt: amount, company });
  }
}

/**
 * Other stations, drying places and freezers of the same site that do such a step, and why they do not serve it at its planned
 * time; people are not compared. In the order of their ids.
 */
export function alternativesOf(problem: PlanProblem, item: PlanItem, assignment: PlanAssignment, nextStart: number, others: OthersUse): Alternative[] {
  const step = stepOf(item, assignment);
  if (step === undefined) return [];
  const siteId = step.siteId ?? item.siteId;
  const interval = { from: assignment.startSlot, to: assignment.endSlot };
  const found = [
    ...(assignment.stationId === null ? [] : stationsFor(problem, step, siteId, interval, others)),
    ...(step.drying === null ? [] : placesFor(problem, { ...step.drying, company: step.company }, siteId, interval, others)),
    ...(step.freezer === null ? [] : freezersFor(problem, { need: step.freezer.volumeCl, company: step.company }, siteId, { from: interval.to, to: nextStart }, others)),
  ];
  const chosen = new Set([assignment.stationId, assignment.dryingPlaceId, assignment.freezerId]);
  return found.filter(({ id }) => !chosen.has(id)).sort((a, b) => (a.id < b.id ? -1 : 1));
}

function stationsFor({ stations }: PlanProblem, step: PlanStep, siteId: string, interval: Interval, others: OthersUse): Alternative[] {
  return stations
    .filter((station) => station.siteId === siteId && station.zone === step.zone && station.steps.some((kind) => kind === step.step))
    .map(({ id, open, capacity }) => {
      const isFull = others.mostOf('station', id, interval) >= capacity;
      return { kind: 'station', id, because: step.barredStationIds?.includes(id) === true ? 'barred' : !covers(open, interval) ? 'closed' : isFull ? 'in-use' : 'free' };
    });
}

function placesFor({ places, rooms }: PlanProblem, drying: NonNullable<PlanStep['drying']> & Pick<PlanStep, 'company'>, siteId: string, interval: Interval, others: OthersUse): Alternative[] {
  const here = new Set(rooms.filter((room) => room.siteId === siteId).map(({ id }) => id));
  const canDry = new Map([...here].map((id) => [id, others.canDry(id, drying, interval)]));
  return places.filter(({ roomId }) => here.has(roomId)).map(({ id, roomId, areaDm2, open }) => {
    const because = drying.areaDm2 > areaDm2 ? 'too-small'
      : !covers(open, interval) ? 'closed'
      : others.mostOf('drying-place', id, interval) + drying.areaDm2 > areaDm2 ? 'in-use'
      : others.keepsAway('drying-place', id, drying.company, interval) ? 'company'
      : canDry.get(roomId) === true ? 'free' : 'room-air';
    return { kind: 'drying-place', id, because };
  });
}

function freezersFor({ freezers }: PlanProblem, { need, company }: { need: number } & Pick<PlanStep, 'company'>, siteId: string, stay: Interval, others: OthersUse): Alternative[] {
  return freezers.filter((freezer) => freezer.siteId === siteId).map(({ id, volumeCl, open }) => {
    const because = need > volumeCl ? 'too-small' : !covers(open, stay) ? 'closed' : others.mostOf('freezer', id, stay) + need > volumeCl ? 'in-use' : others.keepsAway('freezer', id, company, stay) ? 'company' : 'free';
    return { kind: 'freezer', id, because };
  });
}

function stepOf(item: PlanItem | undefined, { option, position }: PlanAssignment): PlanStep | undefined {
  return item?.options[option]?.steps[position];
}

function covers(open: readonly Interval[], { from, to }: Interval): boolean {
  for (let slot = from; slot < to; slot += 1) if (!open.some((interval) => interval.from <= slot && slot < interval.to)) return false;
  return true;
}

function loadOf(loadGPerSlot: number, falling: readonly FallingLoad[] | undefined): (since: number) => number {
  return (since) => falling?.findLast(({ fromSlot }) => fromSlot <= since)?.loadGPerSlot ?? loadGPerSlot;
}

function amountAt(uses: readonly Use[], slot: number): number {
  return uses.reduce((sum, { interval, amountAt: of }) => (interval.from <= slot && slot < interval.to ? sum + of(slot - interval.from) : sum), 0);
}

/** Amounts only rise where a use begins, so it is enough to look there. */
function mostAtOnce(uses: readonly Use[], from: number, to: number): number {
  const beginnings = new Set([from, ...uses.map(({ interval }) => interval.from).filter((slot) => slot > from && slot < to)]);
  return Math.max(0, ...[...beginnings].map((slot) => amountAt(uses, slot)));
}
