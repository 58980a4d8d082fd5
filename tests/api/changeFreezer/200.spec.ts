import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import { startTestServer, type TestServer } from '#testing';

let server: TestServer;
beforeAll(async () => {
  server = await startTestServer();
});
afterAll(() => server.close());

describe('changeFreezer answers 200', () => {
  test('the trailer comes earlier and is smaller than announced', async () => {
    const network = await server.network();
    const incident = await network.incident();
    const path = `/v1/incidents/${incident.id}/freezers/${incident.freezer('F1')}`;
    const changed = await network.patch(path, { volumeL: 250, availableFrom: '2026-05-09T05:00:00Z' }, { 'if-match': '"1"' }).expect(200);
    expect(changed.body).toMatchObject({ code: 'F1', volumeL: 250, availableFrom: '2026-05-09T05:00:00.000Z', version: 2 });
  });
});
