import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { type IncidentOnTest, reserveTestTags, startTestServer, takeInTestHousehold, type TestNetwork, type TestServer } from '#testing';

let server: TestServer;
let network: TestNetwork;
let incident: IncidentOnTest;
beforeAll(async () => {
  server = await startTestServer();
  network = await server.network();
  incident = await network.incident();
});
afterAll(() => server.close());

const body = (household: { id: string }, tag: string) => ({ householdId: household.id, siteId: incident.site(), tag, description: 'letter', sizeClass: 'a4-sheet' });

test('a tag with one wrong character is refused with the nearest reserved tags, and nothing is written', async () => {
  const household = await takeInTestHousehold(network, incident);
  const [tag = ''] = await reserveTestTags(network, incident, 3);
  const wrong = tag.replace(/.(?=..$)/, (character) => (character === 'Z' ? 'B' : 'Z'));
  const before = await server.admin.query('select count(*)::int as n from item');
  const answer = await network.post(`/v1/incidents/${incident.id}/items`, body(household, tag.slice(0, 2) + (tag[2] === 'Z' ? 'B' : 'Z') + tag.slice(3))).expect(422);
  expect(wrong).not.toBe(tag);
  expect(answer.body.code).toBe('tag_invalid');
  expect(answer.body.nearest).toContain(tag);
  expect((await server.admin.query('select count(*)::int as n from item')).rows).toEqual(before.rows);
});

test('a tag that nobody reserved is refused', async () => {
  const household = await takeInTestHousehold(network, incident);
  const other = await server.network();
  const theirs = await other.incident();
  const tags = await reserveTestTags(other, theirs, 400);
  const mine = new Set(await reserveTestTags(network, incident, 1));
  const foreign = tags.find((tag) => !mine.has(tag) && tag !== tags[0]) ?? '';
  const answer = await network.post(`/v1/incidents/${incident.id}/items`, body(household, tags.at(-1) ?? foreign)).expect(422);
  expect(answer.body.code).toBe('tag_unknown');
});

test('only tags of this incident are offered, for a tag of another one and for a mistyped one', async () => {
  const household = await takeInTestHousehold(network, incident);
  const elsewhere = await network.incident();
  const [theirs = ''] = await reserveTestTags(network, elsewhere, 1);
  const mistyped = theirs.slice(0, 2) + (theirs[2] === 'Z' ? 'B' : 'Z') + theirs.slice(3);
  const answerTo = async (tag: string) => (await network.post(`/v1/incidents/${incident.id}/items`, body(household, tag)).expect(422)).body;
  expect(await answerTo(theirs)).toMatchObject({ code: 'tag_unknown' });
  expect((await answerTo(theirs)).nearest).not.toContain(theirs);
  expect(await answerTo(mistyped)).toMatchObject({ code: 'tag_invalid' });
  expect((await answerTo(mistyped)).nearest).not.toContain(theirs);
  // A scan without an incident is looked up in the whole network.
  expect((await network.get(`/v1/tags/${mistyped}`).expect(422)).body.nearest).toContain(theirs);
});
