import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { Workbench } from '../support/workbench.js';
import { wordsOf } from '../../unit/documents/pictures.support.js';

let bench: Workbench;
beforeAll(async () => {
  bench = await Workbench.open();
});
afterAll(() => bench.close());

test('by material, what to do in the next weeks, what not, and when to ask, as the receipt stored it', async () => {
  const household = await bench.household();
  const quilt = await bench.testedQuilt(household);
  const letters = await bench.takeIn(household, { materialClass: 'paper-uncoated', sizeClass: 'a4-sheet', description: 'Letters' });
  const handed = (await bench.handBack(household, [quilt.id, letters.id]).expect(201)).body;
  const { headers, body } = await bench.network.get(`/v1/hand-backs/${handed.id}/care-sheet`).expect(200);
  expect(headers).toMatchObject({ 'content-type': 'application/pdf', 'content-language': 'en' });
  const text = (await wordsOf(body)).join('\n').replaceAll(/\s+/g, ' ');
  for (const said of ['Padded quilt', 'Plain paper', 'In the next weeks', 'When to ask a conservator', 'our own judgement', handed.receipt.items[0].nextWeeks.at(-1).text, handed.receipt.items[0].never[0]]) expect(text).toContain(said);
}, 60_000);

test('a receipt of before the care sheet is printed with what it holds', async () => {
  const household = await bench.household();
  const { id } = (await bench.handBack(household, [(await bench.testedQuilt(household)).id]).expect(201)).body;
  await bench.server.admin.query(`update hand_back set receipt = jsonb_set(receipt, '{items,0}', (receipt -> 'items' -> 0) - 'materialClass' - 'nextWeeks' - 'askWhen') where id = $1`, [id]);
  const text = (await wordsOf((await bench.network.get(`/v1/hand-backs/${id}/care-sheet`).expect(200)).body)).join('\n');
  expect(text).toContain('To keep it');
  expect(text).not.toContain('In the next weeks');
  await bench.network.get(`/v1/hand-backs/${id}`).expect(200);
}, 60_000);
