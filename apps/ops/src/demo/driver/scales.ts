import type { z } from 'zod';
import type { WeighingBody } from '#contracts';
import { eachOf } from '../api-client.js';
import { MEASURING, PLAY } from '../calibration.js';
import { Dice } from '../dice.js';
import type { TrueRoom, TrueWater } from '../world/true-room.js';
import { rounded } from '../world/weather.js';
import type { Book, KnownItem } from './book.js';
import type { Tally } from './tally.js';

const HOUR_MS = 3_600_000;
/** Smallest step by weight: a letter scale, a kitchen scale, a hanging scale. */
const STEPS_KG: readonly [upToKg: number, stepKg: number][] = [[0.5, 0.001], [5, 0.01], [Infinity, 0.05]];
/** What is lighter is not worth the scale: a single print. */
const LIGHTEST_KG = 0.05;
/** Board or tub under the thing, in steps of a hundred grams. */
const TARE_HG = [2, 6] as const;

/** The scale of one drying room: some things are weighed when they are hung and again every few hours. */
export class Scales {
  /** When each thing was weighed last, by item id, and how often. */
  private readonly weighed = new Map<string, { atMs: number; times: number }>();
  /** Water that weighed things truly held when they were taken down, by item id. */
  readonly takenDown = new Map<string, TrueWater>();

  constructor(
    private readonly book: Book,
    private readonly truth: TrueRoom,
    private readonly seed: number,
    private readonly scale: number,
    private readonly tally: Tally,
  ) {}

  /** One in ten; in a small day more. */
  private isChosen(known: KnownItem): boolean {
    return Dice.of(this.seed, 'weigh', known.thing.key).chance(Math.min(0.4, Math.max(MEASURING.weighedShare, 0.02 / this.scale)));
  }

  has(itemId: string): boolean {
    return this.weighed.has(itemId);
  }

  /** The thing that was weighed most often, of those that became dry if there are any; null when none was weighed. */
  mostWeighed(): string | null {
    return [...this.weighed].sort(([a, { times: timesA }], [b, { times: timesB }]) => Number(this.takenDown.has(b)) - Number(this.takenDown.has(a)) || timesB - timesA)[0]?.[0] ?? null;
  }

  /** Weighs a thing that was just hung, if it is one of those. */
  async hung(known: KnownItem, atMs: number, personId: string): Promise<void> {
    if (this.isChosen(known) && (this.truth.waterOf(known.item.id)?.dryKg ?? 0) >= LIGHTEST_KG) await this.weigh(known, atMs, personId);
  }

  /** Remembers how a weighed thing truly was when it left the rack. */
  taken(itemId: string): void {
    const water = this.truth.waterOf(itemId);
    if (water !== null && this.has(itemId)) this.takenDown.set(itemId, water);
  }

  /** A round over the racks: what was weighed some hours ago goes on the scale again. */
  async round(hanging: readonly KnownItem[], atMs: number, personId: string): Promise<void> {
    const due = hanging.filter(({ item }) => atMs - (this.weighed.get(item.id)?.atMs ?? Infinity) >= MEASURING.weighAgainAfterH * HOUR_MS);
    await eachOf(due, PLAY.parallel, (known) => this.weigh(known, atMs, personId));
  }

  private async weigh(known: KnownItem, atMs: number, personId: string): Promise<void> {
    const water = this.truth.waterOf(known.item.id);
    if (water === null) return;
    const dice = Dice.of(this.seed, 'scale', known.thing.key, atMs);
    const massKg = water.dryKg * (1 + water.moistureX);
    const tareKg = dice.int(TARE_HG[0], TARE_HG[1]) / 10;
    const stepKg = STEPS_KG.find(([upToKg]) => massKg + tareKg <= upToKg)?.[1] ?? 0.05;
    const shownKg = Math.max(1, Math.round((massKg + tareKg) / stepKg) + dice.int(-1, 1)) * stepKg;
    this.weighed.set(known.item.id, { atMs, times: (this.weighed.get(known.item.id)?.times ?? 0) + 1 });
    try {
      const { body } = await this.book.api.post<z.output<typeof WeighingBody>>(`/v1/items/${known.item.id}/weighings`, {
        scaleKg: rounded(shownKg, 3), tareKg, resolutionKg: stepKg, weighedAt: new Date(atMs).toISOString(), personId, dryingPlaceId: known.item.keeper.kind === 'drying-place' ? known.item.keeper.id : null,
      });
      this.tally.count(body.state === 'accepted' ? 'weighings' : 'weighings asked about');
    } catch (error) {
      this.tally.refusal(error);
    }
  }
}
