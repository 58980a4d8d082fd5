import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { prepareNetworks, startTestServer, type TestServer, watchWrites } from '#testing';
import { makeKeys, type Matrix } from './callers.js';
import { type Operation, operationsOf } from './document.js';
import { fill } from './prepared.js';
import { runReferences, unspoken } from './references.js';
import { ROWS } from './rows/index.js';

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

const operationOf = (id: string) => {
  const operation = operations.find((candidate) => candidate.id === id);
  if (!operation) throw new Error(`${id} is not in the document`);
  return operation;
};

test('the rows speak of every member of a body or query that names something', () => {
  const missing = operations.flatMap((operation) => unspoken(operation, ROWS[operation.id] ?? { request: () => ({}) }).map((member) => `${operation.id} ${member}`));
  expect(missing).toEqual([]);
});

const withReferences = Object.entries(ROWS).filter(([, row]) => row.references !== undefined);

test.each(withReferences)('%s takes no id of another network or incident, and says the same as for an id that never was', async (id, row) => {
  expect(await runReferences(matrix, operationOf(id), row)).toEqual([]);
});

test('summary', () => {
  process.stdout.write(`foreign references: ${withReferences.length} routes, ${matrix.cells} commands: ${matrix.wrong.length} wrong\n`);
  expect(matrix.wrong).toEqual([]);
});
