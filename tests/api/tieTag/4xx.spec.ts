import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import { makeTagCode } from '#custody';
import { type IncidentOnTest, networkDigest, reserveTestTags, startTestServer, type TestNetwork, type TestServer } from '#testing';

let server: TestServer;
let network: TestNetwork;
let incident: IncidentOnTest;
beforeAll(async () => {
  server = await startTestServer();
  network = await server.network();
  incident = await network.incident();
});
afterAll(() => server.close());

/** Refused, and nothing but the memory of the refusal written. */
async function refused(path: string, body: object, status: number, code: string) {
  const before = await networkDigest(server.admin, network.networkId, ['idempotency_record']);
  const answer = await network.post(path, body).expect(status);
  expect(answer.body.code).toBe(code);
  expect(await networkDigest(server.admin, network.networkId, ['idempotency_record'])).toEqual(before);
  return answer.body;
}

describe('a tag is not tied', () => {
  test('twice, nor a place to two tags: the answer says what to do', async () => {
    const [one, other] = await reserveTestTags(network, incident, 2, 'place');
    const [freezer, station] = [{ kind: 'freezer', id: incident.freezer('F1') }, { kind: 'station', id: incident.station('RINSE') }];
    await network.post(`/v1/tags/${one}/ties`, { place: freezer }).expect(201);
    const taken = await refused(`/v1/tags/${one}/ties`, { place: station }, 409, 'tag_taken');
    expect(taken.detail).toContain('use a fresh tag');
    const second = await refused(`/v1/tags/${other}/ties`, { place: freezer }, 409, 'tag_taken');
    expect(second).toMatchObject({ tagInUse: one, detail: expect.stringContaining(`/v1/tags/${one}/replacements`) });
  });

  test('to a place or person of another incident, of another network, or that never was', async () => {
    const elsewhere = await network.incident();
    const foreign = await (await server.network()).incident();
    const [place] = await reserveTestTags(network, incident, 1, 'place');
    const [person] = await reserveTestTags(network, incident, 1, 'person');
    const answers: unknown[] = [];
    for (const { freezer, someone } of [elsewhere, foreign].map((other) => ({ freezer: other.freezer('F1'), someone: other.person('P1') }))) {
      answers.push((await refused(`/v1/tags/${place}/ties`, { place: { kind: 'freezer', id: freezer } }, 422, 'reference_unknown')).detail);
      expect((await refused(`/v1/tags/${person}/ties`, { personId: someone }, 422, 'reference_unknown')).errors[0].pointer).toBe('#/personId');
    }
    answers.push((await refused(`/v1/tags/${place}/ties`, { place: { kind: 'freezer', id: '0198b7a0-0000-7000-8000-000000000009' } }, 422, 'reference_unknown')).detail);
    expect(new Set(answers).size).toBe(1);
  });

  test('of the wrong kind', async () => {
    const [item] = await reserveTestTags(network, incident, 1);
    expect((await refused(`/v1/tags/${item}/ties`, { place: { kind: 'freezer', id: incident.freezer('F1') } }, 422, 'tag_invalid')).detail).toContain('is a tag for an item, not for a place');
  });

  test('that nobody reserved, or that is mistyped: then those close to it are offered', async () => {
    const place = { kind: 'station', id: incident.station('BLOT') };
    await refused(`/v1/tags/${makeTagCode(60_000_000, 'place')}/ties`, { place }, 404, 'not_found');
    const [tag] = (await reserveTestTags(network, incident, 1, 'place')) as [string];
    const code = tag.replaceAll('-', '');
    const swapped = code.slice(0, 7) + code.charAt(8) + code.charAt(7);
    expect((await refused(`/v1/tags/${code.charAt(7) === code.charAt(8) ? code.slice(0, 8) : swapped}/ties`, { place }, 422, 'tag_invalid')).nearest).toContain(tag);
  });

  test('to both or neither', async () => {
    const [tag] = await reserveTestTags(network, incident, 1, 'place');
    for (const body of [{}, { personId: incident.person('P1'), place: { kind: 'freezer', id: incident.freezer('F1') } }, { place: { kind: 'container', id: incident.freezer('F1') } }]) await network.post(`/v1/tags/${tag}/ties`, body).expect(400);
  });

  test('by two at once: one wins, the other is told', async () => {
    const tags = await reserveTestTags(network, incident, 4, 'place');
    const answers = await Promise.all(tags.map((tag) => network.post(`/v1/tags/${tag}/ties`, { place: { kind: 'drying-place', id: incident.place('R1') } })));
    expect(answers.map(({ status }) => status).sort()).toEqual([201, 409, 409, 409]);
  });
});
