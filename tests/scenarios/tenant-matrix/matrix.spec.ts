import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import { type PreparedNetwork, prepareNetworks, startTestServer, type TestServer, watchWrites } from '#testing';
import { makeKeys, type Matrix, runOperation } from './callers.js';
import { type Operation, operationsOf } from './document.js';
import { fill } from './prepared.js';
import { PUBLIC_ROUTES, ROWS } from './rows/index.js';

// OWASP API Security Top 10 2023, API1 (object level) and API5 (function level); OWASP ASVS 5.0.0, 8.2.2 and 8.4.1.

let server: TestServer;
let matrix: Matrix;
let operations: Operation[];

beforeAll(async () => {
  server = await startTestServer();
  operations = operationsOf(server);
  const { ours, theirs } = await prepareNetworks(server, (incident) => fill(incident, server));
  matrix = { server, ours, theirs, keys: await makeKeys(server, ours), writes: await watchWrites(server.admin), wrong: [], cells: 0 };
}, 400_000);

afterAll(async () => {
  await server?.close();
});

describe('the table is whole', () => {
  test('every operation of the document has a row, and every row an operation', () => {
    expect([...Object.keys(ROWS), ...PUBLIC_ROUTES].sort()).toEqual(operations.map((operation) => operation.id).sort());
  });

  test('only the public routes work without a key', () => {
    expect(operations.filter((operation) => operation.scope === null).map((operation) => operation.id).sort()).toEqual([...PUBLIC_ROUTES].sort());
  });
});

describe('every route answers every caller as it should', () => {
  test.each(Object.keys(ROWS))('%s', async (id) => {
    const operation = operations.find((candidate) => candidate.id === id);
    const row = ROWS[id];
    if (!operation || !row) throw new Error(`${id} is not in the document`);
    expect(await runOperation(matrix, operation, row)).toEqual([]);
  });

  test.each([...PUBLIC_ROUTES.map((id) => [id]), ['/openapi.json'], ['/docs']])('%s answers everybody and ignores keys', async (route) => {
    const path = operations.find((operation) => operation.id === route)?.path ?? route;
    for (const key of [null, matrix.ours.network.key, matrix.keys.suspended, 'wk_nonsense']) await matrix.ours.network.as(key).get(path).expect(200);
  });

  test('summary', () => {
    process.stdout.write(`tenant matrix: ${Object.keys(ROWS).length} routes, ${matrix.cells} answers: ${matrix.wrong.length} wrong\n`);
    expect(matrix.wrong).toEqual([]);
  });
});

describe('things that are not in a path', () => {
  test('a tag code that both networks tied leads each to its own item', async () => {
    const { ours, theirs } = matrix;
    const tag = ours.first.the('itemTag');
    expect(theirs.first.the('itemTag')).toBe(tag);
    for (const { network, first } of [ours, theirs]) expect((await network.get(`/v1/tags/${tag}`).expect(200)).body.item.id).toBe(first.the('item'));
  });

  test('a page cursor of one network opens no page of another', async () => {
    for (let n = 0; n < 2; n += 1) await matrix.ours.first.newItem();
    const path = (network: PreparedNetwork, cursor = '') => `/v1/incidents/${network.first.id}/items?limit=1${cursor}`;
    const page = await matrix.ours.network.get(path(matrix.ours)).expect(200);
    const cursor = `&cursor=${encodeURIComponent(page.body.nextCursor)}`;
    await matrix.ours.network.get(path(matrix.ours, cursor)).expect(200);
    const answer = await matrix.theirs.network.get(path(matrix.theirs, cursor)).expect(400);
    expect(answer.body.code).toBe('cursor_invalid');
  });

  test('a key limited to an incident neither sees nor ends the keys of the whole network', async () => {
    const limited = matrix.ours.network.as(await matrix.ours.network.newKey({ incidentId: matrix.ours.first.id }));
    const wide = await matrix.ours.network.post('/v1/keys', { label: 'Office', scopes: ['item:read'], expiresAt: new Date(Date.now() + 86_400_000).toISOString() }).expect(201);
    const { body } = await limited.get('/v1/keys?limit=200').expect(200);
    expect(body.items.length).toBeGreaterThan(0);
    expect(body.items.every((key: { limitedToIncidentId: string | null }) => key.limitedToIncidentId === matrix.ours.first.id)).toBe(true);
    await limited.post(`/v1/keys/${wide.body.id}/revoke`, {}).expect(404);
    await limited.post(`/v1/keys/${wide.body.id}/rotate`, {}).expect(404);
  });

  test('a key made by a limited key has the same limit', async () => {
    const limited = matrix.ours.network.as(await matrix.ours.network.newKey({ incidentId: matrix.ours.first.id }));
    const made = await limited.post('/v1/keys', { label: 'Tablet', scopes: ['item:read'], expiresAt: new Date(Date.now() + 86_400_000).toISOString() }).expect(201);
    expect(made.body.limitedToIncidentId).toBe(matrix.ours.first.id);
    await matrix.ours.network.as(made.body.secret).get(`/v1/items/${matrix.ours.second.the('item')}`).expect(404);
    await matrix.ours.network.as(made.body.secret).get(`/v1/items/${matrix.ours.first.the('item')}`).expect(200);
  });
});
