import type { z } from 'zod';
import type { HouseholdBody } from '#contracts';
import { eachOf } from '../api-client.js';
import { DAY, PLAY } from '../calibration.js';
import type { DemoHousehold, DemoThing } from '../world/types.js';
import type { Book, Item } from './book.js';

/** The tables at the door: families one by one, and from ten o'clock the paper slips of the power cut. */
export class Doorway {
  private readonly waiting: { thing: DemoThing; atMs: number }[];
  private readonly registering = new Map<string, Promise<string>>();

  constructor(
    private readonly book: Book,
    things: readonly DemoThing[],
  ) {
    const slips = things.filter((thing) => thing.way === 'slip');
    const slipAt = new Map(slips.map((thing, index) => [thing.key, DAY.powerBackAtMs + Math.floor(((index + 1) * (DAY.slipsKeyedByMs - DAY.powerBackAtMs)) / (slips.length + 1))]));
    this.waiting = things.filter((thing) => thing.way !== 'file').map((thing) => ({ thing, atMs: slipAt.get(thing.key) ?? thing.arrivedAtMs })).sort((a, b) => a.atMs - b.atMs);
  }

  get left(): number {
    return this.waiting.length;
  }

  /** Takes in everybody who stood there until now. Answers how many things came in. */
  async takeInUntil(nowMs: number, told: (thing: DemoThing) => void): Promise<number> {
    const due = this.waiting.filter(({ atMs }) => atMs <= nowMs);
    this.waiting.splice(0, due.length);
    await eachOf(due, PLAY.parallel, async ({ thing }) => {
      await this.takeIn(thing);
      told(thing);
    });
    return due.length;
  }

  async takeIn(thing: DemoThing): Promise<Item> {
    const householdId = await this.household(thing.household);
    const { body } = await this.book.api.post<Item>(`/v1/incidents/${this.book.incidentId}/items`, {
      householdId, siteId: this.book.site(thing.site).id, tag: this.book.tags.get(thing.key), count: thing.count, description: thing.object, familyWords: thing.familyWords,
      photographRef: thing.photographRef, materialClass: thing.materialClass, sizeClass: thing.sizeClass, significance: thing.significance,
      // Slips are keyed in later: they say when the thing really came.
      arrivedAt: new Date(thing.arrivedAtMs).toISOString(), wettedAt: new Date(thing.wettedAtMs).toISOString(), water: 'black',
    });
    this.book.remember(thing, body);
    return body;
  }

  /** Registers the family once, however many of its things are written down at the same time. */
  private household(code: string): Promise<string> {
    const known = this.book.households.get(code);
    if (known !== undefined) return Promise.resolve(known);
    const registering = this.registering.get(code) ?? this.register(code);
    this.registering.set(code, registering);
    return registering;
  }

  private async register(code: string): Promise<string> {
    const family = this.book.families.get(code);
    if (!family) throw new Error(`no family ${code}`);
    const { body } = await this.book.api.post<z.output<typeof HouseholdBody>>(`/v1/incidents/${this.book.incidentId}/households`, { code, language: family.language, contact: family.contact, consents: consentsOf(family) });
    this.book.households.set(code, body.id);
    return body.id;
  }
}

/** What the family said at the door; nothing for what it was not asked. */
export function consentsOf(family: DemoHousehold): { scope: string; given: boolean; manner: 'spoken' }[] {
  return Object.entries(family.consents).flatMap(([scope, given]) => (given === null ? [] : [{ scope, given: given as boolean, manner: 'spoken' as const }]));
}
