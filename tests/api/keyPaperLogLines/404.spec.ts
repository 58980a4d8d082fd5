import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { newId } from '#platform';
import { at, PaperKit, traceOf } from '../support/paper.js';
import { Workbench } from '../support/workbench.js';

let bench: Workbench;
beforeAll(async () => {
  bench = await Workbench.open();
});
afterAll(() => bench.close());

test("nobody keys lines into another network's kit, and a kit that never was answers the same", async () => {
  const [kit, quilt, theirs] = [await PaperKit.make(bench), await bench.takeIn(await bench.household()), await bench.server.network()];
  const incident = await theirs.incident();
  const body = { personId: incident.person('P1'), lines: [{ sheetNo: 1, lineNo: 1, writtenAt: at('07:00'), tag: quilt.tag }] };
  const foreign = (await theirs.post(`/v1/paper-kits/${kit.id}/log-lines`, body).expect(404)).body;
  const never = (await theirs.post(`/v1/paper-kits/${newId()}/log-lines`, body).expect(404)).body;
  expect({ ...foreign, instance: '', traceId: '' }).toEqual({ ...never, instance: '', traceId: '' });
  expect((await bench.server.admin.query('select 1 from paper_line')).rows).toEqual([]);
  expect(await traceOf(bench, quilt.id)).toHaveLength(1);
});

test('things of another incident or network are unknown to the lines of ours, and nothing is told of them', async () => {
  const [kit, theirs, second] = [await PaperKit.make(bench), await bench.server.network(), await bench.network.incident()];
  const far = await bench.takeIn(await bench.household());
  const places = [{ kind: 'holding', id: second.holding('dirty') }, { kind: 'holding', id: (await theirs.incident()).holding('dirty') }];
  const results = await kit.key(...places.map((to, index) => ({ sheetNo: 1, lineNo: index + 1, writtenAt: at('07:00'), tag: far.tag, to })));
  for (const result of results) expect(result).toMatchObject({ verdict: 'refused', problem: { code: 'reference_unknown' } });
  await kit.post([{ sheetNo: 1, lineNo: 1, void: 'crossed-out' }], { personId: second.person('P1') }).expect(422);
  expect(await traceOf(bench, far.id)).toHaveLength(1);
});
