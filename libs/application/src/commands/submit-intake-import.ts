import { createHash } from 'node:crypto';
import { render } from '#care';
import { notFound, Problem } from '#contracts';
import type { UseCaseCall } from '../call.js';
import { holdingKeeper } from '../intake/import/apply-rows.js';
import type { FileFault } from '../intake/import/file-limits.js';
import { readTable, type TableMediaType } from '../intake/import/read-table.js';
import type { Table } from '../intake/import/table.js';
import type { ImportRecord } from '../ports/import-store.js';
import type { Stores } from '../ports/work.js';

export interface SubmitIntakeImportInput {
  incidentId: string;
  siteId: string;
  fileName: string;
  mediaType: TableMediaType;
  /** A plain view of the bytes: a Buffer would be turned into a list of numbers where the command is fingerprinted. */
  content: Uint8Array;
}

/**
 * Takes a file of arrivals for the worker. A file that cannot be read is refused whole and changes nothing; the rows
 * of a readable one are judged one by one, later. The same file again answers the earlier import.
 */
export async function submitIntakeImport(stores: Stores, call: UseCaseCall, input: SubmitIntakeImportInput): Promise<{ record: ImportRecord; created: boolean }> {
  const incident = await stores.places.incident(input.incidentId);
  if (!incident) throw notFound('incident');
  if (incident.state === 'closed') throw new Problem('incident_closed', 'The incident takes in nothing more. Open it again, or use the incident that runs.');
  const site = await stores.places.site(input.siteId);
  if (!site || site.incidentId !== incident.id) throw unknownSite();
  if (!(await holdingKeeper(stores, site.id))) throw new Problem('command_refused', 'The site has no waiting area where the things could be put down. Add one, or name another site.');
  const table = readTable(input.content, input.mediaType);
  if (Array.isArray(table)) throw unreadable(table);
  const { record, created } = await stores.imports.insert(newRecord(call, input, table), input.content);
  if (created) await stores.outbox.append({ id: call.env.newId(), incidentId: incident.id, kind: 'intake_import.submitted', subjectId: record.id, traceparent: call.context.traceparent });
  return { record, created };
}

function newRecord(call: UseCaseCall, input: SubmitIntakeImportInput, table: Table): ImportRecord {
  return {
    id: call.env.newId(), incidentId: input.incidentId, siteId: input.siteId, fileName: input.fileName, mediaType: input.mediaType,
    sha256: createHash('sha256').update(input.content).digest('hex'), reading: table.reading,
    state: 'queued', rowsTotal: table.rows.length, rowsDone: 0, accepted: 0, repaired: 0, refused: 0, alreadyThere: 0, failure: null,
    submittedBy: call.context.principalId, submittedAtMs: call.env.nowMs, finishedAtMs: null,
  };
}

function unreadable(faults: readonly FileFault[]): Problem {
  const code = faults.some((fault) => fault.code === 'file_too_large') ? 'body_too_large' : 'validation_failed';
  const told = faults.map((fault) => ({ detail: render(fault.said, 'en'), code: fault.code, pointer: '#' }));
  return new Problem(code, `${told.map(({ detail }) => detail).join(' ')} Nothing was changed.`, { errors: told, members: { inWords: faults.map(({ said }) => said) } });
}

function unknownSite(): Problem {
  return new Problem('reference_unknown', 'There is no site with this id in the incident.', { errors: [{ detail: 'names nothing of this incident', code: 'reference_unknown', parameter: 'siteId' }] });
}
