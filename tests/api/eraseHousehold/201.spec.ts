import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import { randomUUID } from 'node:crypto';
import { verifyNetwork, type Fault } from '../../../apps/ops/src/verify/verify-network.js';
import { take, work } from '../submitIntakeImport/intake-files.js';
import { Workbench } from '../support/workbench.js';
import { foundInDatabase } from './raw-dump.js';

/** An invented name that is nobody's. */
const NAME = 'Zwirbelquist';
const PHONE = '0699-314159';
const said = (what: string) => `${what}, says ${NAME}`;

let bench: Workbench;
let household: { id: string; code: string };
let items: string[];
const post = (path: string, body: object, headers = {}) => bench.network.post(path, body, headers);
const erase = (id: string, change: object = {}) => post(`/v1/households/${id}/erasures`, { personId: bench.incident.person('P1'), reason: 'owner-asked', ...change });

/** Says the name in every place where our people may say something of a family's thing. */
async function tellEverywhere(): Promise<void> {
  const [quilt = '', trunk = ''] = items;
  const lead = bench.incident.person('P1');
  await post(`/v1/households/${household.id}/consents`, { scope: 'refer', given: true, manner: 'spoken', note: said('Only the letters'), itemId: trunk }).expect(201);
  await post(`/v1/items/${quilt}/custody-events`, { kind: 'moved', from: bench.holding('dirty'), to: bench.holding('clean'), personId: lead, reason: said('Wanted it clean') }).expect(201);
  await post(`/v1/items/${quilt}/custody-events`, { kind: 'correction', from: bench.holding('clean'), to: bench.holding('dirty'), personId: lead, reason: said('No'), corrects: { seq: 2, reason: said('It was the other one') }, stage: 'waiting' }).expect(201);
  await post(`/v1/items/${quilt}/assessments`, { personId: lead, fibre: 'cotton', wetState: 'wet', mould: 'none', fragility: 'sound', alreadyBled: false, onlyCopy: true, highMarketValue: false }).expect(201);
  await post(`/v1/items/${quilt}/disposition-overrides`, { disposition: 'hold-frozen', reason: said('Keep it cold'), personId: lead }).expect(201);
  await post(`/v1/items/${quilt}/location-disputes`, { place: bench.holding('clean'), personId: lead, note: said('It lies here') }).expect(201);
  await post(`/v1/items/${quilt}/location-settlements`, { at: bench.holding('dirty'), personId: lead }).expect(201);
  await post(`/v1/incidents/${bench.incident.id}/plan-wishes`, { itemId: trunk, kind: 'first', reason: said('It is needed on Sunday'), personId: lead }).expect(201);
  // Words about no household: on a box in which a thing of theirs lay, on an alarm, as the name of a file.
  const tag = (await post(`/v1/incidents/${bench.incident.id}/tag-blocks`, { kind: 'container', count: 1, reservedFor: 'boxes' }).expect(201)).body.tags[0] as string;
  const box = await post(`/v1/incidents/${bench.incident.id}/containers`, { siteId: bench.incident.site(), tag, kind: 'box', description: said('Box with handles') }).expect(201);
  await post(`/v1/items/${trunk}/custody-events`, { kind: 'moved', from: bench.holding('dirty'), to: { kind: 'container', id: box.body.id }, personId: lead }).expect(201);
  await bench.server.admin.query(
    `insert into alarm (network_id, incident_id, id, kind, subject_kind, subject_id, severity, raised_at, evidence, present, present_at, acknowledged_at, acknowledged_by, acknowledged_note, acknowledged_present)
     values ($1, $2, gen_random_uuid(), 'freezer-warm', 'freezer', gen_random_uuid(), 'warning', now(), '[]', '[]', now(), now(), $3, $4, '[]'), ($1, $2, gen_random_uuid(), 'freezer-warm', 'freezer', gen_random_uuid(), 'warning', now(), '[]', '[]', now(), now(), $3, 'Fan moved', '[]')`,
    [bench.network.networkId, bench.incident.id, lead, said('Looked for it')],
  );
  const named = await bench.network.post(`/v1/incidents/${bench.incident.id}/intake-imports?siteId=${bench.incident.site()}&fileName=things-of-${NAME}.csv`, 'tag,household,object\nKKKK-KKK-01,HH-1,Map\n', { 'content-type': 'text/csv' }).expect(201);
  await work(bench.server, bench.network, named.body.id);
  const file = `tag,household,object,contactName\nKKKK-KKK-00,${household.code},Gown,${NAME}\n`;
  await take(bench.server, bench.network, bench.incident, file);
}

async function handEverythingBack(): Promise<void> {
  for (const id of items) {
    const item = await bench.read(id);
    if (['handed-back', 'released'].includes(item.stage as string)) continue;
    await bench.handBack(household, [id]).expect(201);
  }
}

beforeAll(async () => {
  bench = await Workbench.open();
  const made = await post(`/v1/incidents/${bench.incident.id}/households`, {
    code: `HH-${NAME}`, contact: { name: `Family ${NAME}`, phone: PHONE, email: `${NAME}@household.example`, address: `${NAME} Lane 1` }, consents: (['treat', 'freeze', 'refer'] as const).map((scope) => ({ scope, given: true, manner: 'spoken', note: said('At the doorway') })),
  }).expect(201);
  household = { id: made.body.id, code: made.body.code };
  const words = { description: `Quilt of ${NAME}`, familyWords: `Grandmother ${NAME} sewed it`, photographRef: `${NAME}-1.jpg` };
  items = [(await bench.takeIn(household, words)).id, (await bench.takeIn(household, { ...words, description: `Trunk of ${NAME}` })).id];
  await tellEverywhere();
});
afterAll(() => bench.close());

test('what was said before stands in no byte of the database but where our people said it of a thing', async () => {
  const found = await foundInDatabase(bench.server.admin, [PHONE, `Grandmother ${NAME}`, 'At the doorway', 'Only the letters', 'Wanted it clean', 'It was the other one']);
  expect(found).toEqual([]);
});

describe('erasing a household', () => {
  test('is refused while its things are with us, names them, and changes nothing', async () => {
    const answer = await erase(household.id).expect(409);
    expect(answer.body).toMatchObject({ code: 'items_held', items: 2 });
    expect((await bench.network.get(`/v1/households/${household.id}`).expect(200)).body.contact.phone).toBe(PHONE);
  });

  test('is refused to who is no lead, and under a legal hold until that is lifted', async () => {
    const own = await bench.household();
    expect((await erase(own.id, { personId: bench.incident.person('P3') }).expect(422)).body.code).toBe('command_refused');
    const hold = await post(`/v1/households/${own.id}/legal-holds`, { personId: bench.incident.person('P1'), reason: 'A claim is announced.' }).expect(201);
    expect((await erase(own.id).expect(409)).body).toMatchObject({ code: 'legal_hold', legalHoldId: hold.body.id });
    await post(`/v1/legal-holds/${hold.body.id}/endings`, { personId: bench.incident.person('P1') }).expect(201);
    await erase(own.id).expect(201);
  });

  test('leaves its name in no row of any table, and every chain and root as whole as before', async () => {
    const key = `"${randomUUID()}"`;
    await handEverythingBack();
    const chains = await Promise.all(items.map(async (id) => (await bench.network.get(`/v1/items/${id}/custody-events`).expect(200)).body.items as { hash: string }[]));
    const done = await post(`/v1/households/${household.id}/erasures`, { personId: bench.incident.person('P1'), reason: 'owner-asked' }, { 'idempotency-key': key }).expect(201);
    expect(done.body).toMatchObject({ householdId: household.id, items: 2, wordsInChain: 0, reason: 'owner-asked' });
    // As it would be after the next vacuum: what was replaced is in no table any more.
    expect(await foundInDatabase(bench.server.admin, [NAME, PHONE])).toEqual([]);
    const faults: Fault[] = [];
    await verifyNetwork({ unitOfWork: bench.server.unitOfWork, networkId: bench.network.networkId, onFault: (fault) => faults.push(fault) });
    expect(faults).toEqual([]);
    const after = await Promise.all(items.map(async (id) => (await bench.network.get(`/v1/items/${id}/custody-events`).expect(200)).body.items as { hash: string }[]));
    expect(after.map((chain) => chain.map(({ hash }) => hash))).toEqual(chains.map((chain) => chain.map(({ hash }) => hash)));
    const again = await post(`/v1/households/${household.id}/erasures`, { personId: bench.incident.person('P1'), reason: 'owner-asked' }, { 'idempotency-key': key }).expect(201);
    expect(again.body).toEqual(done.body);
  });

  test('can be seen afterwards, happens once, and takes no new word about it', async () => {
    const { body } = await bench.network.get(`/v1/households/${household.id}`).expect(200);
    expect(body).toMatchObject({ code: `erased-${household.id}`, contact: null });
    expect((await bench.network.get(`/v1/items/${items[0]}`).expect(200)).body).toMatchObject({ description: '(erased)', familyWords: '', stage: 'handed-back' });
    expect((await erase(household.id).expect(409)).body.code).toBe('household_erased');
    expect((await post(`/v1/households/${household.id}/consents`, { scope: 'treat', given: true, manner: 'spoken', note: 'Something new' }).expect(409)).body.code).toBe('household_erased');
    expect((await bench.network.get(`/v1/incidents/${bench.incident.id}/item-search?q=${NAME}`).expect(200)).body.hits).toEqual([]);
    const audit = (await bench.network.get('/v1/audit-entries?limit=200').expect(200)).body.items as { operation: string; subjectId: string; outcome: string }[];
    expect(audit.filter(({ operation, subjectId }) => operation === 'eraseHousehold' && subjectId === household.id)).toHaveLength(1);
    expect(audit.filter(({ operation, subjectId, outcome }) => operation === 'getHousehold' && outcome === 'read' && subjectId === household.id).length).toBeGreaterThan(0);
  });

  test('leaves words about rooms, boxes and files that do not name it', async () => {
    const { rows } = await bench.server.admin.query<{ note: string }>('select acknowledged_note as note from alarm order by 1');
    expect(rows.map(({ note }) => note)).toEqual(['(erased)', 'Fan moved']);
    const files = await bench.server.admin.query<{ name: string }>('select file_name as name from intake_import order by 1');
    expect(files.rows.map(({ name }) => name)).toEqual(['(erased)', 'door-slips.csv']);
  });

  test('leaves another household of the same incident as it was', async () => {
    const other = await bench.household();
    const item = await bench.takeIn(other, { familyWords: 'Carried over the bridge' });
    const mine = await bench.household();
    await erase(mine.id).expect(201);
    expect((await bench.network.get(`/v1/households/${other.id}`).expect(200)).body.contact).not.toBeNull();
    expect((await bench.network.get(`/v1/items/${item.id}`).expect(200)).body.familyWords).toBe('Carried over the bridge');
  });
});
