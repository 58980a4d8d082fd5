import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import { startTestServer, type TestServer } from '#testing';

let server: TestServer;
beforeAll(async () => {
  server = await startTestServer();
});
afterAll(() => server.close());

describe('changeIncident answers 412', () => {
  test('a change of an older version is refused and told the present ETag', async () => {
    const network = await server.network();
    const incident = await network.incident();
    const path = `/v1/incidents/${incident.id}`;
    await network.patch(path, { name: 'Second' }, { 'if-match': '"1"' }).expect(200);
    const { body } = await network.patch(path, { name: 'Third' }, { 'if-match': '"1"' }).expect(412);
    expect(body).toMatchObject({ code: 'version_stale', currentEtag: '"2"' });
    expect((await network.get(path)).body.name).toBe('Second');
  });

  test('a weak tag never matches (RFC 9110, section 13.1.1: strong comparison)', async () => {
    const network = await server.network();
    const incident = await network.incident();
    await network.patch(`/v1/incidents/${incident.id}`, { name: 'Second' }, { 'if-match': 'W/"1"' }).expect(412);
  });

  test('of many changes of one version at the same moment exactly one is taken', async () => {
    const network = await server.network();
    const incident = await network.incident();
    const answers = await Promise.all([1, 2, 3, 4, 5].map((n) => network.patch(`/v1/incidents/${incident.id}`, { name: `Name ${n}` }, { 'if-match': '"1"' })));
    expect(answers.map((answer) => answer.status).sort()).toEqual([200, 412, 412, 412, 412]);
    expect((await network.get(`/v1/incidents/${incident.id}`)).headers['etag']).toBe('"2"');
  });

  test('the refusal is kept: sent again with its key it is the same refusal', async () => {
    const network = await server.network();
    const incident = await network.incident();
    const headers = { 'if-match': '"7"', 'idempotency-key': '"1c0e2b0a-2f3c-4b57-9a38-3a7a1a0d9c12"' };
    const first = await network.patch(`/v1/incidents/${incident.id}`, { name: 'x' }, headers).expect(412);
    const again = await network.patch(`/v1/incidents/${incident.id}`, { name: 'x' }, headers).expect(412);
    expect(again.headers['idempotency-replayed']).toBe('true');
    expect(again.body).toMatchObject({ code: 'version_stale', currentEtag: first.body.currentEtag });
  });
});
