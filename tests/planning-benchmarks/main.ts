/** `npm run bench:planning -- --set <name> --data <folder> ...`: prints one JSON line, or says on stderr what is wrong. */
import { cpus } from 'node:os';
import { readOptions, UsageError } from './options.js';
import { runSet } from './run-set.js';

try {
  const options = readOptions(process.argv.slice(2));
  const report = await runSet(options);
  const processors = cpus();
  const machine = { cpu: processors[0]?.model.trim() ?? 'unknown', cores: processors.length, node: process.versions.node };
  process.stdout.write(`${JSON.stringify({ ...report, machine })}\n`);
} catch (error) {
  if (!(error instanceof UsageError)) throw error;
  process.stderr.write(`${error.message}\n`);
  process.exitCode = 2;
}
