import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import { type CallContext, personalField, sealExisting, type Stores } from '#application';
import { createPool, PgUnitOfWork, rewrapNetworkKeys } from '#persistence';
import { parseMasterKeys } from '#platform';
import { type IncidentOnTest, startTestServer, takeInTestHousehold, takeInTestItem, TEST_MASTER_KEY, type TestNetwork, type TestServer } from '#testing';

let server: TestServer;
let network: TestNetwork;
let incident: IncidentOnTest;
beforeAll(async () => {
  server = await startTestServer();
  network = await server.network();
  incident = await network.incident();
});
afterAll(() => server.close());

const contextOf = ({ networkId }: TestNetwork): CallContext => ({ networkId, incidentLimit: null, principalId: networkId, requestId: 'test', traceparent: '' });
const write = <T>(work: (stores: Stores) => Promise<T>, of = network) => server.unitOfWork.write(contextOf(of), work);
const read = <T>(work: (stores: Stores) => Promise<T>, of = network) => server.unitOfWork.read(contextOf(of), work);
const newHousehold = async () => (await takeInTestHousehold(network, incident)).id;
const NOTE = personalField('consent.note', 'one');

describe('a text sealed for a household', () => {
  test('is read again in a later transaction, and its words are in no byte of the row', async () => {
    const id = await newHousehold();
    const sealed = await write(({ personal }) => personal.seal(id, NOTE, 'Ask for Oma Wilhelmine'));
    expect(Buffer.from(sealed).includes('Wilhelmine')).toBe(false);
    expect(await read(({ personal }) => personal.open(id, NOTE, sealed))).toBe('Ask for Oma Wilhelmine');
    expect(await read(({ personal }) => personal.open(id, NOTE, null))).toBeNull();
  });

  test('opens for no other household, field or network', async () => {
    const [one, other] = [await newHousehold(), await newHousehold()];
    const [sealed] = await write(({ personal }) => personal.sealAll([{ householdId: one, field: NOTE, text: 'ours' }, { householdId: other, field: NOTE, text: 'theirs' }]));
    await expect(read(({ personal }) => personal.open(other, NOTE, sealed ?? null))).rejects.toThrow('does not open');
    await expect(read(({ personal }) => personal.open(one, personalField('consent.note', 'two'), sealed ?? null))).rejects.toThrow('does not open');
    const theirs = await server.network();
    await expect(read(({ personal }) => personal.open(one, NOTE, sealed ?? null), theirs)).rejects.toThrow('a key that is not there');
  });

  test('twenty that seal at once for a new household agree on its key', async () => {
    const fresh = await server.network();
    const { id } = await takeInTestHousehold(fresh, await fresh.incident());
    await server.admin.query('delete from household_key where household_id = $1', [id]);
    const all = await Promise.all(Array.from({ length: 20 }, (_, index) => write(({ personal }) => personal.seal(id, `f${index}`, `text ${index}`), fresh)));
    const opened = await read(({ personal }) => personal.openAll(all.map((sealed, index) => ({ householdId: id, field: `f${index}`, sealed }))), fresh);
    expect(opened).toEqual(all.map((_, index) => `text ${index}`));
  });

  test('a key that was made in a transaction that failed is used by nobody', async () => {
    const fresh = await server.network();
    const { id } = await takeInTestHousehold(fresh, await fresh.incident());
    await server.admin.query('delete from household_key where household_id = $1', [id]);
    await expect(write(async ({ personal }) => { await personal.seal(id, NOTE, 'lost'); throw new Error('back'); }, fresh)).rejects.toThrow('back');
    const sealed = await write(({ personal }) => personal.seal(id, NOTE, 'kept'), fresh);
    expect(await read(({ personal }) => personal.open(id, NOTE, sealed), fresh)).toBe('kept');
  });
});

describe('a destroyed key', () => {
  test('opens nothing, seals nothing, and never comes back', async () => {
    const id = await newHousehold();
    const sealed = await write(({ personal }) => personal.seal(id, NOTE, 'gone'));
    await write(({ personal }) => personal.destroyKey(id, server.clock.nowMs()));
    expect(await read(({ personal }) => personal.open(id, NOTE, sealed))).toBeNull();
    await expect(write(({ personal }) => personal.seal(id, NOTE, 'again'))).rejects.toMatchObject({ code: 'household_erased' });
    await expect(server.admin.query(`update household_key set destroyed_at = null, wrapped = '\\x00' where household_id = $1`, [id])).rejects.toThrow('stays destroyed');
  });

  test('a household of another network cannot have its key destroyed', async () => {
    const id = await newHousehold();
    const sealed = await write(({ personal }) => personal.seal(id, NOTE, 'ours'));
    await write(({ personal }) => personal.destroyKey(id, server.clock.nowMs()), await server.network());
    expect(await read(({ personal }) => personal.open(id, NOTE, sealed))).toBe('ours');
  });

  test('nothing is sealed for a household that is not there', async () => {
    await expect(write(({ personal }) => personal.seal(network.networkId, NOTE, 'x'))).rejects.toMatchObject({ code: 'not_found' });
  });
});

describe('another master key', () => {
  test('wraps the network key anew, so that the earlier one may go, and what was sealed is read as before', async () => {
    const fresh = await server.network();
    const { id } = await takeInTestHousehold(fresh, await fresh.incident());
    const sealed = await write(({ personal }) => personal.seal(id, NOTE, 'kept'), fresh);
    const pool = createPool({ connectionString: server.database.appUrl, max: 2, applicationName: 'test-rotate', onError: () => undefined });
    try {
      const second = `2:${Buffer.alloc(32, 4).toString('base64')}`;
      const both = parseMasterKeys(`${TEST_MASTER_KEY},${second}`, 'test');
      const opened = (masters: string) => new PgUnitOfWork(pool, parseMasterKeys(masters, 'test')).read(contextOf(fresh), ({ personal }) => personal.open(id, NOTE, sealed));
      await expect(opened(second)).rejects.toThrow('master key 1, which was not given');
      expect(await rewrapNetworkKeys(pool, fresh.networkId, both)).toBe(true);
      expect(await rewrapNetworkKeys(pool, fresh.networkId, both)).toBe(false);
      expect(await opened(second)).toBe('kept');
      await expect(opened(TEST_MASTER_KEY)).rejects.toThrow('master key 2, which was not given');
    } finally {
      await pool.end();
    }
  });
});

test('what stood in the clear before is sealed in steps that may be killed anywhere, and found and read as before', async () => {
  const fresh = await server.network();
  const place = await fresh.incident();
  const household = await takeInTestHousehold(fresh, place);
  const item = await takeInTestItem(fresh, place, household, { familyWords: 'Carried over the bridge' });
  // As an earlier version left them.
  const clear = async (sql: string, values: unknown[]) => void (await server.admin.query(sql, values));
  await clear(`update household_contact set sealed = null, name = 'Family Zwirbelquist', phone = '0699', email = '', address = 'Lane 1' where household_id = $1`, [household.id]);
  await clear(`update consent set note_sealed = null, note = 'Said at the doorway' where household_id = $1`, [household.id]);
  await clear(`delete from item_word where item_id = $1 and word like '~%'`, [item.id]);
  await clear(`update item set family_words_sealed = null, family_words = 'Carried over the bridge' where id = $1`, [item.id]);
  const seen = async () => ({
    household: (await fresh.get(`/v1/households/${household.id}`).expect(200)).body, words: (await fresh.get(`/v1/items/${item.id}`).expect(200)).body.familyWords,
    found: (await fresh.get(`/v1/incidents/${place.id}/item-search?q=bridge`).expect(200)).body.hits.map(({ itemId }: { itemId: string }) => itemId),
  });
  const before = await seen();
  expect(before).toMatchObject({ household: { contact: { name: 'Family Zwirbelquist', phone: '0699' } }, words: 'Carried over the bridge', found: [item.id] });
  // Killed after a step that was not committed, and after one that was.
  await expect(write(async (stores) => { await stores.erasures.sealInClear(place.id, 1); throw new Error('killed'); }, fresh)).rejects.toThrow('killed');
  expect(await seen()).toEqual(before);
  await write((stores) => stores.erasures.sealInClear(place.id, 1), fresh);
  expect(await seen()).toEqual(before);
  await sealExisting(server.unitOfWork, contextOf(fresh), place.id, 1);
  expect(await seen()).toEqual(before);
  const { rows } = await server.admin.query<{ left: number }>(
    `select (select count(*) from household_contact where household_id = $1 and name is not null)::int + (select count(*) from consent where household_id = $1 and note is not null)::int
       + (select count(*) from item where household_id = $1 and family_words is not null)::int + (select count(*) from item_word where item_id = $2 and word = 'bridge')::int as left`,
    [household.id, item.id],
  );
  expect(rows).toEqual([{ left: 0 }]);
  expect(await sealExisting(server.unitOfWork, contextOf(fresh), place.id)).toBe(0);
});
