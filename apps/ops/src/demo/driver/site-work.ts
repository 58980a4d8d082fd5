import type { z } from 'zod';
import type { WorkListBody, WorkOrderBody } from '#contracts';
import { eachOf } from '../api-client.js';
import { PLAY } from '../calibration.js';
import type { Book, KnownItem, Site } from './book.js';
import { handsFor, type Crew } from './crew.js';
import type { StepWork } from './step-work.js';

type WorkList = z.output<typeof WorkListBody>;
type WorkOrder = z.output<typeof WorkOrderBody>;

/** One step of one item in somebody's hands. */
export interface Job {
  known: KnownItem;
  order: WorkOrder;
  stationId: string;
  personIds: string[];
  startsAtMs: number;
  endsAtMs: number;
}

/** Longest list that a tablet asks for. */
const LIST_LENGTH = 60;
/** Minutes of a step of which the list says nothing; our guess. */
const MINUTES_UNKNOWN = 5;

/** The crews of one site: they read their lists, take what hands and tables allow, and report how it ended. */
export class SiteWork {
  private readonly inHand = new Map<string, Job>();
  /** Refused once; not tried again before there is a new plan. */
  private readonly putAside = new Set<string>();

  constructor(
    private readonly book: Book,
    private readonly site: Site,
    private readonly crew: Crew,
    private readonly step: StepWork,
  ) {}

  /** People went or a plan came: everything is looked at anew. */
  renew(): void {
    this.crew.renew(peopleOf(this.book, this.site));
    this.putAside.clear();
  }

  /** Plays the minutes from `fromMs` to `toMs`: what ends in them is reported, and new work is begun while hands are free. */
  async play(fromMs: number, toMs: number): Promise<void> {
    await this.finish([...this.inHand.values()].filter((job) => job.endsAtMs <= toMs));
    if (this.crew.isAnybodyThere(fromMs, toMs)) await this.begin(fromMs, toMs);
  }

  /** Lets go of everything that is still in hand: reports it done, or puts it back, before the crews go home. */
  async finish(jobs: readonly Job[] = [...this.inHand.values()]): Promise<void> {
    await eachOf(jobs, PLAY.parallel, async (job) => {
      this.inHand.delete(job.known.item.id);
      job.known.inHand = false;
      await this.step.end(job);
    });
  }

  private async begin(fromMs: number, toMs: number): Promise<void> {
    const lists: WorkList[] = [];
    await eachOf(this.site.stations, PLAY.parallel, async (station) => void lists.push(await this.book.api.get<WorkList>(`/v1/stations/${station.id}/work-list?limit=${LIST_LENGTH}`)));
    const jobs = this.choose(lists, fromMs, toMs);
    await eachOf(jobs, PLAY.parallel, async (job) => {
      if (!(await this.step.begin(job))) return void this.putAside.add(job.known.item.id);
      if (job.endsAtMs <= toMs) return this.step.end(job);
      this.inHand.set(job.known.item.id, job);
      job.known.inHand = true;
    });
  }

  /** In the order of the plan, over all stations, as hands allow. */
  private choose(lists: readonly WorkList[], fromMs: number, toMs: number): Job[] {
    const orders = lists.flatMap((list) => list.next.map((order) => ({ order, stationId: list.station.id }))).sort((a, b) => (a.order.plannedStart ?? '9').localeCompare(b.order.plannedStart ?? '9'));
    const room = new Map(this.site.stations.map((station) => [station.id, station.capacity - [...this.inHand.values()].filter((job) => job.stationId === station.id).length]));
    const taken = new Set<string>();
    const jobs: Job[] = [];
    for (const { order, stationId } of orders) {
      const known = this.book.items.get(order.itemId);
      if (!known || order.care === null || taken.has(order.itemId) || this.inHand.has(order.itemId) || this.putAside.has(order.itemId) || order.step === 'hand-back' || order.people?.workMinutesPerHour === 0) continue;
      if (order.waitingForOwner && order.step !== 'assess') continue;
      if (!isNextFor(known, order)) continue;
      const hands = this.crew.find(handsFor(order.care, order.people), order.crew.map(({ personId }) => personId), fromMs, toMs);
      if (hands === null) continue;
      const endsAtMs = hands.startsAtMs + Math.ceil(((order.minutes ?? MINUTES_UNKNOWN) + (order.people?.restMinutes ?? 0)) * 60_000);
      // A table that is full now may be free again within the quarter of an hour.
      if (endsAtMs > toMs && (room.get(stationId) ?? 0) <= 0) continue;
      if (endsAtMs > toMs) room.set(stationId, (room.get(stationId) ?? 0) - 1);
      this.crew.occupy(hands.personIds, endsAtMs);
      taken.add(order.itemId);
      jobs.push({ known, order, stationId, ...hands, endsAtMs });
    }
    return jobs;
  }
}

/** False when something was found since the plan was made, so that the item's own way now begins with another step. */
export function isNextFor({ item }: KnownItem, order: WorkOrder): boolean {
  return order.disposition !== item.disposition || item.nextStep === order.step;
}

/** The people of a site as the layout has them now. */
export function peopleOf(book: Book, site: Site) {
  return book.layout.people.filter((person) => person.siteId === site.id);
}
