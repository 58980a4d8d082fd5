import { expect } from '@jest/globals';
import { render, type Message } from '#care';
import type { TestServer } from '#testing';

/** A plan run that waits, with the bells that were written for it and whether they wait for company. */
export interface WaitingRun {
  reason: string;
  bells: number;
  delayed: boolean;
}

/** How long a request gathers at the least, `PLAN_GATHERS_MS.changed`; less one hundredth, as the database reads its clock once for each of the two times. */
const GATHERS_S = 4.99;

/**
 * The runs of an incident that wait. Whether they wait for company is told by the time that they were given when they were written, not by what is left of
 * it: a busy machine may have let all of it pass.
 */
export async function waitingRuns(server: TestServer, incidentId: string): Promise<WaitingRun[]> {
  const { rows } = await server.admin.query<WaitingRun & { values: Message['values'] | null }>(
    `select r.reason, r.reason_values as values, count(o.id)::int as bells, coalesce(bool_or(o.leased_until >= o.created_at + $2 * interval '1 s'), false) as delayed
     from plan_run r left join outbox o on o.network_id = r.network_id and o.subject_id = r.id and o.kind = 'plan.requested' and o.done_at is null
     where r.incident_id = $1 and r.state = 'queued' group by r.id, r.reason, r.reason_values order by r.id`,
    [incidentId, GATHERS_S],
  );
  return rows.map(({ reason, values, ...run }) => ({ reason: render({ text: reason, ...(values && { values }) }, 'en'), ...run }));
}

/** Does a change and expects that it asked for a plan, a second one and expects that it asked for no second. */
export async function expectOneRequest(server: TestServer, incidentId: string, reason: string, changes: { first: () => Promise<unknown>; second: () => Promise<unknown> }): Promise<void> {
  expect(await waitingRuns(server, incidentId)).toEqual([]);
  await changes.first();
  const asked = [{ reason, bells: 1, delayed: true }];
  expect(await waitingRuns(server, incidentId)).toEqual(asked);
  await changes.second();
  expect(await waitingRuns(server, incidentId)).toEqual(asked);
}
