import { execFile } from 'node:child_process';
import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { promisify } from 'node:util';
import { expect, test } from '@jest/globals';
import { deadlinesOf, explained, groundOfStation, packGround, planLoad, type PlanExplanationGround, type PlanLoadParts } from '#application';
import { buildPlan } from '#planning';
import { projectRoot } from '#platform';
import { salvageDay } from '../planning/support/day.builder.js';

const PROBLEM = salvageDay(400, 3);
const PLAN = buildPlan(PROBLEM, { seed: 5, iterations: 10 });
const GROUND = { problem: PROBLEM, plan: PLAN, leftOut: [] };
const NOTHING = { sites: [], stations: [], rooms: [], places: [], freezers: [], specialists: [], rides: [], people: [], dehumidifiers: [] };
const REVISION = { id: 'r', number: 1, createdAtMs: 0 } as unknown as PlanExplanationGround['revision'];
const [ITEM = '', OTHER = ''] = [...new Set(PLAN.assignments.map(({ itemId }) => itemId))];
const READ = { itemId: ITEM, otherItemId: OTHER, revision: REVISION, layout: NOTHING, whatIf: null };
const LABELS: [string, { tagCode: string; description: string }][] = [[ITEM, { tagCode: 'K0001', description: 'Quilt' }], [OTHER, { tagCode: 'K0002', description: 'Letters' }]];
const LOAD: Omit<PlanLoadParts, 'packed'> = { resource: 'crew', what: '', siteId: PROBLEM.people[0]?.siteId, revision: REVISION, layout: NOTHING, timeZone: 'UTC', nowMs: PROBLEM.originMs, fromMs: PROBLEM.originMs, toMs: PROBLEM.originMs + 8 * 3_600_000 };

/** The build runs as it does in production: Jest has no worker of its own for TypeScript. The threads are those of the API. */
async function inTheBuild(body: string): Promise<unknown> {
  const packed = Buffer.from(await packGround(GROUND)).toString('base64');
  const script = `
    import { planThreads } from ${JSON.stringify(join(projectRoot(), 'dist/apps/api/src/threads/plan-threads.js'))};
    const packed = new Uint8Array(Buffer.from('${packed}', 'base64'));
    const read = { ...${JSON.stringify(READ)}, labels: new Map(${JSON.stringify(LABELS)}), packed };
    const parts = { ...${JSON.stringify(LOAD)}, packed };
    const plain = (told) => JSON.parse(JSON.stringify(told, (_, value) => (value instanceof Map ? [...value] : value)));
    const threads = planThreads();
    const answer = await (async () => { ${body} })();
    await threads.close();
    process.stdout.write(JSON.stringify(answer));`;
  const { stdout } = await promisify(execFile)(process.execPath, ['--input-type=module', '-e', script], { cwd: projectRoot(), maxBuffer: 64 * 1024 * 1024 });
  return JSON.parse(stdout);
}

const plain = (told: unknown): unknown => JSON.parse(JSON.stringify(told, (_, value: unknown) => (value instanceof Map ? [...value] : value)));

test('the thread explains an item, and its order against another, as this one does', async () => {
  const told = await inTheBuild("return plain(await threads.explain('one', read));");
  expect(told).toEqual(plain(explained({ ...READ, labels: new Map(LABELS) }, GROUND)));
  expect(told).toMatchObject({ state: 'planned', before: { otherItemId: OTHER } });
});

test('the thread reckons a load as this one does, and refuses a resource that is not there in the same words', async () => {
  const told = await inTheBuild("return [plain(await threads.load('one', parts)), await threads.load('one', { ...parts, resource: 'freezer', what: 'none', siteId: undefined }).catch(({ code, detail, extras }) => ({ code, detail, extras }))];");
  const refusal = (() => {
    try {
      return planLoad({ ...LOAD, resource: 'freezer', what: 'none', siteId: undefined }, GROUND);
    } catch (error) {
      const { code, detail, extras } = error as { code: string; detail: string; extras: unknown };
      return { code, detail, extras };
    }
  })();
  expect(told).toEqual([plain(planLoad(LOAD, GROUND)), plain(refusal)]);
  expect(refusal).toMatchObject({ code: 'reference_unknown' });
});

test('the thread finds what a chart and a count of promises need of a plan, as this one does, and no more', async () => {
  const stationId = PLAN.assignments.find((one) => one.stationId !== null)?.stationId ?? '';
  const [share, deadlines] = (await inTheBuild(`return [plain(await threads.station('one', { packed, stationId: '${stationId}' })), plain(await threads.deadlines('one', { packed }))];`)) as [typeof GROUND, unknown[]];
  expect(share).toEqual(plain(groundOfStation(GROUND, stationId)));
  expect(share.plan.assignments.length).toBeGreaterThan(0);
  expect(share.plan.assignments.length).toBeLessThan(PLAN.assignments.length);
  expect(share.plan.assignments.every((one) => one.stationId === stationId)).toBe(true);
  expect(deadlines).toEqual(plain(deadlinesOf(GROUND)));
  expect(deadlines).toHaveLength(PROBLEM.items.length);
});

test('nothing is thought in the process itself: where the thread is silent, the process goes on and gives the question up', async () => {
  const folder = await mkdtemp(join(tmpdir(), 'plan-threads-'));
  try {
    const silent = join(folder, 'silent.mjs');
    await writeFile(silent, "import { parentPort } from 'node:worker_threads'; parentPort.on('message', () => undefined);");
    const told = await inTheBuild(`
      const mute = planThreads({ file: ${JSON.stringify(silent)}, timeoutMs: 300, graceMs: 0 });
      const answers = await Promise.all([mute.explain('one', read), mute.load('other', parts), mute.station('third', { packed, stationId: '' }), mute.deadlines('fourth', { packed })].map((asked) => asked.then(() => 'thought', ({ code }) => code)));
      await mute.close();
      return answers;`);
    expect(told).toEqual(['unavailable', 'unavailable', 'unavailable', 'unavailable']);
  } finally {
    await rm(folder, { recursive: true });
  }
});
