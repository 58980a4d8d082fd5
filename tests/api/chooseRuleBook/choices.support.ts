import type { Test } from 'supertest';
import { runRuleBookChange, type UnitOfWork } from '#application';
import { workerContext } from '#messaging';
import { newId } from '#platform';
import type { Workbench } from '../support/workbench.js';

/** Chooses with the ETag that a GET shows now. */
export async function choose(bench: Workbench, choices: Record<string, string>, change: { release?: string; reason?: string; personId?: string; etag?: string } = {}): Promise<Test> {
  const etag = change.etag ?? (await bench.network.get('/v1/rulebook').expect(200)).headers['etag'] ?? '';
  return bench.network.post('/v1/rulebook/choices', { ...(change.release === undefined ? {} : { release: change.release }), choices, reason: change.reason ?? 'The halls stay above 28 C this week.', personId: change.personId ?? bench.incident.person('P1') }, { 'if-match': etag }) as unknown as Test;
}

export interface OpenRow {
  id: string;
  networkId: string;
  incidentId: string;
}

/** Rows of the outbox that ask for the things of an incident to be triaged anew, the oldest first. */
export async function openRows(bench: Workbench): Promise<OpenRow[]> {
  const { rows } = await bench.server.admin.query<OpenRow>(
    `select id, network_id as "networkId", incident_id as "incidentId" from outbox where network_id = $1 and kind = 'rule_book.chosen' and done_at is null order by id`,
    [bench.network.networkId],
  );
  return rows;
}

/** What the worker does for such a row; with `dieAfter` it breaks off after so many transactions. */
export function carryOut(bench: Workbench, row: OpenRow, dieAfter = Infinity): Promise<void> {
  const env = { nowMs: bench.server.clock.nowMs(), newId: () => newId() };
  const { unitOfWork } = bench.server;
  let left = dieAfter;
  const mortal: UnitOfWork = {
    read: (context, work) => unitOfWork.read(context, work),
    command: (context, identity, work) => unitOfWork.command(context, identity, work),
    write: (context, work) => (left-- > 0 ? unitOfWork.write(context, work) : Promise.reject(new Error('the worker was killed'))),
  };
  return runRuleBookChange(mortal, { id: row.id, incidentId: row.incidentId }, workerContext(row.networkId, 'test', ''), env);
}

/** The version of the latest triage of every item of the network, by item. */
export async function versions(bench: Workbench): Promise<Record<string, string>> {
  const { rows } = await bench.server.admin.query<{ item_id: string; rule_book_version: string }>(
    'select distinct on (item_id) item_id, rule_book_version from triage_result where network_id = $1 order by item_id, created_at desc, id desc',
    [bench.network.networkId],
  );
  return Object.fromEntries(rows.map((row) => [row.item_id, row.rule_book_version]));
}

export async function triages(bench: Workbench): Promise<number> {
  const { rows } = await bench.server.admin.query<{ n: number }>('select count(*)::int as n from triage_result where network_id = $1', [bench.network.networkId]);
  return rows[0]?.n ?? 0;
}

/** The release with which a network began long ago. */
export async function beganWith(bench: Workbench, release: string): Promise<void> {
  await bench.server.admin.query('update network set rule_book_release = $2 where network_id = $1', [bench.network.networkId, release]);
}
