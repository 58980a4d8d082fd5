import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import { type IncidentOnTest, networkDigest, PreparedIncident, startTestServer, type TestNetwork, type TestServer } from '#testing';

// IETF draft-ietf-httpapi-idempotency-key-header: 400 without a key, 409 while the first is running, 422 with other content.

let server: TestServer;
let network: TestNetwork;
let incident: IncidentOnTest;

beforeAll(async () => {
  server = await startTestServer();
  network = await server.network();
  incident = await network.incident();
});
afterAll(() => server.close());

const path = () => `/v1/incidents/${incident.id}/households`;
let codes = 0;
const household = () => ({ code: `HH-${(codes += 1)}`, contact: { name: 'Contact' }, consents: [{ scope: 'treat', given: true, manner: 'spoken', note: '' }] });
const under = (key: string) => ({ 'idempotency-key': key });
interface Answer {
  status: number;
  body: { id: string; code: string };
}

/** The incident with a household in it, for commands on items. */
async function preparedIncident(): Promise<PreparedIncident> {
  const prepared = new PreparedIncident(network, incident, 'race');
  prepared.made['household'] = (await prepared.newHousehold()).id;
  return prepared;
}

const count = async (table: string, networkId = network.networkId) => Number((await server.admin.query(`select count(*) as n from ${table} where network_id = $1`, [networkId])).rows[0].n);

describe('the same command again', () => {
  test('answers the same status, body, ETag and Location, says that it is a replay, and does nothing twice', async () => {
    const key = randomUUID();
    const body = household();
    const first = await network.post(path(), body, under(key)).expect(201);
    const before = await networkDigest(server.admin, network.networkId);
    const again = await network.post(path(), body, under(key)).expect(201);
    expect(again.body).toEqual(first.body);
    for (const header of ['etag', 'location', 'content-type', 'idempotency-key']) expect([header, again.headers[header]]).toEqual([header, first.headers[header]]);
    expect(first.headers['etag']).toBe('"1"');
    expect(first.headers['idempotency-replayed']).toBeUndefined();
    expect(again.headers['idempotency-replayed']).toBe('true');
    expect(await networkDigest(server.admin, network.networkId)).toEqual(before);
  });

  test('is the same however its members are ordered and its key is quoted or spelled', async () => {
    const key = randomUUID();
    const { code, contact, consents } = household();
    const first = await network.post(path(), { code, contact, consents }, under(key)).expect(201);
    const again = await network.post(path(), { consents, contact, code }, under(`"${key.toUpperCase()}"`)).expect(201);
    expect(again.headers['idempotency-replayed']).toBe('true');
    expect(again.body).toEqual(first.body);
  });

  test('answers what was answered then, even when the thing has changed since', async () => {
    const key = randomUUID();
    const first = await network.patch(`/v1/incidents/${incident.id}`, { place: 'Upper bank' }, { ...under(key), 'if-match': '"1"' }).expect(200);
    await network.patch(`/v1/incidents/${incident.id}`, { place: 'Lower bank' }, { 'if-match': '"2"' }).expect(200);
    const again = await network.patch(`/v1/incidents/${incident.id}`, { place: 'Upper bank' }, { ...under(key), 'if-match': '"1"' }).expect(200);
    expect(again.body).toEqual(first.body);
    expect(again.headers['etag']).toBe('"2"');
    expect(again.headers['idempotency-replayed']).toBe('true');
    expect((await network.get(`/v1/incidents/${incident.id}`).expect(200)).body.place).toBe('Lower bank');
  });

  test('shows a new API key once: the repeated answer has no secret', async () => {
    const key = randomUUID();
    const body = { label: 'Tablet', scopes: ['item:read'], expiresAt: new Date(Date.now() + 86_400_000).toISOString() };
    const first = await network.post('/v1/keys', body, under(key)).expect(201);
    const again = await network.post('/v1/keys', body, under(key)).expect(201);
    expect(again.body).toEqual({ ...first.body, secret: null });
    expect(first.body.secret).toMatch(/^wk_/);
    // Answers about households are sealed; this one is not, so that what it holds can be seen.
    const { rows } = await server.admin.query('select body::text as body from idempotency_record where network_id = $1 and body is not null', [network.networkId]);
    expect(rows.some((row: { body: string }) => row.body.includes(first.body.id))).toBe(true);
    expect(rows.some((row: { body: string }) => row.body.includes(first.body.secret))).toBe(false);
  });
});

describe('the same key with another command', () => {
  test('answers 422 and changes nothing, when the body differs', async () => {
    const key = randomUUID();
    await network.post(path(), household(), under(key)).expect(201);
    const before = await networkDigest(server.admin, network.networkId);
    const answer = await network.post(path(), household(), under(key)).expect(422);
    expect(answer.body.code).toBe('idempotency_key_reused');
    expect(answer.headers['idempotency-replayed']).toBeUndefined();
    expect(await networkDigest(server.admin, network.networkId)).toEqual(before);
  });

  test('answers 422 when only the address differs', async () => {
    const key = randomUUID();
    const other = await network.incident();
    const body = household();
    await network.post(path(), body, under(key)).expect(201);
    expect((await network.post(`/v1/incidents/${other.id}/households`, body, under(key)).expect(422)).body.code).toBe('idempotency_key_reused');
  });

  test('of another operation is another command', async () => {
    const key = randomUUID();
    await network.post(path(), household(), under(key)).expect(201);
    const answer = await network.post(`/v1/incidents/${incident.id}/tag-blocks`, { kind: 'item', count: 1, reservedFor: 'Team' }, under(key)).expect(201);
    expect(answer.headers['idempotency-replayed']).toBeUndefined();
  });
});

describe('keys of two callers do not meet', () => {
  test('in two networks', async () => {
    const other = await server.network();
    const there = await other.incident();
    const key = randomUUID();
    const mine = await network.post(path(), household(), under(key)).expect(201);
    const theirs = await other.post(`/v1/incidents/${there.id}/households`, household(), under(key)).expect(201);
    expect(theirs.headers['idempotency-replayed']).toBeUndefined();
    expect(theirs.body.id).not.toBe(mine.body.id);
    expect(theirs.body.incidentId).toBe(there.id);
  });

  test('with two API keys of one network', async () => {
    const key = randomUUID();
    const body = household();
    await network.post(path(), body, under(key)).expect(201);
    const second = await network.as(await network.newKey()).post(path(), body, under(key)).expect(409);
    expect(second.body.code).toBe('already_exists');
    expect(second.headers['idempotency-replayed']).toBeUndefined();
  });
});

describe('a refusal', () => {
  test('is replayed word for word, even when the command would succeed by now', async () => {
    const key = randomUUID();
    const body = household();
    await network.patch(`/v1/incidents/${incident.id}`, { state: 'closed' }, { 'if-match': (await network.get(`/v1/incidents/${incident.id}`)).headers['etag'] as string }).expect(200);
    const first = await network.post(path(), body, under(key)).expect(409);
    expect(first.body.code).toBe('incident_closed');
    await network.patch(`/v1/incidents/${incident.id}`, { state: 'open' }, { 'if-match': (await network.get(`/v1/incidents/${incident.id}`)).headers['etag'] as string }).expect(200);
    const again = await network.post(path(), body, under(key)).expect(409);
    expect(again.headers['idempotency-replayed']).toBe('true');
    const { instance: _i, traceId: _t, ...told } = again.body;
    expect(first.body).toMatchObject(told);
    await network.post(path(), body).expect(201);
  });

  test.each([
    ['of a body that is not valid', 400, (key: string) => network.post(path(), { code: 'HH-x' }, under(key))],
    ['for want of a scope', 403, async (key: string) => network.as(await network.newKey({ scopes: ['item:read'] })).post(path(), household(), under(key))],
  ])('%s is not kept: the mended command may use the key', async (_, status, send) => {
    const key = randomUUID();
    const refused = await send(key);
    expect(refused.status).toBe(status);
    const mended = await network.post(path(), household(), under(key)).expect(201);
    expect(mended.headers['idempotency-replayed']).toBeUndefined();
  });
});

describe('equal commands at the same moment', () => {
  test.each([
    ['on prepared SQL', path, household, 'household'],
    ['on the ORM', () => `/v1/incidents/${incident.id}/freezers`, () => ({ siteId: incident.site(), code: `F${(codes += 1)}`, name: 'Trailer', volumeL: 600, availableFrom: '2026-05-09T16:00:00Z' }), 'freezer'],
  ])('20 of them take effect once, %s: each answers 201 or 409', async (_, address, makeBody, table) => {
    const key = randomUUID();
    const body = makeBody();
    const before = await count(table);
    const answers = await Promise.all(Array.from({ length: 20 }, () => network.post(address(), body, under(key))));
    expect(await count(table)).toBe(before + 1);
    const done = answers.filter((answer) => answer.status === 201);
    const busy = answers.filter((answer) => answer.status === 409);
    expect(done.length + busy.length).toBe(20);
    expect(done.length).toBeGreaterThan(0);
    expect(new Set(done.map((answer) => answer.body.id)).size).toBe(1);
    expect(done.filter((answer) => answer.headers['idempotency-replayed'] === undefined)).toHaveLength(1);
    for (const answer of busy) expect([answer.body.code, answer.headers['retry-after']]).toEqual(['command_running', '1']);
    // Whoever was told to wait gets the answer afterwards.
    const later = await network.post(address(), body, under(key)).expect(201);
    expect(later.body.id).toBe(done[0]?.body.id);
  });
});

describe('different commands that want the same thing at the same moment', () => {
  const TOGETHER = 20;

  async function race(send: () => PromiseLike<Answer>): Promise<{ done: Answer[]; refused: [number, string][] }> {
    const answers = await Promise.all(Array.from({ length: TOGETHER }, send));
    return { done: answers.filter((answer) => answer.status < 300), refused: answers.filter((answer) => answer.status >= 300).map((answer) => [answer.status, answer.body.code]) };
  }

  test('one household code: one household, the others are told that it is there', async () => {
    const body = household();
    const before = await count('household');
    const { done, refused } = await race(() => network.post(path(), body));
    expect(refused).toEqual(Array.from({ length: TOGETHER - 1 }, () => [409, 'already_exists']));
    expect([done.length, await count('household')]).toEqual([1, before + 1]);
  });

  test('one tag: one item, the others are told that it is tied', async () => {
    const prepared = await preparedIncident();
    const body = { householdId: prepared.the('household'), siteId: incident.site(), tag: await prepared.newTag(), description: 'Quilt', sizeClass: 'double-quilt' };
    const before = await count('item');
    const { done, refused } = await race(() => network.post(`/v1/incidents/${incident.id}/items`, body));
    expect(refused).toEqual(Array.from({ length: TOGETHER - 1 }, () => [409, 'tag_taken']));
    expect([done.length, await count('item')]).toEqual([1, before + 1]);
  });

  test('one container tag: one container, the others are told that it is tied', async () => {
    const prepared = await preparedIncident();
    const body = { siteId: incident.site(), tag: await prepared.newTag('container'), kind: 'tub', description: 'Tub' };
    const { done, refused } = await race(() => network.post(`/v1/incidents/${incident.id}/containers`, body));
    expect(refused).toEqual(Array.from({ length: TOGETHER - 1 }, () => [409, 'tag_taken']));
    expect(done).toHaveLength(1);
  });

  test('one item handed back: once, the others are told that it has left', async () => {
    const prepared = await preparedIncident();
    const item = await prepared.newItem();
    const body = { items: [{ itemId: item.id, conditionNote: 'Dry' }], receiver: 'contact', identityCheck: 'document-seen', signatureRef: 'receipts/1' };
    const { done, refused } = await race(() => network.post(`/v1/households/${prepared.the('household')}/hand-backs`, body));
    expect(refused).toEqual(Array.from({ length: TOGETHER - 1 }, () => [409, 'item_terminal']));
    expect(done).toHaveLength(1);
  });

  test('one item moved: once, the others are told who holds it', async () => {
    const prepared = await preparedIncident();
    const item = await prepared.newItem();
    const body = { kind: 'moved', from: item['keeper'], to: { kind: 'holding', id: incident.holding('clean') } };
    const { done, refused } = await race(() => network.post(`/v1/items/${item.id}/custody-events`, body));
    expect(refused).toEqual(Array.from({ length: TOGETHER - 1 }, () => [409, 'wrong_keeper']));
    expect(done).toHaveLength(1);
    expect((await network.get(`/v1/items/${item.id}`).expect(200)).body.custodySeq).toBe(2);
  });

  test('one file of arrivals: one import, and all are told of it', async () => {
    const { done, refused } = await race(() => network.post(`/v1/incidents/${incident.id}/intake-imports?siteId=${incident.site()}`, 'tag,household\nKKKK-KKK-00,HH-1\n', { 'content-type': 'text/csv' }));
    expect(refused).toEqual([]);
    expect(new Set(done.map((answer) => answer.body.id)).size).toBe(1);
    expect(done.map((answer) => answer.status).sort()).toEqual([...Array.from({ length: TOGETHER - 1 }, () => 200), 201]);
  });

  test('a plan: one run that waits, and all are told of it', async () => {
    const { done, refused } = await race(() => network.post(`/v1/incidents/${incident.id}/plan-runs`, { reason: 'All at once' }));
    expect(refused).toEqual([]);
    expect(new Set(done.map((answer) => answer.body.id)).size).toBe(1);
  });

  test('one code for a freezer: one freezer, the others are told that the code is taken', async () => {
    const body = { siteId: incident.site(), code: 'F-race', name: 'Trailer', volumeL: 600, availableFrom: '2026-05-09T16:00:00Z' };
    const { done, refused } = await race(() => network.post(`/v1/incidents/${incident.id}/freezers`, body));
    expect(refused).toEqual(Array.from({ length: TOGETHER - 1 }, () => [409, 'already_exists']));
    expect(done).toHaveLength(1);
  });
});

describe('the key itself', () => {
  const commands: [string, () => string, 'post' | 'patch'][] = [
    ['a POST on prepared SQL', path, 'post'],
    ['a POST on the ORM', () => `/v1/incidents/${incident.id}/freezers`, 'post'],
    ['a PATCH', () => `/v1/incidents/${incident.id}`, 'patch'],
  ];
  const bodies = { post: () => household(), patch: () => ({ place: 'Elsewhere' }) };
  const bodyFor = (address: string, method: 'post' | 'patch') => (address.endsWith('/freezers') ? { siteId: incident.site(), code: 'F-none', name: 'Trailer', volumeL: 600, availableFrom: '2026-05-09T16:00:00Z' } : bodies[method]());

  test.each(commands)('left out of %s is 400, and nothing happens', async (_, address, method) => {
    const before = await networkDigest(server.admin, network.networkId);
    const answer = await network[method](address(), bodyFor(address(), method), { 'idempotency-key': '', 'if-match': '"1"' });
    const bare = await fetch(`${server.url}${address()}`, {
      method: method.toUpperCase(), body: JSON.stringify(bodyFor(address(), method)),
      headers: { authorization: `Bearer ${network.key}`, 'content-type': method === 'patch' ? 'application/merge-patch+json' : 'application/json', 'if-match': '"1"' },
    });
    expect([answer.status, bare.status]).toEqual([400, 400]);
    expect(((await bare.json()) as { code: string }).code).toBe('idempotency_key_missing');
    expect(['idempotency_key_missing', 'idempotency_key_malformed']).toContain(answer.body.code);
    expect(await networkDigest(server.admin, network.networkId)).toEqual(before);
  });

  test.each(['1', 'not-a-uuid', '"unfinished', `${'a'.repeat(300)}`, '00000000-0000-0000-0000-00000000000', "' or 1=1 --"])('that is no UUID (%s) is 400, and nothing happens', async (key) => {
    const before = await networkDigest(server.admin, network.networkId);
    expect((await network.post(path(), household(), under(key)).expect(400)).body.code).toBe('idempotency_key_malformed');
    expect(await networkDigest(server.admin, network.networkId)).toEqual(before);
  });
});
