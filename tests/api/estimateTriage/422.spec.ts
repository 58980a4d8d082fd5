import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { startTestServer, type TestNetwork, type TestServer } from '#testing';

let server: TestServer;
let network: TestNetwork;
beforeAll(async () => {
  server = await startTestServer();
  network = await server.network();
});
afterAll(() => server.close());

test('what cannot all be true is refused with every contradiction at its place', async () => {
  const assessment = {
    materialClass: 'photo-colour-print', fibre: 'wool', water: 'clean', soil: 'heavy-mud', hazards: ['sewage'], wetState: 'dripping', wettedAt: '2026-05-10T07:00:00Z',
    colours: ['blue'], colourTests: [{ colour: 'red', reading: '3' }],
  };
  const { body } = await network.post('/v1/estimates/triage', { assessment, floodAt: '2026-05-08T18:00:00Z', doneSteps: ['dry', 'freeze'] }).expect(422);
  expect(body.code).toBe('observations_contradict');
  expect(body.errors.map(({ pointer, code }: { pointer: string; code: string }) => `${pointer} ${code}`).sort()).toEqual([
    '#/assessment/colourTests colour_not_listed', '#/assessment/fibre fibre_of_no_textile', '#/assessment/water mud_from_clean_water', '#/assessment/water sewage_in_clean_water',
    '#/assessment/wetState dripping_after_drying', '#/assessment/wetState dripping_while_frozen', '#/assessment/wettedAt wetted_ahead',
  ]);
  for (const { detail } of body.errors) expect(detail).toMatch(/^[A-Z].*\.$/);
});
