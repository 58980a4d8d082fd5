import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import { networkDigest, type PreparedNetwork, prepareNetworks, startTestServer, type TestServer } from '#testing';
import { type Operation, operationsOf } from './tenant-matrix/document.js';
import { fill } from './tenant-matrix/prepared.js';
import { send } from './tenant-matrix/request.js';
import { ROWS } from './tenant-matrix/rows/index.js';

// OWASP ASVS 5.0.0, 16.2.1: log entries that say when, where, who and what.

let server: TestServer;
let ours: PreparedNetwork;
let operations: Map<string, Operation>;

beforeAll(async () => {
  server = await startTestServer();
  operations = new Map(operationsOf(server).map((operation) => [operation.id, operation]));
  ({ ours } = await prepareNetworks(server, (incident) => fill(incident, server)));
}, 400_000);
afterAll(() => server?.close());

async function sendOnce(id: string) {
  const [operation, row] = [operations.get(id), ROWS[id]];
  if (!operation || !row) throw new Error(`${id} is not in the document`);
  return send(server, operation, await row.request(ours.first), ours.network.key);
}

const IRREGULAR: Record<string, string> = { people: 'person', keys: 'api_key', choices: 'rule_book_choice', calibration: 'calibration_value', 'plan-wishes': 'plan_wish', joinings: 'aid_agreement', shelves: 'shelf', 'legal-holds': 'household_hold', appointments: 'hand_back_appointment',
  // A difference of a stock-take goes by the id of the thing that it is about.
  differences: 'item',
  // An upload is a file that is still on its way.
  uploads: 'file' };
const tableOf = (kind: string) => IRREGULAR[kind] ?? kind.replaceAll('-', '_').replace(/s$/, '');

interface Row {
  principal_id: string;
  operation: string;
  subject_kind: string;
  subject_id: string;
  outcome: string;
}

async function entriesOf(requestId: string | undefined): Promise<Row[]> {
  return (await server.admin.query<Row>('select principal_id, operation, subject_kind, subject_id, outcome from audit_entry where network_id = $1 and request_id = $2', [ours.network.networkId, requestId])).rows;
}

/** Looks at what is personal, which leave an entry as well: who read whose contact, and when. */
const LOOKS = new Set(['getHousehold', 'getHouseholdData', 'getFoundRecord', 'compareOwnershipClaim', 'lookUpHouseholds']);

/** Commands of another protocol, which has no key to repeat them by. */
const OF_ANOTHER_PROTOCOL = new Set(['endUpload']);

/** By the document: a command takes an Idempotency-Key, anything else changes nothing. */
function isCommand(operation: Operation | undefined): boolean {
  const documented = server.document.paths[operation?.path ?? '']?.[operation?.method ?? ''] as { parameters?: { name: string }[] } | undefined;
  return documented?.parameters?.some(({ name }) => name === 'Idempotency-Key') ?? false;
}

describe('a command leaves one entry that names the key, the operation and a thing of its kind; a look at personal data one that says so; anything else leaves none', () => {
  test.each(Object.keys(ROWS).sort())('%s', async (id) => {
    const got = await sendOnce(id);
    if (got.status >= 300) throw new Error(`${id} was refused: ${got.text.slice(0, 300)}`);
    const entries = await entriesOf(got.headers['x-request-id']);
    if (!isCommand(operations.get(id)) && !LOOKS.has(id) && !OF_ANOTHER_PROTOCOL.has(id)) return expect(entries).toEqual([]);
    const { rows: key } = await server.admin.query<{ id: string }>('select id from api_key where prefix = $1', [ours.network.key.split('_')[1]]);
    expect(entries).toEqual([{ principal_id: key[0]?.id, operation: id, subject_kind: expect.any(String), subject_id: expect.any(String), outcome: LOOKS.has(id) ? 'read' : 'done' }]);
    const { subject_kind: kind = '', subject_id: subjectId } = entries[0] ?? {};
    const { rows: things } = await server.admin.query(`select 1 from ${tableOf(kind)} where network_id = $1 and id = $2`, [ours.network.networkId, subjectId]);
    expect([kind, things.length]).toEqual([kind, 1]);
  });

  test('there are commands among them, and no GET is one', () => {
    const commands = [...operations.values()].filter(isCommand);
    expect(commands.length).toBeGreaterThan(25);
    expect(commands.filter(({ method }) => method === 'get')).toEqual([]);
  });
});

describe('a command whose entry cannot be written', () => {
  test.each(['takeInHousehold', 'assessItem', 'addFreezer', 'createApiKey'])('does not take place: %s', async (id) => {
    const [operation, row] = [operations.get(id), ROWS[id]];
    if (!operation || !row) throw new Error(`${id} is not in the document`);
    const parts = await row.request(ours.first);
    await server.admin.query("create function refuse_entry() returns trigger language plpgsql as $$ begin raise exception 'no room' using errcode = '53100'; end $$");
    await server.admin.query('create trigger refuse_entry before insert on audit_entry for each row execute function refuse_entry()');
    try {
      const before = await networkDigest(server.admin, ours.network.networkId);
      expect((await send(server, operation, parts, ours.network.key)).status).toBeGreaterThanOrEqual(500);
      expect(await networkDigest(server.admin, ours.network.networkId)).toEqual(before);
    } finally {
      await server.admin.query('drop trigger refuse_entry on audit_entry; drop function refuse_entry');
    }
    expect((await send(server, operation, parts, ours.network.key)).status).toBeLessThan(300);
  });
});
