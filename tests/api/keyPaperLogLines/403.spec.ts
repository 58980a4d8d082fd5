import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { at, PaperKit, traceOf } from '../support/paper.js';
import { Workbench } from '../support/workbench.js';

let bench: Workbench;
beforeAll(async () => {
  bench = await Workbench.open();
});
afterAll(() => bench.close());

const move = (kit: PaperKit, tag: string) => ({ sheetNo: kit.sheetOf(bench.incident.holding('clean')), lineNo: 1, writtenAt: at('07:00'), tag });
const step = (kit: PaperKit, tag: string) => ({ sheetNo: kit.log('RINSE'), lineNo: 1, writtenAt: at('07:00'), tag, step: 'rinse', outcome: 'done', personId: bench.incident.person('P1') });

async function keyedBy(scope: 'station:work' | 'custody:write', kit: PaperKit, ...lines: object[]) {
  const client = bench.network.as(await bench.network.newKey({ scopes: [scope] }));
  return client.post(`/v1/paper-kits/${kit.id}/log-lines`, { personId: bench.incident.person('P2'), lines });
}

test('a key that may only work at stations keys no lines, because lines move things', async () => {
  const [kit, quilt] = [await PaperKit.make(bench), await bench.testedQuilt(await bench.household())];
  const { status, body } = await keyedBy('station:work', kit, step(kit, quilt.tag));
  expect([status, body.code]).toEqual([403, 'scope_missing']);
  expect(await traceOf(bench, quilt.id)).toHaveLength(1);
});

test('a key that may only move things keys moves; a line with a step is refused by itself, and may be keyed by somebody else', async () => {
  const [kit, quilt] = [await PaperKit.make(bench), await bench.testedQuilt(await bench.household())];
  const { status, body } = await keyedBy('custody:write', kit, move(kit, quilt.tag), step(kit, quilt.tag));
  expect(status).toBe(200);
  expect(body.results).toMatchObject([{ verdict: 'keyed', became: 'moved' }, { verdict: 'refused', problem: { code: 'scope_missing', status: 403, scope: 'station:work', errors: [{ pointer: '#/lines/1/step' }] } }]);
  expect((await kit.key(step(kit, quilt.tag)))[0]).toMatchObject({ verdict: 'keyed', became: 'step' });
  // What was keyed by others is not told either.
  expect((await keyedBy('custody:write', kit, step(kit, quilt.tag))).body.results).toMatchObject([{ verdict: 'refused', stepResultId: null, problem: { code: 'scope_missing' } }]);
});
