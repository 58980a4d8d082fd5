import { createPool, PgOutboxRelay, PgUnitOfWork, relayFaults, tenancyFaults } from '#persistence';
import { type Config, ConfigError, loadConfig, masterKeysOf } from '#platform';
import { outboxLines, reviveDead, revivedLines } from '../outbox.js';
import { startServices } from '../services.js';

const USAGE = 'outbox            shows what waits, for how long, and what was given up\noutbox --revive   makes what was given up due again\n';

/** Shows how the outbox of all networks stands; with `--revive` it first makes the dead rows due again. */
export async function run(args: string[]): Promise<number> {
  if (args.some((arg) => arg !== '--revive')) {
    process.stderr.write(USAGE);
    return 2;
  }
  const services = await startServices(loadConfig(), () => undefined);
  try {
    for (const line of await linesOf(services.config, args.includes('--revive'))) process.stdout.write(`${line}\n`);
    return 0;
  } finally {
    await services.stop();
  }
}

async function linesOf(config: Config, revive: boolean): Promise<string[]> {
  if (config.databaseUrl === null || config.relayDatabaseUrl === null) throw new ConfigError('Set DATABASE_URL to the login wl_app and DATABASE_RELAY_URL to the login wl_relay.');
  const onError = () => undefined;
  const app = createPool({ connectionString: config.databaseUrl, max: 1, applicationName: 'wrackline-ops', onError });
  const relayPool = createPool({ connectionString: config.relayDatabaseUrl, max: 1, applicationName: 'wrackline-ops-relay', onError });
  try {
    // On a wrong login everything would look empty, or more would be in reach than this needs.
    const faults = [...(await tenancyFaults(app)), ...(await relayFaults(relayPool))];
    if (faults.length > 0) throw new ConfigError(faults.join(' '));
    const relay = new PgOutboxRelay(relayPool);
    const came = revive ? revivedLines(await reviveDead(relay, new PgUnitOfWork(app, masterKeysOf(config)))) : [];
    return [...came, ...(await outboxLines(relay))];
  } finally {
    await Promise.all([app.end(), relayPool.end()]);
  }
}
