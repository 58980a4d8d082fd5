import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { Workbench } from '../support/workbench.js';
import { wordsOf } from '../../unit/documents/pictures.support.js';

let bench: Workbench;
beforeAll(async () => {
  bench = await Workbench.open();
});
afterAll(() => bench.close());

test('the paper that travels with the thing: what can hurt first, then the thing, what the owner allows, offers', async () => {
  const household = await bench.household([{ scope: 'refer', given: true, manner: 'spoken', limit: { minor: 25_000, currency: 'USD' } }]);
  const quilt = await bench.assessedQuilt(household);
  await bench.network.post(`/v1/items/${quilt.id}/referral-quotes`, { specialistId: bench.incident.specialist('SP1'), amount: { minor: 18_000, currency: 'USD' }, validUntil: '2026-06-30T00:00:00Z', work: 'Wet cleaning, report' }).expect(201);
  const { headers, body } = await bench.network.get(`/v1/items/${quilt.id}/referral-package/paper?language=es`).expect(200);
  expect(headers).toMatchObject({ 'content-type': 'application/pdf', 'content-language': 'es' });
  const text = (await wordsOf(body)).join('\n').replaceAll(/\s+/g, ' ');
  for (const said of ['Antes de abrirlo', 'Como máximo USD 250.00', 'USD 180.00', quilt.tag, 'guantes']) expect(text).toContain(said);
  expect(text.indexOf('guantes')).toBeLessThan(text.indexOf('El objeto'));
}, 60_000);
