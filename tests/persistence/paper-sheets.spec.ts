/** Kits from before sheets had numbers get those with which they would be made today. */
import { readFileSync } from 'node:fs';
import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { PaperKit } from '../api/support/paper.js';
import { Workbench } from '../api/support/workbench.js';

let bench: Workbench;
beforeAll(async () => {
  bench = await Workbench.open();
});
afterAll(() => bench.close());

test('the migration numbers the sheets of an earlier kit as the command does, each kit for itself', async () => {
  const { admin } = bench.server;
  for (const code of ['B', 'A']) await bench.network.post(`/v1/incidents/${bench.incident.id}/shelves`, { siteId: bench.incident.site(), code, name: `Shelf ${code}`, zone: 'clean' }).expect(201);
  for (let kits = 0; kits < 2; kits += 1) await PaperKit.make(bench);
  const sheets = async () => (await admin.query('select kit_id, sheet_no, place_kind, place_id from paper_sheet order by kit_id, sheet_no')).rows;
  const made = await sheets();
  expect(made).toHaveLength(2 * 15);
  const [fill] = readFileSync('prisma/migrations/20261202110000_paper_lines/migration.sql', 'utf8').match(/^do \$\$.*?^\$\$;/ms) ?? [];
  expect(fill).toContain('insert into paper_sheet');
  await admin.query('delete from paper_sheet');
  await admin.query(fill ?? '');
  expect(await sheets()).toEqual(made);
  const { rows } = await admin.query("select relname from pg_class where relkind = 'r' and relnamespace = 'public'::regnamespace and relrowsecurity and not relforcerowsecurity");
  expect(rows).toEqual([]);
});
