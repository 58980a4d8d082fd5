import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { foundInDatabase } from '../eraseHousehold/raw-dump.js';
import { ClaimDesks } from '../support/found-items.js';
import { Workbench } from '../support/workbench.js';

let bench: Workbench;
let desks: ClaimDesks;
beforeAll(async () => {
  bench = await Workbench.open();
  desks = await ClaimDesks.open(bench);
});
afterAll(() => bench.close());
const mark = (itemId: string, question = 'Which corner was burnt?') => bench.network.post(`/v1/items/${itemId}/owner-marks`, { question, answer: 'Sandelholzecke', personId: desks.person('P4') });

test('is sealed and not told back', async () => {
  const { itemId } = await desks.found({ marks: [] });
  const { text } = await mark(itemId).expect(201);
  expect(text).not.toMatch(/burnt|Sandelholz/);
  expect(await foundInDatabase(bench.server.admin, ['Sandelholzecke', 'Which corner'])).toEqual([]);
  expect((await desks.questions(itemId)).map(({ question }) => question)).toEqual(['Which corner was burnt?']);
});

test('is refused while a claim is open, beyond ten, and for a thing whose owner is on record', async () => {
  const { itemId } = await desks.found();
  const claim = await desks.claim(itemId, (await bench.household()).id);
  expect((await mark(itemId).expect(422)).body.code).toBe('command_refused');
  await bench.network.post(`/v1/ownership-claims/${claim.id}/withdrawal`, {}).expect(200);
  for (let index = 2; index < 10; index += 1) await mark(itemId, `Question ${index}?`).expect(201);
  expect((await mark(itemId).expect(422)).body.marks).toBe(10);
  expect((await mark((await bench.takeIn(await bench.household())).id).expect(409)).body.code).toBe('owner_known');
});
