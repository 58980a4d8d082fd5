import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import { expectOneRequest, waitingRuns } from '../support/plan-requests.js';
import { Workbench } from '../support/workbench.js';

let bench: Workbench;
beforeAll(async () => {
  bench = await Workbench.open();
});
afterAll(() => bench.close());

describe('recordPassing asks for a new plan', () => {
  test('when a thing leaves its drying place; a second one while the run waits asks for no second', async () => {
    const household = await bench.household();
    const [first, second] = [await bench.testedQuilt(household), await bench.testedQuilt(household)];
    for (const { id } of [first, second]) {
      await bench.report(id, 'rinse').expect(201);
      await bench.report(id, 'blot').expect(201);
      await bench.hang(id);
    }
    const takeDown = (itemId: string) => bench.pass(itemId, 'drying-ended', bench.holding('clean'));
    await expectOneRequest(bench.server, bench.incident.id, 'a drying place became free', { first: () => takeDown(first.id), second: () => takeDown(second.id) });
  });

  test('not when a thing only goes from one shelf to a station and back', async () => {
    const quiet = await Workbench.open();
    const quilt = await quiet.testedQuilt(await quiet.household());
    await quiet.startAt(quilt.id, 'RINSE');
    await quiet.pass(quilt.id, 'work-ended', quiet.holding('dirty'));
    expect(await waitingRuns(quiet.server, quiet.incident.id)).toEqual([]);
    await quiet.close();
  });
});
