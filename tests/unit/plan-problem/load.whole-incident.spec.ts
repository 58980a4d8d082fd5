import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { buildProblem } from '#application';
import type { TriageOutcome } from '#care';
import { checkProblem } from '#planning';
import { MORNING_MS, startTestServer, type IncidentOnTest, type TestNetwork, type TestServer } from '#testing';
import { crowd } from './support/crowd.js';
import { carryOut, request, withBenches, workerContextOf } from './support/runs.js';

let server: TestServer;
let network: TestNetwork;
let incident: IncidentOnTest;
beforeAll(async () => {
  server = await startTestServer();
  network = await server.network();
  incident = await network.incident(withBenches);
  await crowd(server.admin, network, incident, 2_600, MORNING_MS);
}, 120_000);
afterAll(() => server.close());

test('the rows of 2,600 items become a sound problem that leaves none of them out unsaid', async () => {
  const input = await server.unitOfWork.read(workerContextOf(network), (stores) => stores.plans.loadInput(incident.id));
  const built = buildProblem(input!, { nowMs: MORNING_MS });
  expect(input!.items).toHaveLength(2_600);
  expect(built.problem.items.length + built.leftOut.length).toBe(2_600);
  expect(checkProblem(built.problem)).toEqual([]);
});

test('what is read of a triage is what it says of every way, step by step and in order', async () => {
  const input = await server.unitOfWork.read(workerContextOf(network), (stores) => stores.plans.loadInput(incident.id));
  const { rows } = await server.admin.query<{ item_id: string; start_by: Date; result: TriageOutcome }>('select item_id, start_by, result from triage_result where network_id = $1 order by item_id limit 40', [network.networkId]);
  const read = new Map(input!.items.map((item) => [item.id, item]));
  for (const { item_id, start_by, result } of rows) {
    const { startByMs, deadlinesMs, options } = read.get(item_id)!;
    const steps = (all: TriageOutcome['options'][number]['steps']) => all.map(({ step, zone, minutesPerPiece, crew, skill, barredRestrictions, ppe, stabilises }) => ({ step, zone, minutesPerPiece, crew, skill, barredRestrictions, ppe, stabilises }));
    expect({ startByMs, deadlinesMs, options }).toEqual({
      startByMs: start_by.getTime(), deadlinesMs: result.clocks.map(({ deadlineAtMs }) => deadlineAtMs),
      options: result.options.map((option) => ({ disposition: option.disposition, needs: option.needs.length, steps: steps(option.steps) })),
    });
  }
  expect(rows.some(({ result }) => result.options.some((option) => option.needs.length > 0))).toBe(true);
});

test('the newest triage counts, whichever was written first', async () => {
  const { rows: [row] } = await server.admin.query<{ item_id: string }>('select item_id from triage_result where network_id = $1 limit 1', [network.networkId]);
  const again = (minutes: number, startBy: string) => server.admin.query(
    `insert into triage_result (network_id, incident_id, id, item_id, assessment_id, rule_book_version, urgency, start_by, result, created_at)
     select network_id, incident_id, uuidv7(), item_id, assessment_id, rule_book_version, urgency, $3, jsonb_set(result, '{options}', '[]'), created_at + $2 * interval '1 minute' from triage_result where item_id = $1 order by created_at, id limit 1`,
    [row!.item_id, minutes, startBy]);
  await again(2, '2026-05-09T12:00:00Z');
  await again(1, '2026-05-09T11:00:00Z');
  const input = await server.unitOfWork.read(workerContextOf(network), (stores) => stores.plans.loadInput(incident.id));
  expect(input!.items.find(({ id }) => id === row!.item_id)).toMatchObject({ startByMs: Date.parse('2026-05-09T12:00:00Z'), options: [] });
});

test('a plan of 2,600 items is stored whole, and its lists are read page by page', async () => {
  expect(await carryOut(server, network, await request(server, network, incident), undefined, { iterations: 0 })).toBe('done');
  const { body } = await network.get(`/v1/incidents/${incident.id}/plan`).expect(200);
  expect(body.plannedItems + body.unplannedItems).toBe(2_600);
  const { rows } = await server.admin.query('select (select count(distinct item_id)::int from plan_assignment where network_id = $1) as planned, (select count(*)::int from plan_unplanned where network_id = $1) as unplanned', [network.networkId]);
  expect(rows).toEqual([{ planned: body.plannedItems, unplanned: body.unplannedItems }]);
  await network.get(`/v1/incidents/${incident.id}/plan/unplanned?limit=200`).expect(200);
  await network.get(`/v1/incidents/${incident.id}/plan/assignments?limit=200`).expect(200);
  await network.get(`/v1/stations/${incident.station('TEST')}/work-list?limit=100`).expect(200);
});
