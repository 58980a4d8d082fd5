import { loadConfig } from '#platform';
import { runDemo } from '../demo/demo.js';
import { DEMO_USAGE, type DemoOptions, readOptions } from '../demo/options.js';

/** Plays a whole salvage day on a real database, prints the coordinator's report, and keeps serving unless told to end. */
export async function run(args: string[]): Promise<number> {
  let options: DemoOptions;
  try {
    options = readOptions(args);
  } catch (error) {
    process.stderr.write(`${error instanceof Error ? error.message : String(error)}\n${DEMO_USAGE}\n`);
    return 2;
  }
  return runDemo(options, loadConfig());
}
