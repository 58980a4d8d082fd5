import { HELD_LEFT_OUT, type HeldRows, type PersonalStore, personalField } from '#application';
import { cellsField } from '../stores/pg-import-store.js';
import type { Client } from '../pool.js';

const LEFT_OUT: readonly string[] = HELD_LEFT_OUT;

/** Columns of keys and hashes: they are of no use to anybody else, and some open doors. And who found a thing, who is not whom the data are about. */
const SECRET = new Set(['network_id', 'secret_sha256', 'code_salt', 'code_hash', 'content_key', 'wrapped', 'fingerprint', 'finder']);

type Row = Record<string, unknown>;

/** Where a sealed column is sealed under another name than `table.column:id`, and under which name it is told. */
const FIELDS: Readonly<Record<string, { told: string; householdId?: null; field(row: Row): string }>> = {
  'household_contact.sealed': { told: 'contact', field: () => 'household_contact' },
  'consent.note_sealed': { told: 'note', field: (row) => personalField('consent.note', String(row['id'])) },
  'item.family_words_sealed': { told: 'family_words', field: (row) => personalField('item.family_words', String(row['id'])) },
  'custody_words.sealed': { told: 'words', field: (row) => personalField('custody_words', `${String(row['chain_id'])}:${String(row['seq'])}`) },
  'found_item.place': { told: 'place', householdId: null, field: (row) => personalField('found_item.place', String(row['id'])) },
  'owner_mark.question': { told: 'question', householdId: null, field: (row) => personalField('owner_mark.question', String(row['id'])) },
  'owner_mark.answer': { told: 'answer', householdId: null, field: (row) => personalField('owner_mark.answer', String(row['id'])) },
  'unclaimed_decision.reason': { told: 'reason', householdId: null, field: (row) => personalField('unclaimed_decision.reason', String(row['id'])) },
  'intake_import_row.cells_sealed': { told: 'cells', householdId: null, field: (row) => cellsField(String(row['import_id']), Number(row['row_number'])) },
};

/**
 * Every row of every table that names the household or one of its things: read off the database itself, so that a table of tomorrow is in it. Sealed
 * columns are opened.
 */
export async function everythingOf(client: Client, personal: PersonalStore, networkId: string, householdId: string): Promise<HeldRows> {
  const held: HeldRows = { household: await rowsOf(client, 'household', 'id = $2', [networkId, householdId]), item: await rowsOf(client, 'item', 'household_id = $2', [networkId, householdId]) };
  const itemIds = held['item']?.map((row) => row['id']) ?? [];
  for (const { table, household, item } of await tablesAbout(client)) {
    if (LEFT_OUT.includes(table) || table === 'item') continue;
    const where = [household ? 'household_id = $2' : null, item ? 'item_id = any($3::uuid[])' : null].filter((part) => part !== null).join(' or ');
    const rows = await rowsOf(client, table, `(${where})${item ? '' : ' and $3::uuid[] is not null'}${household ? '' : ' and $2::uuid is not null'}`, [networkId, householdId, itemIds]);
    if (rows.length > 0) held[table] = rows;
  }
  for (const [table, rows] of Object.entries(held)) held[table] = await opened(personal, householdId, table, rows);
  return held;
}

async function tablesAbout(client: Client): Promise<{ table: string; household: boolean; item: boolean }[]> {
  const { rows } = await client.query<{ table: string; household: boolean; item: boolean }>(
    `select table_name as "table", bool_or(column_name = 'household_id') as household, bool_or(column_name = 'item_id') as item
     from information_schema.columns where table_schema = 'public' and column_name in ('household_id', 'item_id') group by table_name order by table_name`,
  );
  return rows;
}

async function rowsOf(client: Client, table: string, where: string, values: unknown[]): Promise<Row[]> {
  return (await client.query<Row>(`select * from "${table}" where network_id = $1 and ${where}`, values)).rows;
}

async function opened(personal: PersonalStore, householdId: string, table: string, rows: readonly Row[]): Promise<Row[]> {
  const told: Row[] = rows.map((row) => Object.fromEntries(Object.entries(row).filter(([column]) => !SECRET.has(column) && !FIELDS[`${table}.${column}`])));
  const sealed = rows.flatMap((row, index) => Object.entries(row).flatMap(([column, value]) => {
    if (SECRET.has(column) || !(value instanceof Uint8Array)) return [];
    const known = FIELDS[`${table}.${column}`];
    return [{ index, told: known?.told ?? column, text: { householdId: known?.householdId === null ? null : householdId, field: known?.field(row) ?? personalField(`${table}.${column}`, String(row['id'])), sealed: value } }];
  }));
  const texts = await personal.openAll(sealed.map(({ text }) => text));
  sealed.forEach(({ index, told: name }, at) => {
    const row = told[index];
    if (row) row[name] = texts[at] ?? null;
  });
  return told;
}
