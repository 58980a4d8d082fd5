import type { z } from 'zod';
import type { DryingListBody, StepReportBody } from '#contracts';
import { eachOf } from '../api-client.js';
import { DAY, PLAY } from '../calibration.js';
import { Dice } from '../dice.js';
import { MAIN_SITE } from '../world/region.js';
import type { Book, KnownItem, Site } from './book.js';
import type { Crew, Hands } from './crew.js';
import type { Outcomes } from './outcomes.js';
import { isNextFor } from './site-work.js';
import type { StepWork } from './step-work.js';
import type { Tally } from './tally.js';

type DryingList = z.output<typeof DryingListBody>;

const LIST_LENGTH = 100;
const HOUR_MS = 3_600_000;
/** Things dry sooner or later than reckoned; our guess at how much. */
const SPREAD_PERCENT = [70, 125] as const;
/** Things are hung this long before their planned moment at most. */
const AHEAD_MS = 30 * 60_000;
/** Hours on the rack of a thing whose drying nobody reckoned. */
const HOURS_UNKNOWN = 12;

/** The drying rooms of a site: things are hung where the plan has room for them and taken down when they are dry. */
export class Drying {
  private readonly hanging = new Map<string, { known: KnownItem; dryAtMs: number; hands: Hands | null }>();

  constructor(
    private readonly book: Book,
    private readonly site: Site,
    private readonly step: StepWork,
    private readonly outcomes: Outcomes,
    private readonly tally: Tally,
    private readonly seed: number,
    private readonly crew: Crew,
  ) {}

  async play(toMs: number): Promise<void> {
    const personId = this.crew.anybody('drying', toMs);
    if (personId === null) return;
    await this.takeDown(toMs);
    await this.hang(toMs, personId);
  }

  private async hang(atMs: number, personId: string): Promise<void> {
    const list = await this.book.api.get<DryingList>(`/v1/sites/${this.site.id}/drying-list?limit=${LIST_LENGTH}`);
    const room = this.freeAreaM2();
    await eachOf(list.toHang, PLAY.parallel, async (order) => {
      const known = this.book.items.get(order.itemId);
      if (!known || order.goesTo?.kind !== 'drying-place' || order.waitingForOwner || this.hanging.has(order.itemId) || !isNextFor(known, order)) return;
      if (known.item.stage === 'in-work' || known.item.stage === 'drying') return;
      // What the plan keeps for later would take the air of the room from what hangs now.
      if (order.plannedStart !== null && Date.parse(order.plannedStart) > atMs + AHEAD_MS) return;
      const placeId = this.takeArea(room, known.item.dryingAreaM2, order.goesTo.id);
      if (placeId === null) return;
      const hung = await this.step.pass(known, { kind: 'drying-started', to: { kind: 'drying-place', id: placeId }, personId, occurredAt: new Date(atMs).toISOString() });
      if (!hung) return;
      this.tally.count('hung to dry');
      this.hanging.set(order.itemId, { known, dryAtMs: this.dryAt(known, atMs, order.plannedStart, order.plannedEnd), hands: order.care });
    });
  }

  /** Square metres that are free on each place, by what the crews hung. */
  private freeAreaM2(): Map<string, number> {
    const free = new Map(this.site.dryingRooms.flatMap((room) => room.dryingPlaces.map((place): [string, number] => [place.id, place.areaM2])));
    for (const { item } of this.book.items.values()) if (item.keeper.kind === 'drying-place') free.set(item.keeper.id, (free.get(item.keeper.id) ?? 0) - item.dryingAreaM2);
    return free;
  }

  /** The planned place when it has room, else the smallest room that is enough; null when nothing is free. */
  private takeArea(free: Map<string, number>, areaM2: number, plannedId: string): string | null {
    const enough = [...free].filter(([, areaFree]) => areaFree >= areaM2 - 1e-9).sort(([a, freeA], [b, freeB]) => Number(b === plannedId) - Number(a === plannedId) || freeA - freeB);
    const chosen = enough[0];
    if (chosen === undefined) return null;
    free.set(chosen[0], chosen[1] - areaM2);
    return chosen[0];
  }

  /** When it will truly be dry: about as reckoned, and later by the hours in which the room's air took no water. */
  private dryAt(known: KnownItem, fromMs: number, plannedStart: string | null, plannedEnd: string | null): number {
    const reckonedMs = plannedStart !== null && plannedEnd !== null ? Date.parse(plannedEnd) - Date.parse(plannedStart) : HOURS_UNKNOWN * HOUR_MS;
    const trueMs = (reckonedMs * Dice.of(this.seed, 'dries', known.thing.key).int(SPREAD_PERCENT[0], SPREAD_PERCENT[1])) / 100;
    const endsAtMs = fromMs + trueMs;
    const meetsTrip = this.site.code === MAIN_SITE && fromMs < DAY.dehumidifierMendedAtMs && endsAtMs > DAY.dehumidifierTripsAtMs;
    return meetsTrip ? endsAtMs + (DAY.dehumidifierMendedAtMs - Math.max(fromMs, DAY.dehumidifierTripsAtMs)) : endsAtMs;
  }

  /** What is dry is taken down by somebody who knows such things; where nobody is there who does, it hangs on. */
  private async takeDown(atMs: number): Promise<void> {
    const dry = [...this.hanging.values()].filter(({ dryAtMs }) => dryAtMs <= atMs);
    await eachOf(dry, PLAY.parallel, async ({ known, hands }) => {
      const personId = hands === null ? this.crew.anybody('drying', atMs) : this.crew.somebody(hands, atMs);
      if (personId === null) return;
      this.hanging.delete(known.item.id);
      const outcome = this.outcomes.stepEnds(known.thing, 'dry', 1) === 'mould-found' ? 'mould-found' : 'done';
      try {
        const { body } = await this.book.api.post<z.output<typeof StepReportBody>>(`/v1/items/${known.item.id}/step-results`, { step: 'dry', outcome, personId, finishedAt: new Date(atMs).toISOString() });
        known.item = body.item;
        this.tally.count(outcome === 'done' ? 'step dry' : 'ended mould-found');
      } catch (error) {
        this.tally.refusal(error);
        await this.book.reread(known.item.id);
        if (known.item.stage === 'drying') await this.takeDownForAnotherLook(known, atMs, personId);
      }
    });
  }

  /** Its way has changed while it hung: it goes to the shelf of the dirty side, and the plan says what comes. */
  private async takeDownForAnotherLook(known: KnownItem, atMs: number, personId: string): Promise<void> {
    const shelf = this.site.holdingAreas.find((area) => area.zone === 'dirty');
    if (shelf) await this.step.pass(known, { kind: 'drying-ended', to: { kind: 'holding', id: shelf.id }, personId, occurredAt: new Date(atMs).toISOString() });
  }
}
