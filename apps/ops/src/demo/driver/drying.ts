import type { z } from 'zod';
import type { DryingListBody, StepReportBody } from '#contracts';
import { eachOf } from '../api-client.js';
import { PLAY, ROOM_TRUTH } from '../calibration.js';
import { trueGoods, type Arrangement } from '../world/true-goods.js';
import type { TrueRoom } from '../world/true-room.js';
import type { Book, KnownItem, Site } from './book.js';
import type { Crew, Hands } from './crew.js';
import type { Outcomes } from './outcomes.js';
import type { Scales } from './scales.js';
import { isNextFor } from './site-work.js';
import type { StepWork } from './step-work.js';
import type { Tally } from './tally.js';

type DryingList = z.output<typeof DryingListBody>;

const LIST_LENGTH = 100;
/** Things are hung this long before their planned moment at most. */
const AHEAD_MS = 30 * 60_000;

/** What Drying needs of the day. */
export interface DryingParts {
  book: Book;
  site: Site;
  step: StepWork;
  outcomes: Outcomes;
  tally: Tally;
  seed: number;
  crew: Crew;
  /** The air and the water of the room as they truly are: things dry by them, whatever was planned or reckoned. */
  truth: TrueRoom;
  scales: Scales;
}

/** The drying rooms of a site: things are hung where the plan has room for them, weighed now and then, and taken down when they are dry. */
export class Drying {
  private readonly hanging = new Map<string, { known: KnownItem; hands: Hands | null }>();
  private readonly book: Book;
  private readonly site: Site;
  private readonly tally: Tally;

  constructor(private readonly parts: DryingParts) {
    ({ book: this.book, site: this.site, tally: this.tally } = parts);
  }

  /** Ids of what hangs here by the crews' own count. */
  get itemIds(): ReadonlySet<string> {
    return new Set([...this.hanging].flatMap(([itemId, { known }]) => (known.item.keeper.kind === 'drying-place' ? [itemId] : [])));
  }

  /** `weighs`: the crew goes round with the scale, too. */
  async play(toMs: number, weighs: boolean): Promise<void> {
    this.noticeGone();
    const personId = this.parts.crew.anybody('drying', toMs);
    if (personId === null) return;
    await this.takeDown(toMs);
    await this.hang(toMs, personId);
    if (weighs) await this.parts.scales.round([...this.hanging.values()].map(({ known }) => known), toMs, personId);
  }

  /** What somebody took from the rack to hand it to a courier or let it go. */
  private noticeGone(): void {
    for (const [itemId, { known }] of this.hanging) if (known.item.keeper.kind !== 'drying-place') this.gone(itemId);
  }

  private gone(itemId: string): void {
    this.hanging.delete(itemId);
    this.parts.truth.take(itemId);
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
      const chosenId = this.takeArea(room, known.item.dryingAreaM2, order.goesTo.id);
      if (chosenId === null) return;
      const placeId = await this.parts.step.passWhereItMay(known, { kind: 'drying-started', to: { kind: 'drying-place', id: chosenId }, personId, occurredAt: new Date(atMs).toISOString() });
      if (placeId !== chosenId) this.giveArea(room, known.item.dryingAreaM2, chosenId, placeId);
      if (placeId === null) return;
      this.tally.count('hung to dry');
      this.hanging.set(order.itemId, { known, hands: order.care });
      this.parts.truth.hang(trueGoods(this.parts.seed, known.thing, known.item.id, { arrangement: this.arrangementOf(placeId), wetting: known.wetting, count: known.item.count }));
      await this.parts.scales.hung(known, atMs, personId);
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

  /** It went elsewhere, or nowhere. */
  private giveArea(free: Map<string, number>, areaM2: number, chosenId: string, placeId: string | null): void {
    free.set(chosenId, (free.get(chosenId) ?? 0) + areaM2);
    if (placeId !== null) free.set(placeId, (free.get(placeId) ?? 0) - areaM2);
  }

  private arrangementOf(placeId: string): Arrangement {
    return this.site.dryingRooms.flatMap((room) => room.dryingPlaces).find(({ id }) => id === placeId)?.arrangement ?? 'rack';
  }

  /** Dry to the touch and by weight. */
  private isDry(itemId: string): boolean {
    const water = this.parts.truth.waterOf(itemId);
    return water !== null && water.moistureX <= water.targetX + ROOM_TRUTH.touchDryX;
  }

  /** What is dry is taken down by somebody who knows such things; where nobody is there who does, it hangs on. */
  private async takeDown(atMs: number): Promise<void> {
    const dry = [...this.hanging.values()].filter(({ known }) => this.isDry(known.item.id));
    await eachOf(dry, PLAY.parallel, async ({ known, hands }) => {
      const personId = hands === null ? this.parts.crew.anybody('drying', atMs) : this.parts.crew.somebody(hands, atMs);
      if (personId === null) return;
      const outcome = this.parts.outcomes.stepEnds(known.thing, 'dry', 1) === 'mould-found' ? 'mould-found' : 'done';
      try {
        const { body } = await this.book.api.post<z.output<typeof StepReportBody>>(`/v1/items/${known.item.id}/step-results`, { step: 'dry', outcome, personId, finishedAt: new Date(atMs).toISOString() });
        known.item = body.item;
        this.parts.scales.taken(known.item.id);
        this.tally.count(outcome === 'done' ? 'step dry' : 'ended mould-found');
      } catch (error) {
        this.tally.refusal(error);
        await this.book.reread(known.item.id);
        if (known.item.stage === 'drying') await this.takeDownForAnotherLook(known, atMs, personId);
      }
      if (known.item.keeper.kind !== 'drying-place') this.gone(known.item.id);
    });
  }

  /** Its way has changed while it hung: it goes to the shelf of the dirty side, and the plan says what comes. */
  private async takeDownForAnotherLook(known: KnownItem, atMs: number, personId: string): Promise<void> {
    const shelf = this.site.holdingAreas.find((area) => area.zone === 'dirty');
    if (shelf) await this.parts.step.pass(known, { kind: 'drying-ended', to: { kind: 'holding', id: shelf.id }, personId, occurredAt: new Date(atMs).toISOString() });
  }
}
