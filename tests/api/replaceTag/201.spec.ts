import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { type IncidentOnTest, reserveTestTags, startTestServer, takeInTestHousehold, takeInTestItem, type TestNetwork, type TestServer } from '#testing';

let server: TestServer;
let network: TestNetwork;
let incident: IncidentOnTest;
beforeAll(async () => {
  server = await startTestServer();
  network = await server.network();
  incident = await network.incident();
});
afterAll(() => server.close());

const look = async (tag: string) => (await network.get(`/v1/tags/${tag}`).expect(200)).body;

test('an item goes by its new tag, its custody record says so, and the old code leads to it for ever', async () => {
  const item = await takeInTestItem(network, incident, await takeInTestHousehold(network, incident));
  const [second, third] = (await reserveTestTags(network, incident, 2)) as [string, string];
  const replaced = await network.post(`/v1/tags/${item.tag}/replacements`, { newTag: second.toLowerCase().replaceAll('-', ' '), reason: 'illegible' }).expect(201);
  expect(replaced.body).toMatchObject({ tag: second, state: 'in-use', replaces: item.tag, item: { id: item.id, tag: second, stage: item.stage, keeper: item.keeper } });
  await network.post(`/v1/tags/${second}/replacements`, { newTag: third, reason: 'lost' }).expect(201);

  expect(await look(item.tag)).toMatchObject({ state: 'replaced', replacedBy: second, replacedReason: 'illegible', replacedAt: '2026-05-09T07:00:00.000Z', inUse: third, item: { id: item.id, tag: third } });
  expect(await look(second)).toMatchObject({ state: 'replaced', replacedBy: third, replaces: item.tag });
  const events = (await network.get(`/v1/items/${item.id}/custody-events`).expect(200)).body.items;
  const retagged = events.filter(({ kind }: { kind: string }) => kind === 'retagged');
  expect(retagged.map(({ refs }: { refs: object }) => refs)).toEqual([
    { tagWas: item.tag.replaceAll('-', ''), tagIs: second.replaceAll('-', ''), reason: 'illegible' }, { tagWas: second.replaceAll('-', ''), tagIs: third.replaceAll('-', ''), reason: 'lost' },
  ]);
  for (const { from, to } of retagged) expect([from, to]).toEqual([item.keeper, item.keeper]);
  const { rows } = await server.admin.query("select count(*)::int as live from tag where item_id = $1 and retired_at is null", [item.id]);
  expect(rows[0].live).toBe(1);
});

test('containers, places and people get a fresh tag in the same way', async () => {
  const [box, newBox] = (await reserveTestTags(network, incident, 2, 'container')) as [string, string];
  const container = (await network.post(`/v1/incidents/${incident.id}/containers`, { siteId: incident.site(), tag: box, kind: 'box' }).expect(201)).body;
  expect((await network.post(`/v1/tags/${box}/replacements`, { newTag: newBox, reason: 'damaged' }).expect(201)).body).toMatchObject({ containerId: container.id, tiedTo: { kind: 'container', id: container.id } });
  const record = (await network.get(`/v1/containers/${container.id}/custody-events`).expect(200)).body;
  expect(record.items.map(({ seq, kind }: { seq: number; kind: string }) => [seq, kind])).toEqual([[1, 'taken-in'], [2, 'retagged']]);
  expect(record.items[1]).toMatchObject({ from: container.keeper, to: container.keeper, refs: { tagWas: box.replaceAll('-', ''), tagIs: newBox.replaceAll('-', ''), reason: 'damaged' } });
  const { rows } = await server.admin.query('select tag_code from container where id = $1', [container.id]);
  expect(rows[0].tag_code).toBe(newBox.replaceAll('-', ''));

  const [sign, newSign, third] = (await reserveTestTags(network, incident, 3, 'place')) as [string, string, string];
  const freezer = { kind: 'freezer', id: incident.freezer('F1') };
  await network.post(`/v1/tags/${sign}/ties`, { place: freezer }).expect(201);
  expect((await network.post(`/v1/tags/${sign}/replacements`, { newTag: newSign, reason: 'lost' }).expect(201)).body.place).toMatchObject(freezer);
  expect(await look(sign)).toMatchObject({ state: 'replaced', inUse: newSign, place: freezer });
  // The place has one live tag still.
  await network.post(`/v1/tags/${third}/ties`, { place: freezer }).expect(409);

  const [badge, newBadge] = (await reserveTestTags(network, incident, 2, 'person')) as [string, string];
  await network.post(`/v1/tags/${badge}/ties`, { personId: incident.person('P1') }).expect(201);
  expect((await network.post(`/v1/tags/${badge}/replacements`, { newTag: newBadge, reason: 'lost' }).expect(201)).body.personId).toBe(incident.person('P1'));
  expect(await look(badge)).toMatchObject({ inUse: newBadge });
});
