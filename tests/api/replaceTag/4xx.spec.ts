import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import { type IncidentOnTest, networkDigest, reserveTestTags, startTestServer, takeInTestHousehold, takeInTestItem, type TestNetwork, type TestServer } from '#testing';

let server: TestServer;
let network: TestNetwork;
let incident: IncidentOnTest;
beforeAll(async () => {
  server = await startTestServer();
  network = await server.network();
  incident = await network.incident();
});
afterAll(() => server.close());

async function refused(path: string, body: object, status: number, code: string) {
  const before = await networkDigest(server.admin, network.networkId, ['idempotency_record']);
  const answer = await network.post(path, body).expect(status);
  expect(answer.body.code).toBe(code);
  expect(await networkDigest(server.admin, network.networkId, ['idempotency_record'])).toEqual(before);
  return answer.body;
}
const newItem = async () => takeInTestItem(network, incident, await takeInTestHousehold(network, incident));

describe('a code that was replaced', () => {
  test('is tied to nothing ever again, as item, in a split, or as a replacement: each refusal names the tag in its place', async () => {
    const item = await newItem();
    const [fresh] = (await reserveTestTags(network, incident, 1)) as [string];
    await network.post(`/v1/tags/${item.tag}/replacements`, { newTag: fresh, reason: 'lost' }).expect(201);
    const household = await takeInTestHousehold(network, incident);
    const intake = { householdId: household.id, siteId: incident.site(), tag: item.tag, description: 'Coat', materialClass: 'textile-garment-3d', sizeClass: 'garment' };
    expect(await refused(`/v1/incidents/${incident.id}/items`, intake, 409, 'tag_taken')).toMatchObject({ replacedBy: fresh, detail: expect.stringContaining('never used again') });
    expect(await refused(`/v1/tags/${(await newItem()).tag}/replacements`, { newTag: item.tag, reason: 'lost' }, 409, 'tag_taken')).toMatchObject({ replacedBy: fresh });
    const [other] = (await reserveTestTags(network, incident, 1)) as [string];
    expect(await refused(`/v1/tags/${item.tag}/replacements`, { newTag: other, reason: 'lost' }, 409, 'tag_taken')).toMatchObject({ replacedBy: fresh });
  });
});

describe('nothing is replaced', () => {
  test('by a tag of another kind, a tied one, itself, or one that nobody reserved', async () => {
    const item = await newItem();
    const path = `/v1/tags/${item.tag}/replacements`;
    const [container] = await reserveTestTags(network, incident, 1, 'container');
    expect((await refused(path, { newTag: container, reason: 'lost' }, 422, 'tag_invalid')).errors[0].pointer).toBe('#/newTag');
    await refused(path, { newTag: (await newItem()).tag, reason: 'lost' }, 409, 'tag_taken');
    await refused(path, { newTag: item.tag, reason: 'lost' }, 409, 'tag_taken');
    await refused(path, { newTag: 'KKQSDHK06', reason: 'lost' }, 422, 'tag_invalid');
  });

  test('with a mistyped tag: the reserved ones close to it are offered', async () => {
    const item = await newItem();
    const [fresh] = (await reserveTestTags(network, incident, 1)) as [string];
    const mistyped = `${fresh.slice(0, -2)}${fresh.endsWith('9') ? fresh.slice(-2, -1) + '8' : fresh.slice(-2, -1) + '9'}`;
    expect((await refused(`/v1/tags/${item.tag}/replacements`, { newTag: mistyped, reason: 'lost' }, 422, 'tag_invalid')).nearest).toContain(fresh);
  });

  test('where nothing is tied', async () => {
    const [one, other] = (await reserveTestTags(network, incident, 2)) as [string, string];
    expect((await refused(`/v1/tags/${one}/replacements`, { newTag: other, reason: 'lost' }, 422, 'command_refused')).detail).toContain('Nobody tied the tag');
  });

  test('by two at once with one fresh tag: one wins', async () => {
    const [a, b] = [await newItem(), await newItem()];
    const [fresh] = (await reserveTestTags(network, incident, 1)) as [string];
    const answers = await Promise.all([a, b].map(({ tag }) => network.post(`/v1/tags/${tag}/replacements`, { newTag: fresh, reason: 'lost' })));
    expect(answers.map(({ status }) => status).sort()).toEqual([201, 409]);
  });

  test('by two at once for one item: it has one live tag afterwards', async () => {
    const { tag, id } = await newItem();
    const fresh = await reserveTestTags(network, incident, 3);
    const answers = await Promise.all(fresh.map((newTag) => network.post(`/v1/tags/${tag}/replacements`, { newTag, reason: 'lost' })));
    expect(answers.map(({ status }) => status).sort()).toEqual([201, 409, 409]);
    const { rows } = await server.admin.query('select count(*)::int as live from tag where item_id = $1 and retired_at is null', [id]);
    expect(rows[0].live).toBe(1);
  });
});
