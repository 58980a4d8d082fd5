import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { OTHER_COLUMNS, PERSONAL_TABLES } from '#persistence';
import { createTestDatabase, type TestDatabase } from '#testing';

let database: TestDatabase;
beforeAll(async () => {
  database = await createTestDatabase();
});
afterAll(() => database.drop());

const decided = new Map([...Object.entries(PERSONAL_TABLES).map(([table, { columns }]) => [table, columns] as const), ...Object.entries(OTHER_COLUMNS)]);

test('every column that can hold words has a decision about privacy, and every decision a column', async () => {
  // "C" text is for codes; words are in the default collation, in JSON or in bytes.
  const { rows } = await database.admin.query<{ table: string; column: string }>(
    `select c.relname as "table", a.attname as "column" from pg_attribute a join pg_class c on c.oid = a.attrelid join pg_namespace n on n.oid = c.relnamespace left join pg_collation co on co.oid = a.attcollation
     where n.nspname = 'public' and c.relkind in ('r', 'p') and c.relname <> '_prisma_migrations' and a.attnum > 0 and not a.attisdropped
       and (a.atttypid in ('jsonb'::regtype, 'json'::regtype, 'bytea'::regtype) or (a.atttypid in ('text'::regtype, 'text[]'::regtype, 'varchar'::regtype) and coalesce(co.collname, '') <> 'C'))`,
  );
  expect(rows.filter(({ table, column }) => decided.get(table)?.[column] === undefined).map(({ table, column }) => `${table}.${column}`)).toEqual([]);
  const columns = await database.admin.query<{ name: string }>(`select table_name || '.' || column_name as name from information_schema.columns where table_schema = 'public'`);
  const known = new Set(columns.rows.map(({ name }) => name));
  expect([...decided].flatMap(([table, decisions]) => Object.keys(decisions).map((column) => `${table}.${column}`)).filter((name) => !known.has(name))).toEqual([]);
});

test('a column with sealed words holds bytes', async () => {
  const sealed = Object.entries(PERSONAL_TABLES).flatMap(([table, { columns }]) => Object.entries(columns).filter(([, decision]) => decision === 'sealed').map(([column]) => `${table}.${column}`));
  const { rows } = await database.admin.query<{ name: string }>(`select table_name || '.' || column_name as name from information_schema.columns where table_schema = 'public' and data_type = 'bytea'`);
  const bytes = rows.map(({ name }) => name);
  expect(sealed.filter((name) => !bytes.includes(name))).toEqual([]);
});
