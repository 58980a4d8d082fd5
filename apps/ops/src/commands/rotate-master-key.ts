import { type Config, ConfigError, addMasterKey, dropOldMasterKeys, loadConfig, requireMasterKeys, type MasterKeys } from '#platform';
import { createPool, rewrapNetworkKeys, tenancyFaults } from '#persistence';
import { networksOf } from '../networks-known.js';
import { startServices } from '../services.js';

const USAGE = `rotate-master-key          wraps the keys of all networks by the newest master key
rotate-master-key --drop   with the embedded database: and takes the earlier ones out of the file
With the embedded database a new key is made first; stop the service before. Elsewhere put a new version into WRACKLINE_MASTER_KEY(_FILE) beside
the earlier ones, restart every process, run this, and take the earlier ones out when it says that nothing is wrapped by them.
`;

/** Data keys and sealed texts stay as they are; only the keys of networks are wrapped anew, each in a transaction of its own. Stopped anywhere it goes on where it was. */
export async function run(args: string[]): Promise<number> {
  const drop = args.includes('--drop');
  if (args.some((arg) => arg !== '--drop')) {
    process.stderr.write(USAGE);
    return 2;
  }
  const services = await startServices(loadConfig(), () => undefined);
  try {
    const own = services.embedded !== null && loadConfig().masterKey === null && loadConfig().masterKeyFile === null ? services.config.masterKeyFile : null;
    if (drop && own === null) throw new ConfigError('--drop is for the key file of the embedded database. Take earlier versions out of your own configuration yourself.');
    if (own !== null && services.embedded?.adopted) throw new ConfigError('Stop the service first: its processes know only the keys that they were started with.');
    const masters = own === null ? requireMasterKeys(services.config) : await addMasterKey(own);
    await rewrapAll(services.config, services.ownerUrl, masters);
    if (drop && own !== null) await dropOldMasterKeys(own);
    process.stdout.write(`master key ${masters.newest} wraps the keys of all networks${drop ? '; earlier ones are gone' : ''}\n`);
    return 0;
  } finally {
    await services.stop();
  }
}

async function rewrapAll(config: Config, ownerUrl: string | null, masters: MasterKeys): Promise<void> {
  if (config.databaseUrl === null) throw new ConfigError('Set DATABASE_URL to the login wl_app.');
  const pool = createPool({ connectionString: config.databaseUrl, max: 1, applicationName: 'wrackline-rotate', onError: () => undefined });
  try {
    const wrong = await tenancyFaults(pool);
    if (wrong.length > 0) throw new ConfigError(wrong.join(' '));
    for (const networkId of await networksOf(config, ownerUrl)) await rewrapNetworkKeys(pool, networkId, masters);
  } finally {
    await pool.end();
  }
}
