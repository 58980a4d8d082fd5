import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { newSlot } from '../support/hand-back.js';
import { Workbench } from '../support/workbench.js';

let bench: Workbench;
beforeAll(async () => {
  bench = await Workbench.open();
});
afterAll(() => bench.close());

test('200 families at the same moment for one slot: exactly as many as it has places for, and everybody else is told', async () => {
  const capacity = 17;
  const slot = await newSlot(bench, capacity);
  const households: string[] = [];
  for (let index = 0; index < 200; index += 1) households.push((await bench.household([])).id);
  /** A server that is busy says so, and is asked again; that is no answer to the booking. */
  const book = async (householdId: string): Promise<{ status: number; body: { code: string } }> => {
    for (let tries = 1; ; tries += 1) {
      const answer = await bench.network.post(`/v1/hand-back-slots/${slot}/appointments`, { householdId });
      if ((answer.status !== 429 && answer.status !== 503) || tries === 30) return answer;
      await new Promise((resolve) => void setTimeout(resolve, 300 + tries * 50));
    }
  };
  const answers = await Promise.all(households.map(book));
  const byStatus = (status: number) => answers.filter((answer) => answer.status === status);
  expect(byStatus(201)).toHaveLength(capacity);
  expect(byStatus(409)).toHaveLength(200 - capacity);
  expect(new Set(byStatus(409).map(({ body }) => body.code))).toEqual(new Set(['capacity_full']));
  const { rows } = await bench.server.admin.query('select s.booked, (select count(*)::int from hand_back_appointment a where a.slot_id = s.id) as appointments from hand_back_slot s where s.id = $1', [slot]);
  expect(rows[0]).toEqual({ booked: capacity, appointments: capacity });
}, 120_000);
