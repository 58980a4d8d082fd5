/** What-ifs as the worker reckons them, without the worker, on an incident that is short of things. */
import { giveUpPlanWhatIf, runPlanWhatIf, type Planner, type WhatIfEffort } from '#application';
import { type IncidentOnTest, takeInTestHousehold, takeInTestItem, type TestNetwork, type TestServer } from '#testing';
import { environmentOf, gateway, inlinePlanner, planNow, withBenches, workerContextOf } from '../../unit/plan-problem/support/runs.js';
import { SOUND_COTTON } from './workbench.js';

export interface ShortIncident {
  network: TestNetwork;
  incident: IncidentOnTest;
  /** Three quilts that only a freezer can hold, as nobody tests colours; it holds one. */
  quilts: string[];
}

/** A planned incident with three quilts and a freezer for one. */
export async function shortOfFreezer(server: TestServer): Promise<ShortIncident> {
  const network = await server.network();
  const incident = await network.incident((document) => {
    withBenches(document);
    for (const person of document.people ?? []) person.skills = person.skills?.filter((skill) => skill !== 'colour-testing');
    document.sites[0]!.freezers![0]!.volumeL = 40;
  });
  const household = await takeInTestHousehold(network, incident);
  const quilts: string[] = [];
  for (let i = 0; i < 3; i += 1) {
    const { id } = await takeInTestItem(network, incident, household);
    await network.post(`/v1/items/${id}/assessments`, { personId: incident.person('P1'), ...SOUND_COTTON }).expect(201);
    quilts.push(id);
  }
  await planNow(server, network, incident);
  return { network, incident, quilts };
}

/** Asks through the API and answers where it is. */
export async function ask(network: Pick<TestNetwork, 'post'>, incident: Pick<IncidentOnTest, 'id'>, body: object): Promise<string> {
  return (await network.post(`/v1/incidents/${incident.id}/plan-what-ifs`, body).expect(202)).body.id as string;
}

export async function reckon(server: TestServer, network: TestNetwork, id: string, planner: Planner = inlinePlanner, effort: WhatIfEffort = { iterations: 20 }) {
  return runPlanWhatIf(server.unitOfWork, planner, await messageOf(server, network, id), workerContextOf(network), environmentOf(server), effort);
}

/** Planners of runs that have to overlap: none plans before as many runs as there should be have come to their first plan. */
export function meetingPlanner(runs: number): () => Planner {
  const meeting = gateway();
  let arrived = 0;
  return () => {
    let first = true;
    return {
      plan: async (problem, budget) => {
        if (first) arrived += 1;
        first = false;
        if (arrived === runs) meeting.open();
        await meeting.opened;
        return inlinePlanner.plan(problem, budget);
      },
    };
  };
}

/** What the worker does when all tries have failed. */
export async function giveUp(server: TestServer, network: TestNetwork, id: string): Promise<void> {
  await giveUpPlanWhatIf(server.unitOfWork, await messageOf(server, network, id), workerContextOf(network), environmentOf(server));
}

async function messageOf(server: TestServer, network: TestNetwork, id: string): Promise<{ id: string; subjectId: string }> {
  const { rows } = await server.admin.query<{ id: string }>("select id from outbox where network_id = $1 and subject_id = $2 and kind = 'plan.what_if'", [network.networkId, id]);
  if (rows.length !== 1) throw new Error(`${rows.length} outbox rows for one what-if`);
  return { id: rows[0]!.id, subjectId: id };
}

/** Everything that a live plan consists of. */
export async function livePlan(server: TestServer, incidentId: string): Promise<Record<string, unknown[]>> {
  const read = async (sql: string) => (await server.admin.query(sql, [incidentId])).rows as unknown[];
  return {
    revisions: await read('select * from plan_revision where incident_id = $1 order by number'),
    assignments: await read('select * from plan_assignment where incident_id = $1 order by revision_id, item_id, position'),
    unplanned: await read('select * from plan_unplanned where incident_id = $1 order by revision_id, item_id'),
    epochs: await read('select * from plan_epoch where incident_id = $1'),
    runs: await read('select * from plan_run where incident_id = $1 order by id'),
    wishes: await read('select * from plan_wish where incident_id = $1 order by id'),
  };
}
