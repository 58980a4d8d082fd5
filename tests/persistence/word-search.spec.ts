import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { candidatesSql, createPool, type Pool } from '#persistence';
import { startTestServer, type TestServer } from '#testing';

let server: TestServer;
let pool: Pool;
let networkId: string;
let incidentId: string;
beforeAll(async () => {
  server = await startTestServer();
  pool = createPool({ connectionString: server.database.appUrl, max: 1, applicationName: 'test', onError: () => undefined });
  const network = await server.network();
  incidentId = (await network.incident()).id;
  networkId = network.networkId;
  // Enough that a scan of the table would be dearer than the index, with words that many things share. Put in without the checks of keys.
  const client = await server.admin.connect();
  await client.query('set session_replication_role = replica');
  await client.query("insert into item_word (network_id, incident_id, word, item_id) select $1, $2, w, uuidv7() from generate_series(1, 20000) n, unnest(array['quilt' || n % 5, 'n' || n]) w", [networkId, incidentId]);
  await client.query('set session_replication_role = origin');
  await client.query('analyze item_word');
  client.release();
});
afterAll(async () => {
  await pool.end();
  await server.close();
});

/** The plan that the application's role gets below the policies. */
async function planOf(sql: string, values: unknown[]): Promise<string> {
  const client = await pool.connect();
  try {
    await client.query('begin');
    await client.query("select set_config('app.network_id', $1, true), set_config('app.incident_id', $2, true)", [networkId, incidentId]);
    const { rows } = await client.query<{ 'QUERY PLAN': string }>(`explain ${sql}`, values);
    return rows.map((row) => row['QUERY PLAN']).join('\n');
  } finally {
    await client.query('rollback');
    client.release();
  }
}

// Reliability study, section 3.4: below a policy only leakproof operators may use an index.
test.each([0, 1, 3])('a search with %d more words goes by the index with the word in its condition, for the role that is bound by the policies', async (others) => {
  const plan = await planOf(candidatesSql(others), [networkId, incidentId, 21, ['n77'], ...Array.from({ length: others }, () => ['quilt2'])]);
  expect(plan).not.toMatch(/Seq Scan/);
  const conditions = plan.match(/Index Cond: .*/g) ?? [];
  expect(conditions.length).toBeGreaterThanOrEqual(others === 0 ? 1 : 2);
  for (const condition of conditions) expect(condition).toMatch(/word = ANY/);
});

test('a word is never looked for by LIKE, which may use no index here', async () => {
  expect(await planOf("select item_id from item_word where network_id = $1 and incident_id = $2 and word like 'n77%'", [networkId, incidentId])).toMatch(/Filter: .*word ~~/);
});

test('what is taken in is found by the words of its texts, and what they lose is lost', async () => {
  const { rows } = await server.admin.query<{ words: string[] }>("select search_words('Émigré-trunk, GREEN; घड़ी 祖母的箱子 a İstanbul''s') as words");
  expect(rows[0]?.words.sort()).toEqual(['emigre', 'green', 'istanbul', 'trunk', 'घड़ी', '祖母的箱子'].map((word) => word.normalize('NFKD')).sort());
});
