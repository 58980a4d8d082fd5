// The OpenAPI document and the client types of the code as it is must be the committed ones, and the document lints
// without a warning. Run after a build; `npm run gen` writes them anew.
import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

const folder = mkdtempSync(join(tmpdir(), 'wrackline-openapi-'));
const made = join(folder, 'openapi.json');
const types = join(folder, 'schema.ts');

function must(command, args) {
  const result = spawnSync(command, args, { stdio: 'inherit', shell: false });
  if (result.status !== 0) {
    rmSync(folder, { recursive: true });
    process.exit(result.status ?? 1);
  }
}

function same(path, committed) {
  if (readFileSync(path, 'utf8') === readFileSync(committed, 'utf8')) return;
  console.error(`${committed} differs from what the code makes. Run npm run gen and commit the result.`);
  rmSync(folder, { recursive: true });
  process.exit(1);
}

must(process.execPath, ['apps/ops/bootstrap.mjs', 'emit-openapi', made]);
must(process.execPath, ['node_modules/@stoplight/spectral-cli/dist/index.js', 'lint', made, '--ruleset', 'apps/ops/checks/openapi/spectral.yaml', '--fail-severity=warn']);
must(process.execPath, ['node_modules/openapi-typescript/bin/cli.js', made, '-o', types]);
same(made, 'libs/client/openapi.json');
same(types, 'libs/client/src/generated/schema.ts');
rmSync(folder, { recursive: true });
console.log('The OpenAPI document lints clean and is the committed one, and so are the client types.');
