import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import { incidentDocument, startTestServer, type IncidentOnTest, type TestNetwork, type TestServer } from '#testing';

let server: TestServer;
let network: TestNetwork;
let incident: IncidentOnTest;
beforeAll(async () => {
  server = await startTestServer();
  network = await server.network();
  incident = await network.incident();
});
afterAll(() => server.close());

const change = (body: object) => network.patch(`/v1/incidents/${incident.id}/specialists/${incident.specialist('SP1')}`, body, { 'if-match': '"1"' });
const specialists = async () => (await network.get(`/v1/incidents/${incident.id}/layout`).expect(200)).body.specialists;

describe('changeSpecialist answers 400 and changes nothing', () => {
  test.each([
    ['only how many at once', { piecesAtOnce: 2 }, '#/hoursPerPiece'],
    ['only how long each takes', { hoursPerPiece: 6 }, '#/piecesAtOnce'],
    ['nobody on the bench', { piecesAtOnce: 0, hoursPerPiece: 6 }, '#/piecesAtOnce'],
    ['no time at all', { piecesAtOnce: 1, hoursPerPiece: 0 }, '#/hoursPerPiece'],
    ['a material that nobody knows', { materialClasses: ['moon-dust'] }, '#/materialClasses/0'],
    ['a material twice', { materialClasses: ['parchment', 'parchment'] }, '#/materialClasses/1'],
    ['an opening that ends before it begins', { openings: [{ opensAt: '2026-05-11T18:00:00Z', closesAt: '2026-05-11T08:00:00Z' }] }, '#/openings/0/closesAt'],
    ['another code', { code: 'SP9' }, '#/code'],
  ])('%s', async (_what, body, pointer) => {
    const before = await specialists();
    const { body: problem } = await change(body).expect(400);
    expect(problem).toMatchObject({ code: 'validation_failed' });
    expect(problem.errors.map((error: { pointer: string }) => error.pointer)).toContain(pointer);
    expect(await specialists()).toEqual(before);
  });

  test('a document that says half of it is refused as a whole, with the place', async () => {
    const { body } = await network.post('/v1/incidents', documentWith({ piecesAtOnce: 1 })).expect(400);
    expect(body.errors).toMatchObject([{ pointer: '#/specialists/0/hoursPerPiece' }]);
  });
});

function documentWith(change: object) {
  const document = incidentDocument();
  Object.assign(document.specialists![0]!, change);
  return document;
}
