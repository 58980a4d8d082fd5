import { ensureRoles, migrate } from '#persistence';
import { ConfigError, loadConfig } from '#platform';

/** Brings an external database up to date. With `--roles` it also makes the roles; the passwords come from the two URLs. */
export async function run(args: string[]): Promise<number> {
  const config = loadConfig();
  if (config.ownerDatabaseUrl === null) throw new ConfigError('Set DATABASE_OWNER_URL to the login that owns the database.');
  if (args.includes('--roles')) {
    const passwordOf = (url: string | null, name: string) => {
      const password = url === null ? '' : decodeURIComponent(new URL(url).password);
      if (password === '') throw new ConfigError(`Set ${name} with the password that the role shall have.`);
      return password;
    };
    await ensureRoles(config.ownerDatabaseUrl, { app: passwordOf(config.databaseUrl, 'DATABASE_URL'), relay: passwordOf(config.relayDatabaseUrl, 'DATABASE_RELAY_URL') });
  }
  const applied = await migrate(config.ownerDatabaseUrl);
  process.stdout.write(applied.length === 0 ? 'Nothing to apply.\n' : `Applied: ${applied.join(', ')}\n`);
  return 0;
}
