import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { FileBench } from '../support/files.js';

let bench: FileBench;
beforeAll(async () => {
  bench = await FileBench.open();
});
afterAll(() => bench?.close());

// tus 1.0.0, OPTIONS: Tus-Version must, Tus-Extension may stand in the answer; the client sends no Tus-Resumable.
test('names the version and the extensions of the protocol, and needs a key like everything else', async () => {
  const ask = (key?: string) => fetch(`${bench.server.url}/v1/households/${bench.household.id}/uploads`, { method: 'OPTIONS', headers: key === undefined ? {} : { authorization: `Bearer ${key}` } });
  const answer = await ask(bench.network.key);
  expect([answer.status, answer.headers.get('tus-version'), answer.headers.get('tus-extension'), await answer.text()]).toEqual([204, '1.0.0', 'creation,termination', '']);
  expect((await ask()).status).toBe(401);
  expect((await ask(await bench.network.newKey({ scopes: ['item:read'] }))).status).toBe(403);
});
