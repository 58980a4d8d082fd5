import { ConfigError, EmbeddedPostgresError } from '#platform';

/** Commands of `node apps/ops/bootstrap.mjs <command>`; each is one module with `run(args)` that answers the exit code. */
const COMMANDS: Record<string, () => Promise<{ run(args: string[]): Promise<number> }>> = {
  bench: () => import('./commands/bench.js'),
  catalogue: () => import('./commands/catalogue.js'),
  'create-network': () => import('./commands/create-network.js'),
  demo: () => import('./commands/demo.js'),
  'demo-plans': () => import('./commands/demo-plans.js'),
  'emit-openapi': () => import('./commands/emit-openapi.js'),
  migrate: () => import('./commands/migrate.js'),
  outbox: () => import('./commands/outbox.js'),
  'rotate-master-key': () => import('./commands/rotate-master-key.js'),
  soak: () => import('./commands/soak.js'),
  start: () => import('./commands/start.js'),
  test: () => import('./commands/test.js'),
  verify: () => import('./commands/verify.js'),
};

async function main(): Promise<void> {
  const [name = '', ...args] = process.argv.slice(2);
  const load = COMMANDS[name];
  if (!load) {
    process.stderr.write(`Commands: ${Object.keys(COMMANDS).sort().join(', ')}\n`);
    process.exit(2);
  }
  process.exit(await (await load()).run(args));
}

main().catch((error: unknown) => {
  const expected = error instanceof ConfigError || error instanceof EmbeddedPostgresError;
  process.stderr.write(`${error instanceof Error ? (expected ? error.message : error.stack) : String(error)}\n`);
  process.exit(1);
});
