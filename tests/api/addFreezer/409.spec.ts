import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import { startTestServer, type TestServer } from '#testing';

let server: TestServer;
beforeAll(async () => {
  server = await startTestServer();
});
afterAll(() => server.close());

const freezer = (siteId: string, code: string) => ({ siteId, code, name: 'Trailer', volumeL: 6000, availableFrom: '2026-05-09T16:00:00Z' });

describe('addFreezer answers 409', () => {
  test('a code that the site has already is refused with its pointer', async () => {
    const network = await server.network();
    const incident = await network.incident();
    const { body } = await network.post(`/v1/incidents/${incident.id}/freezers`, freezer(incident.site(), 'F1')).expect(409);
    expect(body).toMatchObject({ code: 'already_exists', errors: [{ pointer: '#/code' }] });
  });

  test('of two freezers of one code at the same moment one is taken', async () => {
    const network = await server.network();
    const incident = await network.incident();
    const answers = await Promise.all([1, 2].map(() => network.post(`/v1/incidents/${incident.id}/freezers`, freezer(incident.site(), 'F9'))));
    expect(answers.map((answer) => answer.status).sort()).toEqual([201, 409]);
  });

  test('a closed incident keeps its layout until it is opened again', async () => {
    const network = await server.network();
    const incident = await network.incident();
    await network.patch(`/v1/incidents/${incident.id}`, { state: 'closed' }, { 'if-match': '"1"' }).expect(200);
    const { body } = await network.post(`/v1/incidents/${incident.id}/freezers`, freezer(incident.site(), 'F2')).expect(409);
    expect(body.code).toBe('incident_closed');
    await network.patch(`/v1/incidents/${incident.id}`, { state: 'open' }, { 'if-match': '"2"' }).expect(200);
    await network.post(`/v1/incidents/${incident.id}/freezers`, freezer(incident.site(), 'F2')).expect(201);
  });
});
