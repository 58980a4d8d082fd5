import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { projectRoot } from '#platform';
import { createTestDatabase, type TestDatabase } from '#testing';

let database: TestDatabase;
beforeAll(async () => {
  database = await createTestDatabase();
});
afterAll(() => database.drop());

/** `table.column` to `type` or `type?`, as both sides are written here. */
type Columns = Record<string, string>;

const TYPES: Record<string, string> = {
  uuid: 'String @db.Uuid', text: 'String', timestamptz: 'DateTime @db.Timestamptz(6)', date: 'DateTime @db.Date', float8: 'Float', int4: 'Int', int8: 'BigInt', bool: 'Boolean', jsonb: 'Json', bytea: 'Bytes', _text: 'String[]', _uuid: 'String[] @db.Uuid',
};

function columnsOfSchema(schema: string): Columns {
  const columns: Columns = {};
  for (const [, body = ''] of schema.matchAll(/^model \w+ \{\n([\s\S]*?)^\}/gm)) {
    const table = /@@map\("(\w+)"\)/.exec(body)?.[1] ?? '';
    for (const line of body.split('\n')) {
      const field = /^ {2}(\w+) +([A-Za-z]+(?:\[\])?)(\?)?(.*)$/.exec(line);
      if (!field) continue;
      const [, name = '', type = '', optional = '', attributes = ''] = field;
      const column = /@map\("(\w+)"\)/.exec(attributes)?.[1] ?? name;
      const native = /@db\.\w+(?:\(\d+\))?/.exec(attributes)?.[0];
      columns[`${table}.${column}`] = `${native ? `${type} ${native}` : type}${optional}`;
    }
  }
  return columns;
}

async function columnsOfDatabase(): Promise<Columns> {
  const { rows } = await database.admin.query<{ name: string; type: string; nullable: boolean }>(
    `select table_name || '.' || column_name as name, udt_name as type, is_nullable = 'YES' as nullable
     from information_schema.columns where table_schema = 'public' and table_name <> '_prisma_migrations'`,
  );
  return Object.fromEntries(rows.map((row) => [row.name, `${TYPES[row.type] ?? `unmapped ${row.type}`}${row.nullable ? '?' : ''}`]));
}

test('the schema of the ORM has every table and column of the migrated database, with its type, and no other', async () => {
  const schema = await readFile(join(projectRoot(), 'prisma', 'schema.prisma'), 'utf8');
  const columns = columnsOfSchema(schema);
  expect(Object.keys(columns).length).toBeGreaterThan(200);
  expect(columns).toEqual(await columnsOfDatabase());
});

test('the committed client was generated from the schema as it stands', async () => {
  const schema = await readFile(join(projectRoot(), 'prisma', 'schema.prisma'), 'utf8');
  const generated = await readFile(join(projectRoot(), 'libs', 'persistence', 'src', 'generated', 'prisma', 'internal', 'class.ts'), 'utf8');
  const inline = /^ {2}"inlineSchema": (".*"),$/m.exec(generated)?.[1] ?? '""';
  expect(JSON.parse(inline)).toBe(schema);
});
