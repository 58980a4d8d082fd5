import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { reserveTestTags, startTestServer, type TestServer } from '#testing';
import { scanWorld } from '../support/scans.js';

let server: TestServer;
let world: Awaited<ReturnType<typeof scanWorld>>;
beforeAll(async () => {
  server = await startTestServer();
  world = await scanWorld(server);
});
afterAll(() => server.close());

const contents = async (query: string) => (await world.network.get(`/v1/incidents/${world.incident.id}/contents?${query}`).expect(200)).body as { items: { thing: string; id: string; depth: number }[]; nextCursor: string | null };

test('everything at a shelf, with what is in the boxes there, by pages without gap or repetition', async () => {
  const tags = await reserveTestTags(world.network, world.incident, 2, 'container');
  const box = async (tag: string | undefined) => (await world.network.post(`/v1/incidents/${world.incident.id}/containers`, { siteId: world.incident.site(), tag, kind: 'box', description: 'Box' }).expect(201)).body as { id: string; tag: string };
  const [inner, outer] = [await box(tags[0]), await box(tags[1])];
  const [lying, boxed, deep, elsewhere] = [await world.item(), await world.item(), await world.item(), await world.item()];
  const of = (containerTag: string, place: object) => ({ ...world.scan('', place), itemTag: null, containerTag });
  const results = await world.send(
    world.scan(lying.tag, world.a), world.scan(boxed.tag, { kind: 'container', id: outer.id }), world.scan(deep.tag, { kind: 'container', id: inner.id }), of(inner.tag, { kind: 'container', id: outer.id }), of(outer.tag, world.a), world.scan(elsewhere.tag, world.b),
  );
  expect(results.map(({ verdict }) => verdict)).toEqual(Array(6).fill('applied'));
  const all = await contents(`placeKind=shelf&placeId=${world.a.id}`);
  const expected = [[lying.id, 'item', 1], [boxed.id, 'item', 2], [deep.id, 'item', 3], [outer.id, 'container', 1], [inner.id, 'container', 2]];
  expect(all.items.map(({ id, thing, depth }) => [id, thing, depth])).toEqual(expected.sort((x, y) => (String(x[0]) < String(y[0]) ? -1 : 1)));
  const paged: string[] = [];
  let cursor: string | null = '';
  while (cursor !== null) {
    const page: Awaited<ReturnType<typeof contents>> = await contents(`placeKind=shelf&placeId=${world.a.id}&limit=2${cursor === '' ? '' : `&cursor=${encodeURIComponent(cursor)}`}`);
    paged.push(...page.items.map(({ id }) => id));
    cursor = page.nextCursor;
  }
  expect(paged).toEqual(all.items.map(({ id }) => id));
  expect((await contents(`placeTag=${outer.tag}`)).items.map(({ id }) => id).sort()).toEqual([boxed.id, deep.id, inner.id].sort());
});

test('a place is named by its tag or by kind and id, never by both, and never by a tag of something else', async () => {
  const item = await world.item();
  const get = (query: string) => world.network.get(`/v1/incidents/${world.incident.id}/contents?${query}`);
  for (const query of ['', `placeKind=shelf`, `placeTag=${item.tag}&placeKind=shelf&placeId=${world.a.id}`]) expect((await get(query).expect(400)).body.code).toBe('validation_failed');
  expect((await get(`placeTag=${item.tag}`).expect(422)).body.code).toBe('tag_invalid');
  expect((await get('placeTag=KXXX').expect(422)).body.code).toBe('tag_invalid');
  expect((await get(`placeKind=shelf&placeId=${item.id}`).expect(422)).body).toMatchObject({ code: 'reference_unknown', errors: [{ parameter: 'placeId' }] });
});
