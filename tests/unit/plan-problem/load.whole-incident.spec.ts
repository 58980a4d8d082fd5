import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { buildProblem } from '#application';
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
