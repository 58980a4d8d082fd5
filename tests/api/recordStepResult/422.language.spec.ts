import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { Workbench } from '../support/workbench.js';

let bench: Workbench;
beforeAll(async () => {
  bench = await Workbench.open();
});
afterAll(() => bench.close());

test('why somebody should not do a step, and what they can do instead, is told in their language; the detail stays English', async () => {
  const quilt = await bench.testedQuilt(await bench.household());
  const report = { step: 'wrap', outcome: 'done', disposition: 'hold-frozen', personId: bench.incident.person('P2') };
  const headers = { 'idempotency-key': '0198b7a0-0000-7000-8000-0000000000f6' };
  const send = async (language: string) => (await bench.network.post(`/v1/items/${quilt.id}/step-results`, report, { ...headers, 'accept-language': language }).expect(422)).body;
  const spanish = await send('es');
  expect(spanish).toMatchObject({ code: 'person_not_suited', detail: expect.stringContaining('a lead answers for it') });
  expect(spanish.inWords).toEqual([expect.stringMatching(/^El paso «envolver» es para personas con la destreza «envoltura para el congelador»/), expect.stringMatching(/^Lo que esta persona puede hacer con este objeto: /)]);
  expect(spanish.people[0].reasons[0]).toMatchObject({ code: 'skill_missing', text: spanish.inWords[0], source: { mark: 'own-calibration', cite: expect.stringMatching(/^Calibración propia: /) } });
  // The refusal is stored once; whoever sends it again reads it in the language they ask for.
  const again = await send('en');
  expect(again.detail).toBe(spanish.detail);
  expect(again.inWords[0]).toMatch(/^The step “wrap” is for people with the skill “wrapping for the freezer”/);
});
