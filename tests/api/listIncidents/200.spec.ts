import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import { startTestServer, type TestServer } from '#testing';

let server: TestServer;
beforeAll(async () => {
  server = await startTestServer();
});
afterAll(() => server.close());

describe('listIncidents answers 200', () => {
  test('pages run from the newest to the oldest without gap or repeat', async () => {
    const network = await server.network();
    const made: string[] = [];
    for (const name of ['first', 'second', 'third']) made.unshift((await network.incident((document) => void (document.name = name))).id);
    const first = await network.get('/v1/incidents?limit=2').expect(200);
    expect(first.body.items.map((incident: { id: string }) => incident.id)).toEqual(made.slice(0, 2));
    expect(first.headers['link']).toContain('rel="next"');
    const second = await network.get(`/v1/incidents?limit=2&cursor=${first.body.nextCursor}`).expect(200);
    expect(second.body.items.map((incident: { id: string }) => incident.id)).toEqual(made.slice(2));
    expect(second.body.nextCursor).toBeNull();
  });

  test('another network, and a key limited to one incident, see only their own', async () => {
    const [ours, theirs] = [await server.network(), await server.network()];
    const [one, two] = [await ours.incident(), await ours.incident()];
    const limited = ours.as(await ours.newKey({ incidentId: one.id }));
    const seen = await limited.get('/v1/incidents').expect(200);
    expect(seen.body.items.map((incident: { id: string }) => incident.id)).toEqual([one.id]);
    await limited.get(`/v1/incidents/${two.id}`).expect(404);
    expect((await theirs.get('/v1/incidents').expect(200)).body.items).toEqual([]);
  });

  test('a cursor of another network is refused', async () => {
    const [ours, theirs] = [await server.network(), await server.network()];
    await ours.incident();
    await ours.incident();
    const { body } = await ours.get('/v1/incidents?limit=1').expect(200);
    const refused = await theirs.get(`/v1/incidents?limit=1&cursor=${body.nextCursor}`).expect(400);
    expect(refused.body.code).toBe('cursor_invalid');
  });
});
