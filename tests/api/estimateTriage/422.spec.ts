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

test('the refusal is said in the language of the reader too; the details stay English for whoever builds the screen', async () => {
  const assessment = { materialClass: 'photo-colour-print', fibre: 'wool', wetState: 'wet', colours: ['red'], colourTests: [{ colour: 'blue', solution: 'water', method: 'swab', reading: '3' }] };
  const { body } = await network.post('/v1/estimates/triage', { assessment, floodAt: '2026-05-08T18:00:00Z' }, { 'accept-language': 'es' }).expect(422);
  expect(body.inWords).toEqual([
    'Se nombra una fibra textil para algo que no tiene textil. Corrija el material, o añada el textil como parte.',
    'Una prueba da grado a un color que no está en la lista.',
  ]);
  expect(body.errors.map(({ detail }: { detail: string }) => detail)).toEqual([expect.stringContaining('A textile fibre is named'), expect.stringContaining('A test grades a colour')]);
});
