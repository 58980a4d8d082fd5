/** Who and what is taken in which slot, for the exhaustive search: entered, looked at, taken back. */
import type { FallingLoad, Interval, PlanProblem } from '#planning';

/** Use of one thing per slot against what there is of it. */
export class Account {
  readonly used: Int32Array;
  private readonly limits: string;

  constructor(readonly limit: Int32Array) {
    this.used = new Int32Array(limit.length);
    this.limits = limit.join();
  }

  fits(from: number, to: number, amount: number): boolean {
    if (from < 0 || to > this.limit.length) return false;
    for (let slot = from; slot < to; slot += 1) if (this.used[slot]! + amount > this.limit[slot]!) return false;
    return true;
  }

  enter(from: number, to: number, amount: number): void {
    for (let slot = Math.max(0, from); slot < Math.min(to, this.used.length); slot += 1) this.used[slot] = this.used[slot]! + amount;
  }

  /** Static and present state together: two accounts that read the same are interchangeable. */
  get key(): string {
    return `${this.limits};${this.used.join()}`;
  }
}

/** Load of a drying thing in the slot that many slots after its start. */
export function loadAt(drying: { loadGPerSlot: number; falling?: FallingLoad[] }, slots: number): number {
  let load = drying.loadGPerSlot;
  for (const entry of drying.falling ?? []) if (entry.fromSlot <= slots) load = entry.loadGPerSlot;
  return load;
}

/** All accounts of a problem with its fixed uses entered. */
export class Ledger {
  readonly people = new Map<string, Account>();
  readonly stations = new Map<string, Account>();
  readonly areas = new Map<string, Account>();
  readonly airs = new Map<string, Account>();
  readonly freezers = new Map<string, Account>();
  readonly services = new Map<string, Account>();
  /** How many things of each company lie at each drying place and in each freezer. */
  readonly lying = new Map<string, Map<string, Account>>();

  constructor(problem: PlanProblem) {
    const slots = problem.horizonSlots;
    const table = (amount: number, open: readonly Interval[]): Account => new Account(Int32Array.from({ length: slots }, (_, slot) => (open.some(({ from, to }) => from <= slot && slot < to) ? amount : -1)));
    for (const { id, shifts } of problem.people) this.people.set(id, table(1, shifts));
    for (const { id, capacity, open } of problem.stations) this.stations.set(id, table(capacity, open));
    for (const { id, areaDm2, open } of problem.places) this.areas.set(id, table(areaDm2, open));
    for (const { id, volumeCl, open } of problem.freezers) this.freezers.set(id, table(volumeCl, open));
    for (const { id, capacity, open } of problem.services ?? []) this.services.set(id, table(capacity, open));
    for (const { id, removalGPerSlot } of problem.rooms) {
      this.airs.set(id, new Account(Int32Array.from({ length: slots }, (_, slot) => removalGPerSlot.find(({ from, to }) => from <= slot && slot < to)?.limit ?? 0)));
    }
    for (const { id } of [...problem.places, ...problem.freezers]) {
      this.lying.set(id, new Map((problem.companies ?? []).map((company) => [company.id, new Account(new Int32Array(slots).fill(1_000))])));
    }
    this.enterFixed(problem);
  }

  /** What lies at a place, as one text. */
  lyingAt(id: string): string {
    return [...this.lying.get(id)!.values()].map(({ used }) => used.join()).join('/');
  }

  /** Everything that is taken, as one text. */
  get state(): string {
    return [this.people, this.stations, this.areas, this.airs, this.freezers, this.services].map((accounts) => [...accounts.values()].map(({ used }) => used.join()).join('/')).join('#') + [...this.lying.keys()].map((id) => this.lyingAt(id)).join('#');
  }

  private enterFixed(problem: PlanProblem): void {
    const roomOf = new Map(problem.places.map(({ id, roomId }) => [id, roomId]));
    for (const use of problem.fixed) {
      const { from, to } = use.interval;
      for (const id of use.personIds) this.people.get(id)?.enter(from, to, 1);
      if (use.stationId !== null) this.stations.get(use.stationId)?.enter(from, to, 1);
      if (use.freezerId !== null) this.freezers.get(use.freezerId)?.enter(from, to, use.volumeCl);
      if (use.company !== undefined) for (const id of [use.freezerId, use.dryingPlaceId]) if (id !== null) this.lying.get(id)?.get(use.company)?.enter(from, to, 1);
      if (use.dryingPlaceId === null) continue;
      this.areas.get(use.dryingPlaceId)?.enter(from, to, use.areaDm2);
      const air = this.airs.get(roomOf.get(use.dryingPlaceId)!);
      for (let slot = Math.max(0, from); slot < to; slot += 1) air?.enter(slot, slot + 1, loadAt(use, slot - from));
    }
  }
}
