import { join } from 'node:path';
import pg from 'pg';
import { loadConfig } from '#platform';
import { benchCare } from '../bench/care-bench.js';
import { benchClimate } from '../bench/climate-bench.js';
import { custodyThroughHttp, custodyThroughSql, eventsVerifiedPerSecond, type BenchItem } from '../bench/custody-bench.js';
import { askAll, fillForSearch } from '../bench/where-bench.js';
import { BenchClient, benchWorld, fillItems, reserve, type BenchWorld } from '../bench/world.js';
import { createNetwork, type NewNetwork } from '../networks.js';
import { startProcesses } from '../processes.js';
import { startServices, type Services } from '../services.js';
import { dropDatabase } from '../test-cluster.js';

const CONNECTIONS = 10;
const SECONDS = 10;
const PAGES = 60;
const VERIFY_SECONDS = 3;

/** Ratios measured in one run on this machine; absolute figures depend on the machine and are printed beside them. */
export async function run(args: string[]): Promise<number> {
  if (args[0] === 'planning') return planning(args.slice(1));
  if (args[0] === 'where') return onServices((services, url) => benchWhere(services, url, Number(args[1] ?? 1_000_000)));
  if (args[0] === 'custody') return onServices((services, url) => benchCustody(services, url));
  if (args[0] !== 'climate') for (const line of benchCare()) print(line);
  if (args[0] === 'care') return 0;
  for (const line of benchClimate()) print(line);
  if (args[0] === 'climate') return 0;
  await planning([]);
  const many = Number(args[0] ?? 1_000_000);
  return onServices(async (services, url) => {
    await benchCustody(services, url);
    await benchImport(services, url);
    await benchPages(services, url, many);
    await benchWhere(services, url, many);
  });
}

/** Runs on a fresh database of the bench, with one API and one worker. */
async function onServices(work: (services: Services, url: string) => Promise<void>): Promise<number> {
  const base = loadConfig();
  const config = { ...base, stateDir: join(base.stateDir, 'bench'), logLevel: 'error' as const, ratePerMinute: 10_000_000, poolSize: CONNECTIONS };
  const first = await startServices(config, () => undefined);
  if (first.embedded) await dropDatabase(first.embedded.adminUrl, 'wrackline');
  await first.stop();
  const services = await startServices(config, () => undefined);
  print(services.description);
  const running = await startProcesses(services.config, { apis: 1, workers: 1 }, print);
  try {
    await work(services, running.urls[0] ?? '');
  } finally {
    await running.stop();
    await services.stop();
  }
  return 0;
}

/** Loaded only here: its incidents come with the test harness, which is not installed where the product runs. */
async function planning(args: string[]): Promise<number> {
  (await import('../bench/planning-bench.js')).benchPlanning(args, print);
  return 0;
}

async function networkOn(services: Services, url: string, name: string): Promise<{ network: NewNetwork; client: BenchClient; world: BenchWorld }> {
  if (services.ownerUrl === null) throw new Error('The bench needs the owner of the database: set DATABASE_OWNER_URL.');
  const network = await createNetwork(services.ownerUrl, name);
  const client = new BenchClient(url, network.key);
  return { network, client, world: await benchWorld(client) };
}

async function benchCustody(services: Services, url: string): Promise<void> {
  const { network, client, world } = await networkOn(services, url, 'Bench: custody');
  const tags = await reserve(client, world, CONNECTIONS * 8);
  const items: BenchItem[] = [];
  for (const tag of tags) {
    const item = await client.call<{ id: string }>('POST', `/v1/incidents/${world.incidentId}/items`, { householdId: world.householdId, siteId: world.siteId, tag, description: 'bench', sizeClass: 'a4-sheet', materialClass: 'paper-uncoated', to: world.holding[0] });
    items.push({ id: item.id, seq: 1, at: 0, headHash: '' });
  }
  await custodyThroughHttp(client, world, items, CONNECTIONS, 2);
  const http = await custodyThroughHttp(client, world, items, CONNECTIONS, SECONDS);
  const sql = await withPrincipal(services, network, (principalId) => loadHeads(services, items).then(() => custodyThroughSql(services.config.databaseUrl ?? '', network.networkId, principalId, world, items, CONNECTIONS, SECONDS)));
  print(`custody commands: ${(http / sql).toFixed(2)} of the bare SQL (HTTP ${http.toFixed(0)}/s, bare pg loop ${sql.toFixed(0)}/s, ${CONNECTIONS} connections each, the load generator on the same cores)`);
  print(`custody chains: ${Math.round(eventsVerifiedPerSecond(VERIFY_SECONDS))} events verified per second, one thread`);
}

async function benchImport(services: Services, url: string): Promise<void> {
  const { client, world } = await networkOn(services, url, 'Bench: intake');
  const tags = await reserve(client, world, 2_000);
  const rows = tags.map((tag, index) => `${tag},HH-${index % 100},Contact ${index % 100},letter ${index},letter,yes`);
  const csv = ['tag,household,contactName,object,material,consentTreat', ...rows].join('\r\n');
  const startedMs = Date.now();
  let state = await client.call<{ id: string; state: string; accepted: number; repaired: number }>('POST', `/v1/incidents/${world.incidentId}/intake-imports?siteId=${world.siteId}&fileName=bench.csv`, csv, 'text/csv');
  while (state.state === 'queued' || state.state === 'running') {
    await new Promise((resume) => setTimeout(resume, 100));
    state = await client.call('GET', `/v1/intake-imports/${state.id}`);
  }
  const seconds = (Date.now() - startedMs) / 1_000;
  print(`bulk intake: ${((state.accepted + state.repaired) / seconds).toFixed(0)} rows/s (${state.accepted + state.repaired} of ${tags.length} rows in ${seconds.toFixed(1)} s, upload to done, each with tag, triage and custody event)`);
}

async function benchPages(services: Services, url: string, many: number): Promise<void> {
  const few = 10_000;
  const medians: Record<number, Record<string, number>> = {};
  for (const count of [few, many]) {
    const { network, client, world } = await networkOn(services, url, `Bench: ${count} items`);
    await fillItems(services.ownerUrl ?? '', network.networkId, world, count);
    medians[count] = {
      'first page': await medianMs(() => client.call('GET', `/v1/incidents/${world.incidentId}/items?limit=50`)),
      'page of one stage': await medianMs(() => client.call('GET', `/v1/incidents/${world.incidentId}/items?limit=50&stage=drying`)),
    };
  }
  for (const name of Object.keys(medians[few] ?? {})) {
    const [a, b] = [medians[few]?.[name] ?? 0, medians[many]?.[name] ?? 0];
    print(`item list, ${name}: ${(b / a).toFixed(2)} times the page at ${few} items when there are ${many} (median ${a.toFixed(2)} ms and ${b.toFixed(2)} ms)`);
  }
}

async function benchWhere(services: Services, url: string, many: number): Promise<void> {
  const few = 10_000;
  const medians: Record<string, number>[] = [];
  for (const count of [few, many]) {
    const { network, client, world } = await networkOn(services, url, `Bench: where is it among ${count}`);
    await fillForSearch(services.ownerUrl ?? '', network.networkId, world, count);
    medians.push(await askAll(client, world, count, medianMs));
  }
  const [small = {}, large = {}] = medians;
  for (const [name, a] of Object.entries(small)) {
    const b = large[name] ?? 0;
    print(`where is it, by ${name}: ${(b / a).toFixed(2)} times the answer at ${few} items when there are ${many} (median ${a.toFixed(2)} ms and ${b.toFixed(2)} ms)`);
  }
}

async function medianMs(page: () => Promise<unknown>): Promise<number> {
  const took: number[] = [];
  for (let turn = 0; turn < PAGES + 10; turn += 1) {
    const started = performance.now();
    await page();
    if (turn >= 10) took.push(performance.now() - started);
  }
  return took.sort((a, b) => a - b)[Math.floor(took.length / 2)] ?? 0;
}

async function withPrincipal<T>(services: Services, network: NewNetwork, work: (principalId: string) => Promise<T>): Promise<T> {
  const client = new pg.Client({ connectionString: services.ownerUrl ?? '' });
  await client.connect();
  const { rows } = await client.query<{ id: string }>('select id from api_key where network_id = $1', [network.networkId]);
  await client.end();
  return work(rows[0]?.id ?? '');
}

/** The present end of each chain, for the loop that appends without the API. */
async function loadHeads(services: Services, items: BenchItem[]): Promise<void> {
  const client = new pg.Client({ connectionString: services.ownerUrl ?? '' });
  await client.connect();
  const { rows } = await client.query<{ id: string; seq: number; head_hash: string }>('select id, seq, head_hash from item where id = any($1::uuid[])', [items.map((item) => item.id)]);
  await client.end();
  const heads = new Map(rows.map((row) => [row.id, row]));
  for (const item of items) {
    item.seq = heads.get(item.id)?.seq ?? item.seq;
    item.headHash = heads.get(item.id)?.head_hash ?? item.headHash;
  }
}

function print(line: string): void {
  process.stdout.write(`${line}\n`);
}
