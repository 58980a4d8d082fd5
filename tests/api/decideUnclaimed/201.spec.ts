import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import { verifyNetwork, type Fault } from '../../../apps/ops/src/verify/verify-network.js';
import { ClaimDesks } from '../support/found-items.js';
import { Workbench } from '../support/workbench.js';

let bench: Workbench;
let desks: ClaimDesks;
beforeAll(async () => {
  bench = await Workbench.open();
  desks = await ClaimDesks.open(bench);
});
afterAll(() => bench.close());

type Client = ClaimDesks['lead'];
const REASON = 'The office at Zwetschkenweg said so.';
const vote = (client: Client, id: string, code: string, decision: string, change: object = {}) => client.post(`/v1/uncollected/${id}/unclaimed-decisions`, { personId: desks.person(code), decision, reason: REASON, ...change });
const release = (itemId: string, to: string) => bench.network.post(`/v1/items/${itemId}/releases`, { to, personId: desks.person('P1') });
/** A path whose time is over, with both notices on record unless fewer are asked for. */
async function waited(notices = 2, noticedAt = '2024-01-01T00:00:00Z'): Promise<{ itemId: string; id: string }> {
  const { itemId } = await desks.found();
  const { id } = (await bench.network.post(`/v1/items/${itemId}/unclaimed`, { deciderId: desks.person('P1'), noticedAt }).expect(201)).body.path as { id: string };
  for (let number = 0; number < notices; number += 1) await bench.network.post(`/v1/uncollected/${id}/reminders`, {}).expect(200);
  return { itemId, id };
}
const pathsOf = async (itemId: string) => ((await bench.network.get(`/v1/incidents/${bench.incident.id}/uncollected?limit=200`).expect(200)).body.items as { id: string; itemId: string | null; state: string; decision: string | null }[]).filter((path) => path.itemId === itemId);
const stateOf = async (itemId: string) => ((await bench.network.get(`/v1/incidents/${bench.incident.id}/found-items?limit=200`).expect(200)).body.items as { itemId: string; state: string }[]).find((one) => one.itemId === itemId)?.state;
async function faults(): Promise<Fault[]> {
  const found: Fault[] = [];
  await verifyNetwork({ unitOfWork: bench.server.unitOfWork, networkId: bench.network.networkId, onFault: (fault) => found.push(fault) });
  return found;
}

test.each([['dispose', 'disposed', 'authority'], ['hand-to-authority', 'authority', 'disposed']])('two who agree on %s let it go that way and no other, by their decision in the owner\'s place', async (decision, to, otherwise) => {
  const { itemId, id } = await waited();
  expect((await release(itemId, to).expect(409)).body.code).toBe('owner_unknown');
  expect((await vote(desks.second, id, 'P2', decision).expect(201)).body).toMatchObject({ votes: 1, path: { state: 'open' }, caution: expect.stringContaining('ask the authority') });
  expect((await release(itemId, to).expect(409)).body.code).toBe('owner_unknown');
  expect((await vote(desks.lead, id, 'P1', decision).expect(201)).body).toMatchObject({ votes: 2, path: { state: 'decided', decision } });
  expect([await stateOf(itemId), (await bench.read(itemId)).stage]).toEqual(['decided', 'waiting']);
  expect((await vote(bench.network, id, 'P4', decision).expect(409)).body.code).toBe('already_exists');
  expect((await release(itemId, otherwise).expect(422)).body.errors[0].code).toBe('decided_otherwise');
  expect((await release(itemId, to).expect(201)).body).toMatchObject({ stage: 'released', keeper: { kind: 'disposed', id } });
  const events = (await bench.network.get(`/v1/items/${itemId}/custody-events`).expect(200)).body.items as { refs: Record<string, string> }[];
  expect(events.at(-1)).toMatchObject({ kind: 'released', refs: { decisionId: id, personId: desks.person('P1') } });
  expect(events.at(-1)?.refs).not.toHaveProperty('consentId');
  expect([await stateOf(itemId), await faults()]).toEqual(['ended', []]);
  const { hits } = (await bench.network.get(`/v1/incidents/${bench.incident.id}/item-search?q=${(await bench.read(itemId))['tag']}`).expect(200)).body as { hits: { where: string }[] };
  expect(hits[0]?.where).toContain('by two people where nobody knew the owner');
});

test('one who would keep it is enough, and so are two who do not agree: it stays and is waited for anew', async () => {
  const alone = await waited(0);
  expect((await vote(desks.lead, alone.id, 'P2', 'keep-longer').expect(201)).body.path).toMatchObject({ state: 'decided', decision: 'keep-longer' });
  const apart = await waited();
  await vote(desks.lead, apart.id, 'P1', 'dispose').expect(201);
  expect((await vote(desks.second, apart.id, 'P2', 'hand-to-authority').expect(201)).body.path).toMatchObject({ state: 'decided', decision: 'keep-longer' });
  for (const { itemId, id } of [alone, apart]) {
    expect((await pathsOf(itemId)).map((path) => [path.id === id, path.state])).toEqual([[false, 'open'], [true, 'decided']]);
    expect([await stateOf(itemId), (await release(itemId, 'disposed').expect(409)).body.code]).toEqual(['unclaimed', 'owner_unknown']);
  }
});

test('a claim or a legal hold that comes after the decision keeps it here, until each has ended', async () => {
  const { itemId, id } = await waited();
  await vote(desks.lead, id, 'P1', 'dispose').expect(201);
  await vote(desks.second, id, 'P2', 'dispose').expect(201);
  const household = await bench.household();
  const claim = await desks.claim(itemId, household.id);
  expect([await stateOf(itemId), (await release(itemId, 'disposed').expect(422)).body.reason]).toEqual(['claimed', 'claimed']);
  await bench.network.post(`/v1/ownership-claims/${claim.id}/withdrawal`, {}).expect(200);
  const unknown = (await bench.read(itemId))['householdId'] as string;
  for (const held of [household.id, unknown]) {
    const hold = (await bench.network.post(`/v1/households/${held}/legal-holds`, { personId: desks.person('P1'), reason: 'A court asked.' }).expect(201)).body.id as string;
    expect((await release(itemId, 'disposed').expect(409)).body).toMatchObject({ code: 'legal_hold', legalHoldId: hold });
    await bench.network.post(`/v1/legal-holds/${hold}/endings`, { personId: desks.person('P1') }).expect(201);
  }
  await release(itemId, 'disposed').expect(201);
});

test('an owner who is found after the decision has it like anything else, and the decision lets nothing go any more', async () => {
  const { itemId, id } = await waited();
  await vote(desks.lead, id, 'P1', 'dispose').expect(201);
  await vote(desks.second, id, 'P2', 'dispose').expect(201);
  const household = await bench.household();
  await desks.grant((await desks.claim(itemId, household.id)).id);
  expect((await release(itemId, 'disposed').expect(409)).body.code).toBe('consent_missing');
  expect((await release(itemId, 'authority').expect(422)).body.errors[0].code).toBe('owner_known');
  await bench.handBack(household, [itemId]).expect(201);
  const data = await bench.network.get(`/v1/households/${household.id}/personal-data`).expect(200);
  expect(data.body.held.unclaimed_decision).toMatchObject([{ reason: REASON }, { reason: REASON }]);
  await bench.network.post(`/v1/households/${household.id}/erasures`, { personId: desks.person('P1'), reason: 'owner-asked' }).expect(201);
  expect((await bench.server.admin.query('select reason from unclaimed_decision where item_id = $1', [itemId])).rows).toEqual([{ reason: null }, { reason: null }]);
});

test('a part that was taken out of a found lot goes by the decision about the lot', async () => {
  const { itemId } = await desks.found({ count: 240, materialClass: 'photo-colour-print', sizeClass: 'print-10x15' });
  const [tag] = (await bench.network.post(`/v1/incidents/${bench.incident.id}/tag-blocks`, { kind: 'item', count: 1, reservedFor: 'x' }).expect(201)).body.tags;
  const split = await bench.network.post(`/v1/incidents/${bench.incident.id}/items/${itemId}/splits`, { count: 80, tag, personId: desks.person('P1') }, { 'if-match': `"${(await bench.read(itemId)).version}"` }).expect(201);
  const part = (split.body.part ?? split.body).id as string;
  const { id } = (await bench.network.post(`/v1/items/${itemId}/unclaimed`, { deciderId: desks.person('P1'), noticedAt: '2024-01-01T00:00:00Z' }).expect(201)).body.path as { id: string };
  for (let number = 0; number < 2; number += 1) await bench.network.post(`/v1/uncollected/${id}/reminders`, {}).expect(200);
  await vote(desks.lead, id, 'P1', 'dispose').expect(201);
  expect((await release(part, 'disposed').expect(409)).body.code).toBe('owner_unknown');
  await vote(desks.second, id, 'P2', 'dispose').expect(201);
  for (const each of [part, itemId]) await release(each, 'disposed').expect(201);
});

test('two second words at the same moment have one outcome', async () => {
  for (let round = 0; round < 4; round += 1) {
    const { itemId, id } = await waited();
    await vote(desks.lead, id, 'P1', 'dispose').expect(201);
    const answers = await Promise.all([vote(desks.second, id, 'P2', 'dispose'), vote(desks.desk, id, 'P4', 'keep-longer')]);
    expect(answers.map(({ status }) => status).sort()).toEqual([201, 409]);
    const decided = (await pathsOf(itemId)).filter(({ state }) => state === 'decided').map(({ decision }) => decision);
    expect(decided).toEqual([answers[0]?.status === 201 ? 'dispose' : 'keep-longer']);
  }
});

describe('is refused, and decides nothing', () => {
  test.each<[string, number, string, () => Promise<{ status: number; body: { code: string; errors?: { code: string }[]; reason?: string } }>]>([
    ['before its time', 422, 'too_early', async () => vote(desks.lead, (await waited(2, '2026-05-01T00:00:00Z')).id, 'P1', 'dispose')],
    ['before both notices are on record', 422, 'notice_missing', async () => vote(desks.lead, (await waited(1)).id, 'P1', 'dispose')],
    ['the same person with another key', 409, 'decided-before', async () => {
      const { id } = await waited();
      await vote(desks.lead, id, 'P1', 'dispose').expect(201);
      return vote(desks.second, id, 'P1', 'dispose');
    }],
    ['another name with the same key', 409, 'key-decided-before', async () => {
      const { id } = await waited();
      await vote(desks.lead, id, 'P1', 'dispose').expect(201);
      return vote(desks.lead, id, 'P2', 'dispose');
    }],
    ['two of whom none was named for it', 422, 'not_the_decider', async () => {
      const { id } = await waited();
      await vote(desks.lead, id, 'P2', 'dispose').expect(201);
      return vote(desks.second, id, 'P4', 'dispose');
    }],
    ['two of whom none is a lead', 422, 'not_a_lead', async () => {
      const { itemId } = await desks.found();
      const { id } = (await bench.network.post(`/v1/items/${itemId}/unclaimed`, { deciderId: desks.person('P2'), noticedAt: '2024-01-01T00:00:00Z' }).expect(201)).body.path as { id: string };
      for (let number = 0; number < 2; number += 1) await bench.network.post(`/v1/uncollected/${id}/reminders`, {}).expect(200);
      await vote(desks.lead, id, 'P2', 'dispose').expect(201);
      return vote(desks.second, id, 'P4', 'dispose');
    }],
    ['while a household claims it', 422, 'claimed', async () => {
      const { itemId, id } = await waited();
      await desks.claim(itemId, (await bench.household()).id);
      return vote(desks.lead, id, 'P1', 'dispose');
    }],
    ['the path of a household', 422, 'command_refused', async () => {
      const household = await bench.household();
      await bench.takeIn(household);
      const { id } = (await bench.network.post(`/v1/households/${household.id}/uncollected`, { deciderId: desks.person('P1'), readyAt: '2026-01-01T00:00:00Z' }).expect(201)).body as { id: string };
      return vote(desks.lead, id, 'P1', 'keep-longer');
    }],
    ['by the decision that households have', 422, 'command_refused', async () => bench.network.post(`/v1/uncollected/${(await waited()).id}/decisions`, { personId: desks.person('P1'), decision: 'keep-longer', reason: REASON })],
    ['what is no decision about a found thing', 400, 'validation_failed', async () => vote(desks.lead, (await waited()).id, 'P1', 'bring-to-them')],
    ['a path of another network', 404, 'not_found', async () => vote(await bench.server.network(), (await waited()).id, 'P1', 'dispose')],
  ])('%s: %i %s', async (_, status, code, ask) => {
    const { status: given, body } = await ask();
    expect([given, [body.code, ...(body.errors ?? []).map((error) => error.code)].includes(code)]).toEqual([status, true]);
  });
});

test('why is sealed', async () => {
  const { id } = await waited();
  await vote(desks.lead, id, 'P1', 'dispose').expect(201);
  const { rows } = await bench.server.admin.query('select to_jsonb(u)::text as row from unclaimed_decision u where uncollected_id = $1', [id]);
  expect([rows.length, rows[0].row.includes('Zwetschkenweg')]).toEqual([1, false]);
});
