import type { z } from 'zod';
import type { ItemBody, LayoutBody } from '#contracts';
import type { ApiClient } from '../api-client.js';
import type { LastWetting } from '../world/true-goods.js';
import type { DemoHousehold, DemoThing, NetworkKey, SiteCode } from '../world/types.js';

export type Item = z.output<typeof ItemBody>;
export type Layout = z.output<typeof LayoutBody>;
export type Site = Layout['sites'][number];

/** A thing that was taken in, as the crews know it: what the last answer about it said. */
export interface KnownItem {
  thing: DemoThing;
  item: Item;
  /** Somebody has it in hand, whether or not it changed keepers for that. */
  inHand: boolean;
  /** What was done to it with water last. */
  wetting: LastWetting;
}

/** What the crews of one network have in their heads and on their tablets. */
export class Book {
  layout!: Layout;
  /** By item id. */
  readonly items = new Map<string, KnownItem>();
  readonly byThing = new Map<string, KnownItem>();
  /** Ids by household code. */
  readonly households = new Map<string, string>();
  readonly tags = new Map<string, string>();

  constructor(
    readonly network: NetworkKey,
    readonly networkId: string,
    readonly key: string,
    readonly api: ApiClient,
    readonly incidentId: string,
    readonly families: ReadonlyMap<string, DemoHousehold>,
  ) {}

  async readLayout(): Promise<void> {
    this.layout = await this.api.get<Layout>(`/v1/incidents/${this.incidentId}/layout`);
  }

  site(code: SiteCode): Site {
    const site = this.layout.sites.find((candidate) => candidate.code === code);
    if (!site) throw new Error(`the layout has no site ${code}`);
    return site;
  }

  remember(thing: DemoThing, item: Item): KnownItem {
    const known: KnownItem = { thing, item, inHand: false, wetting: 'none' };
    this.items.set(item.id, known);
    this.byThing.set(thing.key, known);
    return known;
  }

  /** What an answer says about an item replaces what was known. */
  update(item: Item): void {
    const known = this.items.get(item.id);
    if (known) known.item = item;
  }

  /** Reads an item anew, after a refusal that says that somebody else was faster. */
  async reread(itemId: string): Promise<KnownItem | null> {
    const known = this.items.get(itemId);
    if (known) known.item = await this.api.get<Item>(`/v1/items/${itemId}`);
    return known ?? null;
  }
}
