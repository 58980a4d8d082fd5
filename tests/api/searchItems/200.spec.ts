import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import { reserveTestTags, startTestServer, type TestServer } from '#testing';
import { scanWorld } from '../support/scans.js';

interface Hit {
  itemId: string;
  foundBy: string;
  where: string;
  way: { keeper: { kind: string; id: string }; code: string; name: string; site: string | null }[];
  warnings: string[];
  since: string;
  lastSeenAt: string;
}

let server: TestServer;
let world: Awaited<ReturnType<typeof scanWorld>>;
beforeAll(async () => {
  server = await startTestServer();
  world = await scanWorld(server);
});
afterAll(() => server.close());

const ask = async (q: string, language = 'en', network: Pick<typeof world.network, 'get'> = world.network, incidentId = world.incident.id) =>
  (await network.get(`/v1/incidents/${incidentId}/item-search?q=${encodeURIComponent(q)}`, { 'accept-language': language }).expect(200)).body as { hits: Hit[]; more: boolean };
const found = async (q: string) => (await ask(q)).hits.map(({ itemId, foundBy }) => [itemId, foundBy]);

describe('one question finds a thing', () => {
  test('by its tag, and by a tag with one slip', async () => {
    const item = await world.item({ description: 'Christening gown' });
    expect(await found(item.tag)).toEqual([[item.id, 'tag']]);
    expect(await found(item.tag.toLowerCase().replaceAll('-', ''))).toEqual([[item.id, 'tag']]);
    const wrong = `${item.tag.slice(0, 1)}${item.tag[1] === 'B' ? 'C' : 'B'}${item.tag.slice(2)}`;
    expect(await found(wrong)).toContainEqual([item.id, 'nearest-tag']);
  });

  test('by the code of its household', async () => {
    const item = await world.item({ description: 'Samovar' });
    expect(await found(world.household.code)).toContainEqual([item.id, 'household']);
  });

  test('by words of its description and of what the family tells, in any order, without accents, by their beginning, in any script', async () => {
    const item = await world.item({ description: 'Émigré trunk, green', familyWords: 'Großmutter carried it over the bridge. 祖母的箱子 Бабушкин сундук' });
    for (const q of ['emigre', 'ÉMIGRÉ trunk', 'green trunk', 'bridge trunk', 'trunk gre', '祖母的', 'бабушкин', 'GROSSMUTTER'.replace('SS', 'ß')]) expect([q, await found(q)]).toEqual([q, [[item.id, 'words']]]);
    expect(await found('trunk red')).toEqual([]);
  });

  test('by the day of its photograph, told or standing in the name of the file', async () => {
    const told = await world.item({ description: 'Album', photographedOn: '2026-05-07' });
    const named = await world.item({ description: 'Ledger', photographRef: 'IMG_20260507_1203.jpg' });
    expect((await ask('2026-05-07')).hits.map(({ itemId }) => itemId).sort()).toEqual([told.id, named.id].sort());
    expect(await found('7.5.2026 album')).toEqual([[told.id, 'words']]);
    await world.network.patch(`/v1/items/${told.id}`, { photographedOn: '2026-05-06' }, { 'if-match': `"${told.version}"` }).expect(200);
    expect(await found('2026-05-07 album')).toEqual([]);
    expect(await found('album 2026-05-06')).toEqual([[told.id, 'words']]);
  });

  test('by no word that was taken out again', async () => {
    const item = await world.item({ description: 'Accordion' });
    await world.network.patch(`/v1/items/${item.id}`, { description: 'Concertina' }, { 'if-match': `"${item.version}"` }).expect(200);
    expect(await found('accordion')).toEqual([]);
    expect(await found('concertina')).toEqual([[item.id, 'words']]);
  });

  test('newest first, and says so when there are more than it lists', async () => {
    const items = [];
    for (let index = 0; index < 3; index += 1) items.push(await world.item({ description: 'Metronome' }));
    const { body } = await world.network.get(`/v1/incidents/${world.incident.id}/item-search?q=metronome&limit=2`).expect(200);
    expect(body.hits.map((hit: Hit) => hit.itemId)).toEqual([items[2]?.id, items[1]?.id]);
    expect(body.more).toBe(true);
    expect((await ask('metronome')).more).toBe(false);
  });
});

describe('the answer says where it is', () => {
  test('through a box in a box in a van, in words and by ids, with since when and when it was last seen', async () => {
    const tags = await reserveTestTags(world.network, world.incident, 2, 'container');
    const box = async (tag: string | undefined, description: string) => (await world.network.post(`/v1/incidents/${world.incident.id}/containers`, { siteId: world.incident.site(), tag, kind: 'box', description }).expect(201)).body as { id: string; tag: string };
    const [inner, outer] = [await box(tags[0], 'Small box'), await box(tags[1], 'Crate')];
    const item = await world.item({ description: 'Barometer' });
    const at = (minutes: number) => new Date(server.clock.nowMs() + minutes * 60_000).toISOString();
    const of = (containerTag: string, place: object) => ({ ...world.scan('', place), itemTag: null, containerTag });
    const results = await world.send(world.scan(item.tag, { kind: 'container', id: inner.id }, { baseSeq: 1, seenAt: at(1) }), of(inner.tag, { kind: 'container', id: outer.id }), of(outer.tag, world.van));
    expect(results.map(({ verdict }) => verdict)).toEqual(['applied', 'applied', 'applied']);
    const [hit] = (await ask('barometer')).hits;
    expect(hit).toMatchObject({ where: `In the container ${inner.tag} (Small box). In the container ${outer.tag} (Crate). In the vehicle White van.`, since: at(1), warnings: [] });
    expect(hit?.way.map(({ keeper }) => keeper)).toEqual([{ kind: 'container', id: inner.id }, { kind: 'container', id: outer.id }, world.van]);
    expect((await ask('barometer', 'es')).hits[0]?.where).toBe(`En el recipiente ${inner.tag} (Small box). En el recipiente ${outer.tag} (Crate). En el vehículo White van.`);
  });

  test('on a shelf with its site; and warns of what is open', async () => {
    const item = await world.item({ description: 'Harmonium' });
    await world.send(world.scan(item.tag, world.a, { baseSeq: 1 }));
    await world.send(world.scan(item.tag, world.b, { baseSeq: 1 }));
    expect((await ask('harmonium')).hits[0]).toMatchObject({ where: 'On the shelf Shelf A, Weir Lane hall.', warnings: ['Another report says that it is elsewhere: go and look before you rely on this.'], locationDisputed: true });
  });
});

describe('nothing is found', () => {
  test('of another network or another incident, by tag, household, word or day', async () => {
    const [other, second] = [await scanWorld(server), await world.network.incident()];
    const theirs = await other.item({ description: 'Zither of the others', photographedOn: '2026-04-01' });
    const limited = world.network.as(await world.network.newKey({ incidentId: second.id }));
    await world.item({ description: 'Zither of ours', photographedOn: '2026-04-01' });
    for (const q of [theirs.tag, other.household.code, 'others', '2026-04-01 others']) expect((await ask(q)).hits.map(({ itemId }) => itemId)).not.toContain(theirs.id);
    for (const q of ['zither', '2026-04-01', world.household.code]) expect(await ask(q, 'en', world.network, second.id)).toEqual({ hits: [], more: false });
    await limited.get(`/v1/incidents/${world.incident.id}/item-search?q=zither`).expect(404);
    expect((await limited.get(`/v1/incidents/${second.id}/item-search?q=zither`).expect(200)).body).toEqual({ hits: [], more: false });
  });

  test('for a question of nothing but signs; and it does no harm', async () => {
    for (const q of ['---', "'; drop table item; --", '%', '_', '\\', '(((', 'a'.repeat(200), '🧵']) expect((await world.network.get(`/v1/incidents/${world.incident.id}/item-search?q=${encodeURIComponent(q)}`)).status).toBe(200);
  });
});
