import type { PersonalStore } from '#application';
import { cellsField } from '../stores/pg-import-store.js';
import type { Client } from '../pool.js';
import { answerField, ERASED_ANSWER, sealerOf } from '../command-record.js';
import { blankAnswersNaming, blankSealedAnswers, UUID } from './answers.js';
import { type Decision, PERSONAL_TABLES } from './columns.js';
import { blankNamed, plain } from './names.js';

/** Whose words go. */
export interface Erased {
  networkId: string;
  incidentId: string;
  householdId: string;
  code: string;
  /** As the contact has it; refused rows of imports are found by it. */
  name: string;
  itemIds: string[];
}

/** Blanks every row about the household and its things, as `columns.ts` says; the key is destroyed by the caller, after this. */
export async function blankRows(client: Client, personal: PersonalStore, whose: Erased): Promise<void> {
  await blankAnswers(client, whose, await blankNamed(client, whose));
  await blankFoundAnswers(client, personal, whose);
  await client.query('delete from household_word where network_id = $1 and household_id = $2', [whose.networkId, whose.householdId]);
  await client.query('delete from item_word where network_id = $1 and incident_id = $2 and item_id = any($3::uuid[])', [whose.networkId, whose.incidentId, whose.itemIds]);
  for (const [table, { rows, columns }] of Object.entries(PERSONAL_TABLES)) {
    const set = Object.entries(columns).flatMap(([column, decision]) => assignment(column, decision));
    if (set.length === 0) continue;
    await client.query(`update ${table} set ${set.join(', ')} where network_id = $1 and (${rows}) and $2::uuid is not null and $3::uuid[] is not null`, [whose.networkId, whose.householdId, whose.itemIds]);
  }
  await client.query('delete from item_word where network_id = $1 and incident_id = $2 and item_id = any($3::uuid[])', [whose.networkId, whose.incidentId, whose.itemIds]);
  await blankContainerWords(client, whose);
  await blankRefusedRows(client, personal, whose);
}

function assignment(column: string, decision: Decision): string[] {
  if (decision === 'sealed' || decision === 'clear') return [`${column} = null`];
  return typeof decision === 'object' ? [`${column} = ${decision.blanked}`] : [];
}

/** What was said when a container passed that had things of the household in it may be about them. */
async function blankContainerWords(client: Client, { networkId, itemIds }: Erased): Promise<void> {
  await client.query(
    `update custody_words w set sealed = null where w.network_id = $1 and w.household_id is null
       and w.chain_id in (select e.to_id from custody_event e where e.network_id = $1 and e.item_id = any($2::uuid[]) and e.to_kind = 'container')`,
    [networkId, itemIds],
  );
}

/** Answers to commands that were about the household, its things, or what names it: whoever repeats such a command is told that it was erased. */
async function blankAnswers(client: Client, { networkId, householdId, itemIds }: Erased, named: readonly string[]): Promise<void> {
  await blankSealedAnswers(client, networkId, householdId);
  await blankAnswersNaming(client, networkId, [householdId, ...itemIds, ...named]);
}

/** What was answered about a thing while nobody knew whose it is was sealed for the record of unknown owners: it is opened to see whether it is about one of these. */
async function blankFoundAnswers(client: Client, personal: PersonalStore, { networkId, incidentId, itemIds }: Erased): Promise<void> {
  const { rows } = await client.query<{ principal_id: string; operation: string; idempotency_key: string; household_ids: string[]; body_sealed: Uint8Array }>(
    `select r.principal_id, r.operation, r.idempotency_key, r.household_ids, r.body_sealed from idempotency_record r
     where r.network_id = $1 and r.body_sealed is not null and r.household_ids && array(select h.id from household h where h.network_id = $1 and h.incident_id = $2 and h.unknown_owner)
       and exists (select from found_item f where f.network_id = $1 and f.item_id = any($3::uuid[]))`,
    [networkId, incidentId, itemIds],
  );
  const theirs = new Set(itemIds);
  for (const { principal_id: principal, operation, idempotency_key: key, household_ids: households, body_sealed: sealed } of rows) {
    const text = await personal.open(sealerOf(households), answerField(principal, operation, key), sealed);
    if (!(text?.match(UUID) ?? []).some((id) => theirs.has(id))) continue;
    await client.query(`update idempotency_record set fingerprint = 'erased', status = $5, body = $6, body_sealed = null, headers = '{}', household_ids = '{}' where network_id = $1 and principal_id = $2 and operation = $3 and idempotency_key = $4`, [networkId, principal, operation, key, ERASED_ANSWER.status, JSON.stringify(ERASED_ANSWER.body)]);
  }
}

/** Rows that did not go in have no item: those that name the household's code or its contact are blanked, and files that still wait are left to their end. */
async function blankRefusedRows(client: Client, personal: PersonalStore, { networkId, incidentId, code, name }: Erased): Promise<void> {
  const { rows } = await client.query<{ import_id: string; row_number: number; cells: object | null; cells_sealed: Uint8Array | null }>(
    'select import_id, row_number, cells, cells_sealed from intake_import_row where network_id = $1 and incident_id = $2 and item_id is null',
    [networkId, incidentId],
  );
  const opened = await personal.openAll(rows.map((row) => ({ householdId: null, field: cellsField(row.import_id, row.row_number), sealed: row.cells_sealed })));
  const sought = [code, name].map(plain).filter((word) => word !== '');
  const found = rows.filter((row, index) => {
    const cells = Object.values((row.cells ?? JSON.parse(opened[index] ?? '{}')) as Record<string, string>).map(plain);
    return cells.some((cell) => sought.some((word) => cell.includes(word)));
  });
  for (const { import_id: importId, row_number: row } of found) {
    await client.query(`update intake_import_row set cells = '{}', cells_sealed = null, remarks = '[]' where network_id = $1 and import_id = $2 and row_number = $3`, [networkId, importId, row]);
  }
}
