/** Stock-takes through the API: somebody begins one, people scan, differences are worked off. */
import { newId } from '#platform';
import { takeInManyTestItems } from '#testing';
import type { Workbench } from './workbench.js';

interface Place {
  kind: string;
  id: string;
}

export interface Counted {
  id: string;
  tag: string;
}

export interface Difference {
  id: string;
  kind: 'misplaced' | 'missing' | 'foreign';
  state: 'open' | 'settled';
  itemId: string | null;
  tag: string;
  standing: string | null;
  recorded: Place | null;
  seenPlace: Place | null;
  words: string;
  resolutions: string[];
}

export class StockTaking {
  constructor(readonly bench: Workbench) {}

  get lead(): string {
    return this.bench.incident.person('P1');
  }

  /** Shirts in the dirty waiting area, with their tags. */
  async shirts(count: number): Promise<Counted[]> {
    const { server, network, incident } = this.bench;
    const ids = await takeInManyTestItems(server, network, incident, await this.bench.household(), count);
    const { rows } = await server.admin.query<Counted>('select id, tag_code as tag from item where id = any($1::uuid[]) order by id', [ids]);
    return rows;
  }

  /** A tag of another network that was never ours: both count their tags from the same first one. */
  async foreignTag(): Promise<string> {
    const theirs = await this.bench.server.network();
    const { body } = await theirs.post(`/v1/incidents/${(await theirs.incident()).id}/tag-blocks`, { kind: 'item', count: 2_000, reservedFor: 'another network' }).expect(201);
    return body.tags.at(-1) as string;
  }

  start(what: { siteId?: string; places?: Place[]; personId?: string }) {
    return this.bench.network.post(`/v1/incidents/${this.bench.incident.id}/stock-takes`, { personId: this.lead, ...what });
  }

  async begin(places: Place[]): Promise<string> {
    return (await this.start({ places }).expect(201)).body.id as string;
  }

  seen(itemTag: string, place: Place, change: object = {}): Record<string, unknown> {
    return { scanId: newId(), itemTag, place, seenAt: new Date(this.bench.server.clock.nowMs()).toISOString(), personId: this.lead, ...change };
  }

  send(stockTakeId: string, scans: object[]) {
    return this.bench.network.post(`/v1/stock-takes/${stockTakeId}/scans`, { scans });
  }

  async read(stockTakeId: string) {
    return (await this.bench.network.get(`/v1/stock-takes/${stockTakeId}`).expect(200)).body;
  }

  async differences(stockTakeId: string): Promise<Difference[]> {
    return (await this.bench.network.get(`/v1/stock-takes/${stockTakeId}/differences?limit=200`).expect(200)).body.items as Difference[];
  }

  resolve(stockTakeId: string, differenceId: string, resolution: string, change: object = {}) {
    return this.bench.network.post(`/v1/stock-takes/${stockTakeId}/differences/${differenceId}/resolutions`, { resolution, personId: this.lead, reason: 'Looked at it', ...change });
  }

  close(stockTakeId: string) {
    return this.bench.network.post(`/v1/stock-takes/${stockTakeId}/closure`, { personId: this.lead });
  }
}
