import { createServer, type Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import { afterEach, expect, test } from '@jest/globals';
import { ApiClient } from '../../../apps/ops/src/demo/api-client.js';
import { Book, type Item } from '../../../apps/ops/src/demo/driver/book.js';
import { accountOf } from '../../../apps/ops/src/demo/report/reconciliation.js';
import { generateWorld } from '../../../apps/ops/src/demo/world/generator.js';

const { things } = generateWorld(7, 0.05);
const STAGES = ['waiting', 'in-work', 'drying', 'held-wet', 'held-frozen', 'referred-out', 'released', 'handed-back', 'merged'] as const;

const servers: Server[] = [];
afterEach(async () => {
  for (const server of servers.splice(0)) await new Promise<void>((resolve) => server.close(() => resolve()));
});

const item = (id: string, stage: Item['stage'], keeperId = 'shelf', custodySeq = 1): Item => ({
  id, incidentId: 'i', householdId: 'h', siteId: 's', tag: `TAG-${id}`, kind: 'item', count: 1, splitFromId: null, description: '', familyWords: '', photographRef: '', photographedOn: null, materialClass: 'unknown', sizeClass: 'book', dryingAreaM2: 1,
  freezerVolumeL: 1, dryMassKg: 1, significance: 'valued', arrivedAt: '', wettedAt: null, keeper: { kind: 'holding', id: keeperId }, stage, custodySeq, openHandOver: null, locationDisputed: false, missing: false, lastSeenAt: '', urgency: null, startBy: null, disposition: null, nextStep: null, waitingForOwner: false,
  stabilisedAt: null, version: 1,
});

/** The account of a network whose crews know `crews`, and whose program answers `records` and the sums over them. */
async function account(crews: Item[], records: Item[], change: Record<string, unknown> = {}) {
  const byStage = Object.fromEntries(STAGES.map((stage) => [stage, records.filter((record) => record.stage === stage).length]));
  const reconciliation = { incidentId: 'i', received: records.length, byStage, difference: 0, keepersOtherThanOne: [], chainFaults: [], eventsVerified: 3, ...change };
  const server = createServer((request, reply) => {
    const body = request.url?.includes('/reconciliation') ? reconciliation : { items: records, nextCursor: null };
    reply.writeHead(200, { 'content-type': 'application/json', connection: 'close' }).end(JSON.stringify(body));
  });
  servers.push(server);
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  const url = `http://127.0.0.1:${(server.address() as AddressInfo).port}`;
  const book = new Book('valley', 'n', 'k', new ApiClient([url], 'k', { requests: 0, sentAgain: 0, replayed: 0 }), 'i', new Map());
  crews.forEach((known, index) => book.remember(things[index]!, known));
  return accountOf(book);
}

test('a day that adds up has no faults, and says so with the eight parts of the sum', async () => {
  const all = [item('a', 'waiting'), item('b', 'drying'), item('c', 'handed-back')];
  const { lines, faults } = await account(all, all);
  expect(faults).toEqual([]);
  expect(lines).toContain('received 3 = handed back 1 + released 0 + referred out 0 + held frozen 0 + held wet 0 + drying 1 + in work 0 + waiting 1');
  expect(lines).toContain('items with a number of keepers other than one: 0');
  expect(lines).toContain('custody chains that fail to verify: 0');
});

test('a thing that was lost and one that was doubled are found, even when the program agrees with itself', async () => {
  const [a, b, c] = [item('a', 'waiting'), item('b', 'waiting'), item('c', 'waiting')];
  expect((await account([a, b], [a])).faults.join(' ')).toContain('is not on record any more');
  expect((await account([a, b], [a, b, c])).faults.join(' ')).toContain('no crew took it in');
});

test('another stage, another keeper or an event too many is a fault', async () => {
  const left = item('a', 'waiting', 'shelf', 2);
  for (const record of [item('a', 'drying', 'shelf', 2), item('a', 'waiting', 'other shelf', 2), item('a', 'waiting', 'shelf', 3)]) {
    expect((await account([left], [record])).faults).toHaveLength(1);
  }
});

test("the program's own faults are faults of the account", async () => {
  const all = [item('a', 'waiting')];
  expect((await account(all, all, { received: 2, difference: 1 })).faults.join(' ')).toContain('the stages add up to 1');
  expect((await account(all, all, { keepersOtherThanOne: ['a'] })).faults.join(' ')).toContain('without exactly one keeper');
  expect((await account(all, all, { chainFaults: [{ itemId: 'a', seq: 2, fault: 'hash' }] })).faults.join(' ')).toContain('broken custody chains');
});
