import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { PaperKit } from '../support/paper.js';
import { Workbench } from '../support/workbench.js';

let bench: Workbench;
beforeAll(async () => {
  bench = await Workbench.open();
});
afterAll(() => bench.close());

test('in a closed incident nothing is keyed, and nothing is kept', async () => {
  const kit = await PaperKit.make(bench);
  await bench.network.patch(`/v1/incidents/${bench.incident.id}`, { state: 'closed' }, { 'if-match': '"1"' }).expect(200);
  const { body } = await kit.post([{ sheetNo: 1, lineNo: 1, void: 'crossed-out' }]).expect(409);
  expect(body.code).toBe('incident_closed');
  expect(body.detail).toContain('Open it again');
  expect((await bench.server.admin.query('select 1 from paper_line')).rows).toEqual([]);
});
