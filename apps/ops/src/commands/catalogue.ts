import { readFile, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { projectRoot } from '#platform';
import { readCatalogue } from '../catalogue.js';
import { dropDatabase, migratedDatabase, startTestCluster } from '../test-cluster.js';

/** Applies the migrations to an empty database and compares what they made with the committed catalogue; `--write` commits it anew. */
export async function run(args: string[]): Promise<number> {
  const file = join(projectRoot(), 'prisma', 'catalogue.txt');
  const postgres = await startTestCluster();
  try {
    await dropDatabase(postgres.adminUrl, 'wl_catalogue');
    const made = await readCatalogue(await migratedDatabase(postgres.adminUrl, 'wl_catalogue'));
    if (args.includes('--write')) {
      await writeFile(file, made);
      return 0;
    }
    const committed = await readFile(file, 'utf8').catch(() => '');
    if (committed === made) {
      process.stdout.write('The migrations make exactly the committed catalogue.\n');
      return 0;
    }
    process.stderr.write(`prisma/catalogue.txt differs from what the migrations make:\n${difference(committed, made)}Run npm run gen and commit the result.\n`);
    return 1;
  } finally {
    await postgres.stop();
  }
}

function difference(committed: string, made: string): string {
  const before = new Set(committed.split('\n'));
  const after = new Set(made.split('\n'));
  const lines = [...[...before].filter((line) => !after.has(line)).map((line) => `- ${line}`), ...[...after].filter((line) => !before.has(line)).map((line) => `+ ${line}`)];
  return `${lines.slice(0, 40).join('\n')}\n`;
}
