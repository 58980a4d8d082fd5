import { randomBytes } from 'node:crypto';
import { chmod, mkdir, readFile, rename, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { ensureDatabase, ensureRoles, migrate } from '#persistence';
import { type Config, type EmbeddedPostgres, ensureMasterKeyFile, ensureSigningKeyFile, startEmbeddedPostgres } from '#platform';

/** Running databases and where they are; `config` is complete for API and worker processes. */
export interface Services {
  config: Config;
  /** Superuser of the embedded server, or the owner login given; null when neither is at hand. */
  ownerUrl: string | null;
  embedded: EmbeddedPostgres | null;
  /** One line for the start-up log: which database and which queue are in use. */
  description: string;
  /** Resolves with the reason when the embedded database is down for good; pending for ever otherwise. */
  lost: Promise<Error>;
  stop(): Promise<void>;
}

interface Secrets {
  app: string;
  relay: string;
  queue: string;
  cursor: string;
}

/** Random secrets of this installation, made once and readable by its owner only. */
async function installSecrets(stateDir: string): Promise<Secrets> {
  const file = join(stateDir, 'secrets.json');
  await mkdir(stateDir, { recursive: true });
  try {
    return JSON.parse(await readFile(file, 'utf8')) as Secrets;
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code !== 'ENOENT') throw error;
  }
  const random = () => randomBytes(32).toString('base64url');
  const secrets: Secrets = { app: random(), relay: random(), queue: random(), cursor: random() };
  await writeFile(`${file}.new`, JSON.stringify(secrets), { mode: 0o600 });
  await chmod(`${file}.new`, 0o600);
  await rename(`${file}.new`, file);
  return secrets;
}

/** The key that signs custody roots: the one given, else that of this installation, made once. */
async function installSigningKey(config: Config): Promise<Pick<Config, 'custodySigningKey' | 'custodySigningKeyFile'>> {
  const { custodySigningKey, custodySigningKeyFile: given } = config;
  if (custodySigningKey !== null || given !== null) return { custodySigningKey, custodySigningKeyFile: given };
  const custodySigningKeyFile = join(config.stateDir, 'custody-signing-key.pem');
  await ensureSigningKeyFile(custodySigningKeyFile);
  return { custodySigningKey: null, custodySigningKeyFile };
}

/** The master key of personal data: the one given, else that of this installation, made once. */
async function installMasterKey(config: Config): Promise<Pick<Config, 'masterKey' | 'masterKeyFile'>> {
  const { masterKey, masterKeyFile: given } = config;
  if (masterKey !== null || given !== null) return { masterKey, masterKeyFile: given };
  const masterKeyFile = join(config.stateDir, 'master-key');
  await ensureMasterKeyFile(masterKeyFile);
  return { masterKey: null, masterKeyFile };
}

/** Starts or finds the databases: what DATABASE_URL names, else the embedded PostgreSQL. Never falls back from one to the other. */
export async function startServices(config: Config, log: (message: string) => void): Promise<Services> {
  return config.databaseUrl === null ? startEmbedded(config, log) : useExternal(config, log);
}

async function startEmbedded(config: Config, log: (message: string) => void): Promise<Services> {
  const secrets = await installSecrets(config.stateDir);
  const signingKey = await installSigningKey(config);
  const masterKey = await installMasterKey(config);
  const embedded = await startEmbeddedPostgres({ dataDir: join(config.stateDir, 'postgres'), log });
  const ownerUrl = withDatabase(embedded.adminUrl, 'wrackline');
  try {
    await ensureDatabase(embedded.adminUrl, 'wrackline');
    await ensureRoles(embedded.adminUrl, secrets);
    await ensureDatabase(embedded.adminUrl, 'wrackline_queue', 'wl_queue');
    for (const name of await migrate(ownerUrl)) log(`migration ${name} applied`);
  } catch (error) {
    await embedded.stop();
    throw error;
  }
  return {
    config: {
      ...config,
      databaseUrl: embedded.urlFor('wl_app', secrets.app, 'wrackline'),
      relayDatabaseUrl: embedded.urlFor('wl_relay', secrets.relay, 'wrackline'),
      ownerDatabaseUrl: ownerUrl,
      queueDatabaseUrl: config.redisUrl === null ? embedded.urlFor('wl_queue', secrets.queue, 'wrackline_queue') : null,
      cursorSecret: config.cursorSecret ?? secrets.cursor,
      ...signingKey,
      ...masterKey,
    },
    ownerUrl,
    embedded,
    description: `database: embedded PostgreSQL 18 on port ${embedded.port}${embedded.adopted ? ' (adopted)' : ''}, state in ${config.stateDir}; queue: ${config.redisUrl ? 'Redis' : 'PostgreSQL (embedded)'}`,
    lost: embedded.lost,
    stop: () => embedded.stop(),
  };
}

async function useExternal(config: Config, log: (message: string) => void): Promise<Services> {
  if (config.ownerDatabaseUrl !== null) for (const name of await migrate(config.ownerDatabaseUrl)) log(`migration ${name} applied`);
  return {
    config,
    ownerUrl: config.ownerDatabaseUrl,
    embedded: null,
    description: `database: PostgreSQL at DATABASE_URL; queue: ${config.redisUrl ? 'Redis at REDIS_URL' : 'PostgreSQL at QUEUE_DATABASE_URL'}`,
    lost: new Promise(() => undefined),
    stop: async () => undefined,
  };
}

export function withDatabase(url: string, database: string): string {
  const changed = new URL(url);
  changed.pathname = `/${database}`;
  return changed.toString();
}
