import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { makeTagCode, parseTagCode } from '#custody';
import { type IncidentOnTest, reserveTestTags, startTestServer, type TestNetwork, type TestServer } from '#testing';

let server: TestServer;
let network: TestNetwork;
let incident: IncidentOnTest;
beforeAll(async () => {
  server = await startTestServer();
  network = await server.network();
  incident = await network.incident();
});
afterAll(() => server.close());

/** The tag with two check digits that are not its own. */
const misheard = (tag: string) => `${tag.slice(0, -2)}${String((Number(tag.slice(-2)) + 37) % 97).padStart(2, '0')}`;
const looked = async (from: TestNetwork, typed: string) => (await from.get(`/v1/tags/${encodeURIComponent(typed)}`).expect(422)).body;

test('a mistyped tag of any kind is answered with the fault and the reserved tags close to it', async () => {
  for (const kind of ['item', 'container', 'place', 'person'] as const) {
    const [tag] = (await reserveTestTags(network, incident, 1, kind)) as [string];
    const body = await looked(network, misheard(tag));
    expect(body).toMatchObject({ code: 'tag_invalid', detail: expect.stringContaining('do not guess') });
    expect(body.nearest).toContain(tag);
    expect(body.nearest.length).toBeLessThanOrEqual(5);
  }
});

test("another network's tags are never offered, and an unreserved neighbour is not either", async () => {
  const other = await server.network();
  const theirs = await other.incident();
  // The stranger's serials run where ours do not.
  await server.admin.query("insert into tag_serial (network_id, kind, next_serial) values ($1, 'item', 5000000) on conflict (network_id, kind) do update set next_serial = 5000000", [other.networkId]);
  const [tag] = (await reserveTestTags(other, theirs, 1)) as [string];
  expect((await looked(other, misheard(tag))).nearest).toContain(tag);
  expect((await looked(network, misheard(tag))).nearest).toEqual([]);
});

test('a tag that is right and reserved, but tied to nothing, is unused; one that nobody reserved is not there', async () => {
  const [tag] = (await reserveTestTags(network, incident, 1, 'person')) as [string];
  expect((await network.get(`/v1/tags/${tag}`).expect(200)).body).toMatchObject({ state: 'unused', tiedTo: null, inUse: null, replacedBy: null });
  expect('fault' in parseTagCode(makeTagCode(61_000_000, 'item'))).toBe(false);
  await network.get(`/v1/tags/${makeTagCode(61_000_000, 'item')}`).expect(404);
});
