import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import * as fc from 'fast-check';
import { doneAmong, nextInRoute, overrideInForce, settledSteps, type RecordedOutcome, type StepResultRecord, type Stores } from '#application';
import { DISPOSITIONS, MOULD_STATES, STEP_KINDS, type Disposition, type MouldState, type StepKind } from '#care';
import { newId } from '#platform';
import { startTestServer, takeInManyTestItems, takeInTestHousehold, type IncidentOnTest, type TestNetwork, type TestServer } from '#testing';

/** One thing that happened to an item, in the order in which it was recorded. */
type Happened = { kind: 'result'; step: StepKind; outcome: RecordedOutcome; undoes: StepKind[]; ticks: number } | { kind: 'choice'; disposition: Disposition; decidedHoursAgo: number };

interface History {
  mould: MouldState;
  happened: Happened[];
}

const OUTCOMES = ['done', 'done', 'done', 'done', 'failed', 'dye-moved', 'mould-found', 'owner-must-decide', 'wetted-again'] as const satisfies readonly RecordedOutcome[];
// Mostly steps of one route, so that it is often begun, undone and begun again.
const step = fc.oneof({ weight: 4, arbitrary: fc.constantFrom<StepKind>('rinse', 'blot', 'dry', 'check', 'surface-clean', 'thaw', 'freeze', 'refer') }, { weight: 1, arbitrary: fc.constantFrom(...STEP_KINDS) });
const everything: StepKind[] = [...STEP_KINDS];
const result = fc.record({ kind: fc.constant('result' as const), step, outcome: fc.constantFrom(...OUTCOMES), undoes: fc.oneof(fc.constant<StepKind[]>([]), fc.constant(everything), fc.uniqueArray(step, { maxLength: 6 })), ticks: fc.nat(2) });
const choice = fc.record({ kind: fc.constant('choice' as const), disposition: fc.constantFrom(...DISPOSITIONS), decidedHoursAgo: fc.nat(30) });
const history: fc.Arbitrary<History> = fc.record({ mould: fc.constantFrom(...MOULD_STATES), happened: fc.array(fc.oneof({ weight: 5, arbitrary: result }, { weight: 1, arbitrary: choice }), { maxLength: 14 }) });

const ITEMS = 12;
/** The way that the plan takes; the items themselves follow another one, so that the list works out what comes. */
const WAY = 'treat';

let server: TestServer;
let network: TestNetwork;
let incident: IncidentOnTest;
let items: string[];
let revision: string;
beforeAll(async () => {
  server = await startTestServer();
  network = await server.network();
  incident = await network.incident();
  items = await takeInManyTestItems(server, network, incident, await takeInTestHousehold(network, incident), ITEMS);
  revision = newId();
  await server.admin.query(
    `insert into plan_revision (network_id, incident_id, id, number, origin_at, slot_minutes, seed, iterations, weight_not_in_time, weighted_start, planned_items, unplanned_items, summary, created_at)
     values ($1, $2, $3, 1, now(), 5, 1, 1, 0, 0, 0, 0, '{}', now())`,
    [network.networkId, incident.id, revision],
  );
});
afterAll(() => server.close());

const onStores = <T>(work: (stores: Stores) => Promise<T>): Promise<T> => server.unitOfWork.write({ networkId: network.networkId, incidentLimit: null, principalId: newId(), requestId: 'test', traceparent: '' }, work);

/** Takes away what was written for the histories before. */
async function forget(): Promise<void> {
  for (const table of ['step_result', 'disposition_override', 'plan_assignment']) await server.admin.query(`delete from ${table} where network_id = $1`, [network.networkId]);
}

async function record(itemId: string, { mould, happened }: History): Promise<void> {
  let atMs = server.clock.nowMs();
  const common = { incidentId: incident.id, itemId };
  await onStores(async (stores) => {
    for (const one of happened) {
      if (one.kind === 'choice') {
        await stores.assessments.insertOverride({ ...common, id: newId(), disposition: one.disposition, reason: 'generated', decidedBy: incident.person('P1'), decidedAtMs: server.clock.nowMs() - one.decidedHoursAgo * 3_600_000, insteadOf: null, ruleBookVersion: null, openNeeds: null });
        continue;
      }
      atMs += one.ticks;
      await stores.steps.insert({ ...common, id: newId(), step: one.step, outcome: one.outcome, undoes: one.undoes, stationId: null, personId: null, note: '', startedAtMs: null, finishedAtMs: atMs, recordedAtMs: atMs });
    }
  });
  await server.admin.query(`update assessment set observed = jsonb_set(observed, '{mould}', to_jsonb($3::text)) where network_id = $1 and item_id = $2`, [network.networkId, itemId, mould]);
}

interface Told {
  results: StepResultRecord[];
  done: string[];
  override: Disposition | null;
}

/** What the pure rules say of what is on record. */
async function byTheRules(itemId: string): Promise<Told> {
  const { results, latest } = await onStores(async (stores) => ({ results: await stores.steps.ofItem(itemId), latest: await stores.assessments.latestOverride(itemId) }));
  return { results, done: [...doneAmong(results)].sort(), override: overrideInForce(latest, results)?.disposition ?? null };
}

async function forEachHistory(check: (histories: readonly History[]) => Promise<void>): Promise<void> {
  await fc.assert(
    fc.asyncProperty(fc.array(history, { minLength: ITEMS, maxLength: ITEMS }), async (histories) => {
      await forget();
      for (const [index, one] of histories.entries()) await record(items[index]!, one);
      await check(histories);
    }),
    { numRuns: 25 },
  );
}

describe('SQL follows the rules of the care code', () => {
  test('the input of a plan: the steps that are done and the choice that stands, over any history', async () => {
    await forEachHistory(async () => {
      const input = await onStores((stores) => stores.plans.loadInput(incident.id));
      for (const item of input!.items) {
        const rules = await byTheRules(item.id);
        expect({ done: [...new Set(item.doneSteps)].sort(), override: item.override }).toEqual({ done: rules.done, override: rules.override });
      }
    });
  });

  test('the list of what hangs: blotted or not, over any history', async () => {
    await server.admin.query(`update item set stage = 'drying', keeper_kind = 'drying-place', keeper_id = $2 where network_id = $1`, [network.networkId, incident.place('R1')]);
    await forEachHistory(async () => {
      const hanging = await onStores((stores) => stores.plans.hanging(incident.site()));
      expect(hanging).toHaveLength(ITEMS);
      for (const row of hanging) expect([row.itemId, row.blotted]).toEqual([row.itemId, (await byTheRules(row.itemId)).done.includes('blot')]);
    });
  });

  test('the work list: of all steps of a planned way the one that comes now, unless a lead has chosen another, over any history', async () => {
    await server.admin.query(`update item set stage = 'waiting', keeper_kind = 'holding', keeper_id = $2, disposition = 'hold-frozen', next_step = 'wrap', waiting_for_owner = false where network_id = $1`, [network.networkId, incident.holding('dirty')]);
    // Nothing is missing for the way and it has every kind of step that a round is made of.
    const route = (['assess', 'colour-test', 'rinse', 'blot', 'dry', 'surface-clean', 'check', 'wrap'] as const).map((kind) => ({ step: kind }));
    await server.admin.query(`update triage_result set result = jsonb_set(result, '{options}', $2) where network_id = $1`, [network.networkId, JSON.stringify([{ disposition: WAY, needs: [], steps: route }])]);
    await forEachHistory(async (histories) => {
      for (const itemId of items) for (const [position, { step: kind }] of route.entries()) await assign(itemId, position, kind);
      const listed = new Map((await onStores((stores) => stores.plans.workNext(incident.station('TEST'), revision, 1_000))).map((row) => [row.itemId, row.step]));
      for (const [index, itemId] of items.entries()) {
        const { results, override } = await byTheRules(itemId);
        const next = nextInRoute({ disposition: WAY, steps: route } as never, settledSteps(doneAmong(results), histories[index]!.mould));
        expect([itemId, listed.get(itemId) ?? null]).toEqual([itemId, override === null || override === WAY ? (next?.care.step ?? null) : null]);
      }
    });
  });
});

async function assign(itemId: string, position: number, kind: StepKind): Promise<void> {
  await server.admin.query(
    `insert into plan_assignment (network_id, incident_id, revision_id, item_id, position, step, disposition, station_id, person_ids, starts_at, ends_at)
     values ($1, $2, $3, $4, $5, $6, $7, $8, '{}', now(), now() + interval '5 minutes')`,
    [network.networkId, incident.id, revision, itemId, position, kind, WAY, incident.station('TEST')],
  );
}

test("of two choices the one recorded later counts, whatever the tablets' clocks said", async () => {
  await forget();
  const [itemId] = items as [string];
  await record(itemId, { mould: 'none', happened: [{ kind: 'choice', disposition: 'hold-frozen', decidedHoursAgo: 0 }, { kind: 'choice', disposition: 'treat', decidedHoursAgo: 9 }] });
  const input = await onStores((stores) => stores.plans.loadInput(incident.id));
  expect(input!.items.find(({ id }) => id === itemId)).toMatchObject({ override: 'treat' });
  expect((await byTheRules(itemId)).override).toBe('treat');
});
