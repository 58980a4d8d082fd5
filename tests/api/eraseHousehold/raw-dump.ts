import type pg from 'pg';

/**
 * Where words stand in the database, whatever kind of column it is: every row of every table as text, in which bytes are hexadecimal. Case does not count.
 * Answers `table: beginning of the row`.
 */
export async function foundInDatabase(admin: pg.Pool, words: readonly string[]): Promise<string[]> {
  const { rows: tables } = await admin.query<{ name: string }>(`select format('%I.%I', schemaname, tablename) as name from pg_tables where schemaname not in ('pg_catalog', 'information_schema')`);
  const sought = words.flatMap((word) => [word.toLowerCase(), Buffer.from(word, 'utf8').toString('hex'), Buffer.from(word, 'utf8').toString('base64').replace(/=+$/, '').toLowerCase()]);
  const found: string[] = [];
  for (const { name } of tables) {
    const { rows } = await admin.query<{ row: string }>(`select t::text as row from ${name} t`);
    for (const { row } of rows) if (sought.some((word) => row.toLowerCase().includes(word))) found.push(`${name}: ${row.slice(0, 300)}`);
  }
  return found;
}
