import { loadConfig } from '#platform';
import { createNetwork } from '../networks.js';
import { startServices } from '../services.js';

/** Makes a network and prints its first key, once. */
export async function run(args: string[]): Promise<number> {
  const name = args[0]?.trim();
  // A dash is a mistyped option; a network called "--help" helps nobody.
  if (!name || name.startsWith('-') || args.length > 1) {
    process.stderr.write('Give the name of the network: create-network "Name"\n');
    return 2;
  }
  const services = await startServices(loadConfig(), () => undefined);
  try {
    if (services.ownerUrl === null) {
      process.stderr.write('Set DATABASE_OWNER_URL: only the owner of the database can make a network.\n');
      return 2;
    }
    const network = await createNetwork(services.ownerUrl, name);
    process.stdout.write(`network ${network.networkId}\nkey ${network.key}\nThe key is shown this once; keep it safe.\n`);
    return 0;
  } finally {
    await services.stop();
  }
}
