import { parseArgs } from 'node:util';
import { createPool, PgUnitOfWork, tenancyFaults } from '#persistence';
import { type Config, ConfigError, loadConfig, masterKeysOf } from '#platform';
import { networksOf } from '../networks-known.js';
import { startServices } from '../services.js';
import { readExportedRoots, verifyExported } from '../verify/exported-roots.js';
import { faultLine } from '../verify/fault-lines.js';
import { type Counts, type Fault, verifyNetwork } from '../verify/verify-network.js';

const USAGE = `verify                    checks the custody record of every network
verify --network <id>     only of this one (may be repeated)
verify --root <file>      holds roots that were exported from the API against the database as well (may be repeated)
Ends with 1 when anything does not fit.
`;

const UUID = /^[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}$/;

/** Walks all chains and roots and names whatever does not fit, one line each. */
export async function run(args: string[]): Promise<number> {
  const asked = options(args);
  if (asked === null) {
    process.stderr.write(USAGE);
    return 2;
  }
  const exported = (await Promise.all(asked.roots.map(readExportedRoots))).flat();
  const services = await startServices(loadConfig(), () => undefined);
  try {
    return await verifyAll(services.config, services.ownerUrl, asked.networks, exported);
  } finally {
    await services.stop();
  }
}

function options(args: string[]): { networks: string[]; roots: string[] } | null {
  try {
    const { values } = parseArgs({ args, options: { network: { type: 'string', multiple: true }, root: { type: 'string', multiple: true } } });
    const networks = (values.network ?? []).map((id) => id.toLowerCase());
    return networks.every((id) => UUID.test(id)) ? { networks, roots: values.root ?? [] } : null;
  } catch {
    return null;
  }
}

async function verifyAll(config: Config, ownerUrl: string | null, asked: readonly string[], exported: Awaited<ReturnType<typeof readExportedRoots>>): Promise<number> {
  if (config.databaseUrl === null) throw new ConfigError('Set DATABASE_URL to the login wl_app.');
  const pool = createPool({ connectionString: config.databaseUrl, max: 1, applicationName: 'wrackline-verify', onError: () => undefined });
  try {
    const wrong = await tenancyFaults(pool);
    if (wrong.length > 0) throw new ConfigError(wrong.join(' '));
    const unitOfWork = new PgUnitOfWork(pool, masterKeysOf(config));
    const networks = asked.length > 0 ? asked : [...new Set([...(await networksOf(config, ownerUrl)), ...exported.map(({ networkId }) => networkId)])].sort();
    let faults = 0;
    const onFault = (fault: Fault) => {
      faults += 1;
      process.stdout.write(`${faultLine(fault)}\n`);
    };
    const startedMs = performance.now();
    const all: Counts[] = [];
    for (const networkId of networks) all.push(await verifyNetwork({ unitOfWork, networkId, onFault }));
    await verifyExported(unitOfWork, exported, onFault);
    for (const line of summary(all, exported.length, faults, performance.now() - startedMs)) process.stdout.write(`${line}\n`);
    return faults === 0 ? 0 : 1;
  } finally {
    await pool.end();
  }
}

function summary(all: readonly Counts[], exported: number, faults: number, ms: number): string[] {
  const sum = (pick: (counts: Counts) => number) => all.reduce((total, counts) => total + pick(counts), 0);
  const [events, waiting] = [sum((counts) => counts.events), sum((counts) => counts.waiting)];
  const since = all.flatMap(({ waitingSinceMs }) => (waitingSinceMs === null ? [] : [waitingSinceMs]));
  return [
    `networks: ${all.length}, chains: ${sum((counts) => counts.chains)}, events: ${events}, roots: ${sum((counts) => counts.roots)}${exported > 0 ? `, exported roots: ${exported}` : ''}`,
    ...(waiting > 0 ? [`waiting for a root: ${waiting}, the earliest since ${new Date(Math.min(...since)).toISOString()}`] : []),
    `events per second: ${Math.round((events * 1_000) / Math.max(1, ms))}`,
    `faults: ${faults}`,
  ];
}
