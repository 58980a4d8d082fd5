import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { newId } from '#platform';
import { Workbench } from '../support/workbench.js';
import { wordsOf } from '../../unit/documents/pictures.support.js';

let bench: Workbench;
beforeAll(async () => {
  bench = await Workbench.open();
});
afterAll(() => bench.close());

const words = async (pdf: Buffer) => (await wordsOf(pdf)).join('\n').replaceAll(/\s+/g, ' ');

test('in the language of the household, with what was said against it and who stood at the counter; the same again has the same bytes', async () => {
  const { id } = (await bench.network.post(`/v1/incidents/${bench.incident.id}/households`, { code: 'HH-ES-1', language: 'es', contact: { name: 'Contact one' }, consents: [{ scope: 'treat', given: true, manner: 'spoken' }] }).expect(201)).body;
  const household = { id: id as string, code: 'HH-ES-1' };
  const quilt = await bench.testedQuilt(household, { description: 'Colcha de novia' });
  const handed = (await bench.handBack(household, [quilt.id], { signature: [[10, 300, 120, 80]], reservations: 'Falta un botón.', personId: bench.incident.person('P1') }).expect(201)).body;
  const read = () => bench.network.get(`/v1/hand-backs/${handed.id}/receipt-paper`).expect(200);
  const { headers, body } = await read();
  expect(headers).toMatchObject({ 'content-type': 'application/pdf', 'content-language': 'es', 'content-disposition': 'inline; filename="receipt.pdf"' });
  const text = await words(body);
  for (const said of ['Recibo de objetos devueltos', 'HH-ES-1', quilt.tag, 'Colcha de novia', 'Lead one', 'Falta un botón.', 'No se enjuagó.', 'No se promete nada']) expect(text).toContain(said);
  expect(text).not.toContain('Contact one');
  bench.server.clock.set(bench.server.clock.nowMs() + 3_600_000);
  expect(Buffer.compare((await read()).body, body)).toBe(0);
  expect(await words((await bench.network.get(`/v1/hand-backs/${handed.id}/receipt-paper?language=en&paper=letter`).expect(200)).body)).toContain('Receipt for things handed back');
}, 60_000);

test('404 for what is none; a key without the scope for families gets no signature', async () => {
  await bench.network.get(`/v1/hand-backs/${newId()}/receipt-paper`).expect(404);
  const household = await bench.household();
  const { id } = (await bench.handBack(household, [(await bench.testedQuilt(household)).id]).expect(201)).body;
  const reader = bench.network.as(await bench.network.newKey({ scopes: ['item:read'] }));
  await reader.get(`/v1/hand-backs/${id}/receipt-paper`).expect(403);
});
