// The thread behind `Onlooker`: the very same functions as in the tests, compiled once and run by plain Node.
import { mkdirSync, rmSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { parentPort } from 'node:worker_threads';
import { transformFileSync } from '@swc/core';

const here = dirname(fileURLToPath(import.meta.url));
const folder = join(here, '..', '..', '..', 'node_modules', '.cache', 'wrackline');
mkdirSync(folder, { recursive: true });
// Of this process alone, so that two runs never read a half-written one.
const compiled = join(folder, `pictures.${process.pid}.mjs`);
writeFileSync(compiled, transformFileSync(join(here, 'pictures.support.ts'), { jsc: { parser: { syntax: 'typescript' }, target: 'es2022' }, module: { type: 'es6' }, configFile: false, swcrc: false }).code);
const { seenOn } = await import(pathToFileURL(compiled).href);
rmSync(compiled);

parentPort.on('message', async ({ pdf, dpi, looks }) => {
  try {
    parentPort.postMessage({ value: JSON.stringify(await seenOn(new Uint8Array(Buffer.from(pdf, 'base64')), dpi, JSON.parse(looks))), error: null }, []);
  } catch (error) {
    parentPort.postMessage({ value: '', error: String(error) }, []);
  }
});
