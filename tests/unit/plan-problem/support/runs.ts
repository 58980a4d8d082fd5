/** Plan runs as the worker does them, without the worker: the planner in this thread, the message from the outbox. */
import { runPlan, type CallContext, type Environment, type PlanEffort, type Planner } from '#application';
import { buildPlan } from '#planning';
import { newId } from '#platform';
import type { incidentDocument, IncidentOnTest, TestNetwork, TestServer } from '#testing';

export const inlinePlanner: Planner = { plan: (problem, budget) => Promise.resolve(buildPlan(problem, budget)) };

export interface Requested {
  runId: string;
  message: { id: string; subjectId: string };
}

export function workerContextOf(network: TestNetwork): CallContext {
  return { networkId: network.networkId, incidentLimit: null, principalId: '00000000-0000-0000-0000-000000000000', requestId: 'test', traceparent: '' };
}

export function environmentOf(server: TestServer): Environment {
  return { nowMs: server.clock.nowMs(), newId: () => newId() };
}

/** Asks for a plan through the API and finds the outbox row that came of it. */
export async function request(server: TestServer, network: TestNetwork, incident: IncidentOnTest, reason = 'test'): Promise<Requested> {
  const { body } = await network.post(`/v1/incidents/${incident.id}/plan-runs`, { reason }).expect(202);
  const { rows } = await server.admin.query<{ id: string }>('select id from outbox where network_id = $1 and subject_id = $2', [network.networkId, body.id]);
  if (rows.length !== 1) throw new Error(`${rows.length} outbox rows for one run`);
  return { runId: body.id as string, message: { id: rows[0]!.id, subjectId: body.id as string } };
}

export function carryOut(server: TestServer, network: TestNetwork, { message }: Requested, planner: Planner = inlinePlanner, effort: PlanEffort = { iterations: 30 }) {
  return runPlan(server.unitOfWork, planner, message, workerContextOf(network), environmentOf(server), effort);
}

/** A plan of the incident as it stands. */
export async function planNow(server: TestServer, network: TestNetwork, incident: IncidentOnTest): Promise<void> {
  const outcome = await carryOut(server, network, await request(server, network, incident));
  if (outcome !== 'done') throw new Error(`the plan run ended ${outcome}`);
}

/** The small incident with a bench for wrapping and packing on each side, which the routes of the rule book ask for. */
export function withBenches(document: ReturnType<typeof incidentDocument>): void {
  const site = document.sites[0]!;
  const openings = site.stations?.[0]?.openings;
  site.stations?.push({ code: 'BENCH', name: 'Bench on the dirty side', zone: 'dirty', steps: ['wrap', 'pack', 'stabilise'], capacity: 2, ...(openings ? { openings } : {}) });
  site.stations?.find(({ code }) => code === 'PACK')?.steps.push('wrap');
}

export interface Assignment {
  itemId: string;
  position: number;
  step: string;
  disposition: string;
  stationId: string | null;
  personIds: string[];
  dryingPlaceId: string | null;
  freezerId: string | null;
  startsAt: string;
  endsAt: string;
  option: number | null;
  batchId: string | null;
  together: number;
}

/** All assignments, page by page. */
export async function assignmentsOf(network: TestNetwork, incident: IncidentOnTest, filter = ''): Promise<Assignment[]> {
  const all: Assignment[] = [];
  let path: string | null = `/v1/incidents/${incident.id}/plan/assignments?limit=17${filter}`;
  while (path !== null) {
    const { body } = (await network.get(path).expect(200)) as { body: { items: Assignment[]; nextCursor: string | null } };
    all.push(...body.items);
    path = body.nextCursor === null ? null : `/v1/incidents/${incident.id}/plan/assignments?limit=17${filter}&cursor=${encodeURIComponent(body.nextCursor)}`;
  }
  return all;
}

/** Something to wait for until it is opened. */
export function gateway(): { opened: Promise<void>; open: () => void } {
  let open = (): void => undefined;
  const opened = new Promise<void>((resolve) => {
    open = resolve;
  });
  return { opened, open };
}
