import type { z } from 'zod';
import type { IncidentBody, TagBlockBody } from '#contracts';
import { ApiClient, type Traffic } from '../api-client.js';
import { createNetwork } from '../../networks.js';
import { incidentDocument } from '../world/incident-document.js';
import { NETWORKS } from '../world/region.js';
import type { DemoWorld, NetworkKey } from '../world/types.js';
import { Book } from './book.js';

/** Tags that are printed beyond what comes: lost, torn, or kept for the night. */
const SPARE_TAGS = 20;

/** Makes the two networks, registers their incidents from one document each, and hands out printed tags. */
export async function setUp(ownerUrl: string, urls: readonly string[], world: DemoWorld, traffic: Traffic): Promise<Book[]> {
  const books: Book[] = [];
  for (const network of Object.keys(NETWORKS) as NetworkKey[]) {
    const { networkId, key } = await createNetwork(ownerUrl, NETWORKS[network].name);
    const api = new ApiClient(urls, key, traffic);
    const { body: incident } = await api.post<z.output<typeof IncidentBody>>('/v1/incidents', incidentDocument(network, world.seed, world.scale));
    const families = new Map(world.households.filter((household) => household.network === network).map((household) => [household.code, household]));
    const book = new Book(network, networkId, key, api, incident.id, families);
    await book.readLayout();
    await reserveTags(book, world);
    books.push(book);
  }
  return books;
}

async function reserveTags(book: Book, world: DemoWorld): Promise<void> {
  for (const site of book.layout.sites) {
    const things = [...world.things, world.lateLot].filter((thing) => thing.network === book.network && thing.site === site.code);
    const { body } = await book.api.post<z.output<typeof TagBlockBody>>(`/v1/incidents/${book.incidentId}/tag-blocks`, { kind: 'item', count: things.length + SPARE_TAGS, reservedFor: `Doorway of ${site.name}` });
    things.forEach((thing, index) => book.tags.set(thing.key, body.tags[index] ?? ''));
  }
}
