/** Shared by the specs of retention: the dry run as a whole, and the worker's part on the real database. */
import { type OutboxMessage, runRetention, type UnitOfWork } from '#application';
import { workerContext } from '#messaging';
import { newId } from '#platform';
import type { Workbench } from '../support/workbench.js';

export interface HouseholdPreviewOnTest {
  householdId: string;
  countsFrom: string | null;
  goes: { kind: string; count: number }[];
  stays: { kind: string; count: number; reasons: string[]; dueAt: string | null }[];
}

export interface PreviewOnTest {
  policyRevision: number;
  policy: { countsFrom: string; days: Record<string, number> };
  notice: string;
  ofIncident: Omit<HouseholdPreviewOnTest, 'householdId'>;
  totals: { households: number; touched: number; erased: number; going: Record<string, number>; staying: Record<string, number>; heldBack: Record<string, number> };
  items: HouseholdPreviewOnTest[];
}

/** All pages of the dry run. */
export async function preview(bench: Workbench, limit = 200): Promise<PreviewOnTest> {
  const first = (await bench.network.get(`/v1/incidents/${bench.incident.id}/retention-preview?limit=${limit}`).expect(200)).body;
  const items = [...first.items];
  for (let cursor = first.nextCursor; cursor !== null; ) {
    const { body } = await bench.network.get(`/v1/incidents/${bench.incident.id}/retention-preview?limit=${limit}&cursor=${encodeURIComponent(cursor)}`).expect(200);
    items.push(...body.items);
    cursor = body.nextCursor;
  }
  return { ...first, items };
}

export async function start(bench: Workbench, policyRevision: number): Promise<string> {
  return (await bench.network.post(`/v1/incidents/${bench.incident.id}/retention-runs`, { personId: bench.incident.person('P1'), policyRevision }).expect(201)).body.id as string;
}

/** Does what the worker does for the row of a run. */
export async function workRun(bench: Workbench, runId: string, unitOfWork: UnitOfWork = bench.server.unitOfWork): Promise<string> {
  const { rows } = await bench.server.admin.query<{ id: string }>("select id from outbox where subject_id = $1 and kind = 'retention.run'", [runId]);
  const message: OutboxMessage = { id: rows[0]?.id ?? '', incidentId: bench.incident.id, kind: 'retention.run', subjectId: runId, traceparent: '' };
  return runRetention(unitOfWork, message, workerContext(bench.network.networkId, 'test', ''), { nowMs: bench.server.clock.nowMs(), newId: () => newId() });
}

/** Dies at the transaction of this number, before it is committed or just after. */
export function dying(unitOfWork: UnitOfWork, at: number, when: 'before' | 'after'): UnitOfWork {
  let transactions = 0;
  const died = new Error('the worker was killed');
  return {
    read: (context, work) => unitOfWork.read(context, work),
    command: (context, identity, work) => unitOfWork.command(context, identity, work),
    write: async (context, work) => {
      transactions += 1;
      const dies = transactions === at;
      const result = await unitOfWork.write(context, async (stores) => {
        const made = await work(stores);
        if (dies && when === 'before') throw died;
        return made;
      });
      if (dies) throw died;
      return result;
    },
  };
}
