/** What specialists can take, as the planner takes it: things on a bench, and what lies there now. */
import type { FixedUse, PlanService, PlanStep } from '#planning';
import type { InputItem, InputSpecialist, PlanInput } from '../ports/plan-input.js';
import { amount, byId, type SlotGrid } from './slots.js';

/** Ways to specialists that an item gets: more would make plans slower and none better. Our own choice. */
const MOST_TAKERS = 3;

/** A thing that is with a specialist, and in which slots its work is reckoned. */
interface Stay {
  itemId: string;
  from: number;
  to: number;
}

/** Benches of those of whom it is known what they can take. */
export class Benches {
  private readonly known: readonly InputSpecialist[];
  private readonly longest: number;

  /** The input's specialists; all others are as if nobody had named them. */
  constructor({ specialists = [] }: Pick<PlanInput, 'specialists'>, private readonly grid: SlotGrid, windowSlots: number) {
    this.known = [...specialists].sort(byId);
    // A step ends within the horizon. What takes longer than this may still begin in the first half of the window, and nothing comes after it in the window.
    this.longest = Math.max(1, grid.horizonSlots - Math.floor(windowSlots / 2));
  }

  /** In id order. A bench without stated hours is at hand throughout, days for drying included: nobody of the hall is needed there. */
  services(): PlanService[] {
    const { grid } = this;
    return this.known.map(({ id, piecesAtOnce, openings }) => ({
      id, kind: 'specialist', capacity: amount(piecesAtOnce), open: openings.length === 0 ? [{ from: 0, to: grid.horizonSlots }] : grid.inside(openings),
    }));
  }

  /** Ids of those who take the item, the first by their codes. Of what nobody has named the material only those who take everything do. */
  takersOf({ materialClass }: Pick<InputItem, 'materialClass'>): string[] {
    return this.known
      .filter(({ materialClasses }) => materialClasses.length === 0 || (materialClass !== undefined && materialClasses.includes(materialClass)))
      .sort((a, b) => (a.code < b.code ? -1 : a.code > b.code ? 1 : byId(a, b)))
      .slice(0, MOST_TAKERS)
      .map(({ id }) => id);
  }

  /** The step of an item that is with the specialist, but for its kind and zone. */
  stepAt(specialistId: string, { count }: Pick<InputItem, 'count'>): Omit<PlanStep, 'step' | 'zone' | 'stabilises'> {
    const specialist = this.known.find(({ id }) => id === specialistId);
    if (specialist === undefined) throw new RangeError(`No specialist ${specialistId} whose time is known.`);
    return { durationSlots: this.slotsOf(specialist, count), noStation: true, services: [{ serviceId: specialistId, units: 1 }], crew: 0, skill: null, barredRestrictions: [], drying: null, freezer: null };
  }

  /**
   * What lies on the benches now. One thing after the other in the order in which they were sent, each on the place that is free
   * first; a thing whose time is over holds no place, even if it has not come back yet.
   */
  present(): FixedUse[] {
    return this.known.flatMap((specialist) => this.staysOf(specialist).map(({ itemId, from, to }): FixedUse => ({
      itemId, step: 'refer', stationId: null, personIds: [], dryingPlaceId: null, areaDm2: 0, loadGPerSlot: 0, freezerId: null, volumeCl: 0,
      services: [{ serviceId: specialist.id, units: 1 }], interval: { from: Math.max(0, from), to: Math.min(this.grid.horizonSlots, to) },
    }))).filter(({ interval }) => interval.from < interval.to);
  }

  private staysOf(specialist: InputSpecialist): Stay[] {
    const freeFrom = Array.from({ length: amount(specialist.piecesAtOnce) }, () => Number.NEGATIVE_INFINITY);
    const sent = [...(specialist.there ?? [])].sort((a, b) => a.sinceMs - b.sinceMs || (a.itemId < b.itemId ? -1 : 1));
    return sent.map(({ itemId, count, sinceMs }) => {
      const place = freeFrom.indexOf(Math.min(...freeFrom));
      const from = Math.max(this.grid.floor(sinceMs), freeFrom[place] ?? 0);
      const to = from + Math.ceil((specialist.hoursPerPiece * 60 * count) / this.grid.slotMinutes);
      freeFrom[place] = to;
      return { itemId, from, to };
    });
  }

  private slotsOf({ hoursPerPiece }: InputSpecialist, count: number): number {
    return Math.min(this.longest, this.grid.taking(hoursPerPiece * 60 * count));
  }
}
