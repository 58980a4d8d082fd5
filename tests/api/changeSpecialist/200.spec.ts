import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import { startTestServer, type TestServer } from '#testing';

let server: TestServer;
beforeAll(async () => {
  server = await startTestServer();
});
afterAll(() => server.close());

const CAPACITY = { piecesAtOnce: 2, hoursPerPiece: 6.5, materialClasses: ['parchment', 'paper-uncoated'], openings: [{ opensAt: '2026-05-11T08:00:00.000Z', closesAt: '2026-05-11T18:00:00.000Z' }] };
const NOT_KNOWN = { piecesAtOnce: null, hoursPerPiece: null, materialClasses: [], openings: [] };

async function studio() {
  const network = await server.network();
  const incident = await network.incident();
  const path = `/v1/incidents/${incident.id}/specialists/${incident.specialist('SP1')}`;
  const read = async () => (await network.get(`/v1/incidents/${incident.id}/layout`).expect(200)).body.specialists[0];
  return { network, incident, read, change: (body: object, etag: string) => network.patch(path, body, { 'if-match': etag }) };
}

describe('changeSpecialist answers 200', () => {
  test('what they can take is on record and stands in the layout', async () => {
    const { read, change } = await studio();
    expect(await read()).toMatchObject({ code: 'SP1', ...NOT_KNOWN, version: 1 });
    const changed = await change(CAPACITY, '"1"').expect(200);
    expect(changed.body).toMatchObject({ code: 'SP1', field: 'paintings, parchment', ...CAPACITY, version: 2 });
    expect(changed.headers['etag']).toBe('"2"');
    expect(await read()).toEqual(changed.body);
  });

  test('a member that is left out stays, and null takes back what was said', async () => {
    const { read, change } = await studio();
    await change(CAPACITY, '"1"').expect(200);
    await change({ hoursPerPiece: 8 }, '"2"').expect(200);
    expect(await read()).toMatchObject({ ...CAPACITY, hoursPerPiece: 8, version: 3 });
    await change({ ...NOT_KNOWN, materialClasses: null, openings: null, name: 'Studio by the bridge' }, '"3"').expect(200);
    expect(await read()).toMatchObject({ ...NOT_KNOWN, name: 'Studio by the bridge', version: 4 });
  });

  test('an empty change keeps the version', async () => {
    const { read, change } = await studio();
    await change({}, '"1"').expect(200);
    expect(await read()).toMatchObject({ version: 1 });
  });

  test('it may be said when the incident is registered', async () => {
    const network = await server.network();
    const incident = await network.incident((document) => { Object.assign(document.specialists![0]!, CAPACITY); });
    const { body } = await network.get(`/v1/incidents/${incident.id}/layout`).expect(200);
    expect(body.specialists).toMatchObject([{ code: 'SP1', ...CAPACITY, version: 1 }]);
  });
});
