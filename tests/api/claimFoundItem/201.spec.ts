import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import { foundInDatabase } from '../eraseHousehold/raw-dump.js';
import { ClaimDesks } from '../support/found-items.js';
import { Workbench } from '../support/workbench.js';

let bench: Workbench;
let desks: ClaimDesks;
beforeAll(async () => {
  bench = await Workbench.open();
  desks = await ClaimDesks.open(bench);
});
afterAll(() => bench.close());
const household = () => bench.household();
const refusal = async (asked: Promise<{ status: number; body: { code: string } }>) => {
  const { status, body } = await asked;
  return [status, body.code];
};

test('a household claims a found thing: its answers are sealed, and told to nobody at the desk', async () => {
  const { itemId } = await desks.found();
  const answer = await desks.claiming(itemId, (await household()).id, ['Glockenspielchen', 'Grandmother Zirbel']);
  expect(answer.status).toBe(201);
  expect(answer.body).toMatchObject({ itemId, state: 'open', reason: null, acceptances: 0 });
  expect(answer.text).not.toMatch(/Glocken|Zirbel|brass|Ottilie/);
  expect(await foundInDatabase(bench.server.admin, ['Glockenspielchen', 'Zirbel', 'lay on her bed'])).toEqual([]);
});

test('several households may claim one thing, each of them once at a time, also when it is sent twice at the same moment', async () => {
  const { itemId } = await desks.found();
  const [one, other] = [await household(), await household()];
  const answers = await Promise.all([desks.claiming(itemId, one.id), desks.claiming(itemId, one.id), desks.claiming(itemId, other.id)]);
  expect(answers.map(({ status }) => status).sort()).toEqual([201, 201, 409]);
  const { body } = await bench.network.get(`/v1/items/${itemId}/found-record`).expect(200);
  expect(body.claims.map(({ householdId, state }: { householdId: string; state: string }) => [householdId, state]).sort()).toEqual([[one.id, 'open'], [other.id, 'open']].sort());
});

describe('nobody can guess', () => {
  test('of one household three claims on one thing are taken, withdrawn and declined ones counted', async () => {
    const { itemId } = await desks.found();
    const { id } = await household();
    for (let round = 0; round < 3; round += 1) {
      const claim = await desks.claim(itemId, id);
      if (round === 0) await bench.network.post(`/v1/ownership-claims/${claim.id}/withdrawal`, {}).expect(200);
      else {
        await bench.network.as(desks.lead.key).get(`/v1/ownership-claims/${claim.id}/comparison?personId=${desks.person('P1')}`).expect(200);
        await desks.decide(desks.lead, claim.id, 'P1', { accepts: false, reason: 'not-enough-agreed' }).expect(201);
      }
    }
    const refused = await desks.claiming(itemId, id);
    expect([refused.status, refused.body.code, refused.body.claims, refused.body.most]).toEqual([409, 'claim_tries_used', 3, 3]);
  });

  test('and ten on all things within a day; the next day there is room again', async () => {
    const { id } = await household();
    const things: string[] = [];
    for (let index = 0; index < 11; index += 1) things.push((await desks.found()).itemId);
    for (const itemId of things.slice(0, 10)) await desks.claim(itemId, id);
    expect(await refusal(desks.claiming(things[10] ?? '', id))).toEqual([409, 'claim_tries_used']);
    const now = bench.server.clock.nowMs();
    bench.server.clock.set(now + 24 * 3_600_000 + 1);
    expect((await desks.claiming(things[10] ?? '', id)).status).toBe(201);
    bench.server.clock.set(now);
  });

  test('nor be helped: who wrote the marks down or has seen them, or whose key has, takes no answers about the thing', async () => {
    const { itemId } = await desks.found();
    const claim = await desks.claim(itemId, (await household()).id);
    await desks.look(desks.lead, claim.id, 'P1').expect(200);
    const rival = (await household()).id;
    const by = async (client: Pick<typeof desks.desk, 'post'>, code: string) => {
      const [question] = await desks.questions(itemId);
      return client.post(`/v1/items/${itemId}/ownership-claims`, { householdId: rival, takenBy: desks.person(code), answers: [{ markId: question?.markId, answer: 'x' }] });
    };
    expect((await by(desks.desk, 'P4')).body).toMatchObject({ status: 409, code: 'claim_person', reason: 'knows-the-answers' });
    expect(await refusal(by(desks.desk, 'P1'))).toEqual([409, 'claim_person']);
    expect(await refusal(by(desks.lead, 'P2'))).toEqual([409, 'claim_person']);
    expect(await refusal(by(bench.network, 'P2'))).toEqual([409, 'claim_person']);
    expect((await by(desks.desk, 'P2')).status).toBe(201);
  });
});

describe('is refused, and leaves nothing', () => {
  const count = async () => (await bench.server.admin.query('select count(*)::int as n from ownership_claim')).rows[0].n as number;
  test.each<[string, number, string, () => Promise<{ status: number; body: { code: string } }>]>([
    ['a thing whose owner is on record', 409, 'owner_known', async () => {
      const owner = await household();
      const item = await bench.takeIn(owner);
      return desks.desk.post(`/v1/items/${item.id}/ownership-claims`, { householdId: (await household()).id, takenBy: desks.person('P3') });
    }],
    ['a household that was erased', 409, 'household_erased', async () => {
      const { id } = await household();
      await bench.network.post(`/v1/households/${id}/erasures`, { personId: desks.person('P1'), reason: 'owner-asked' }).expect(201);
      return desks.claiming((await desks.found()).itemId, id);
    }],
    ['the record of unknown owners itself', 409, 'owner_unknown', async () => {
      const { itemId } = await desks.found();
      return desks.claiming(itemId, (await bench.read(itemId))['householdId'] as string);
    }],
    ['a thing of another network', 404, 'not_found', async () => {
      const { itemId } = await desks.found();
      const stranger = await bench.server.network();
      return stranger.post(`/v1/items/${itemId}/ownership-claims`, { householdId: (await household()).id, takenBy: desks.person('P3') });
    }],
    ['a household of another incident', 422, 'reference_unknown', async () => {
      const other = await bench.network.incident();
      const far = await bench.network.post(`/v1/incidents/${other.id}/households`, { code: 'FAR-1', contact: { name: 'Far' } }).expect(201);
      return desks.claiming((await desks.found()).itemId, far.body.id);
    }],
    ['a thing of which nothing is written down that only an owner can know', 422, 'command_refused', async () => {
      const { itemId } = await desks.found({ marks: [] });
      return desks.desk.post(`/v1/items/${itemId}/ownership-claims`, { householdId: (await household()).id, takenBy: desks.person('P3') });
    }],
    ['an answer to a question about another thing', 422, 'reference_unknown', async () => {
      const [question] = await desks.questions((await desks.found()).itemId);
      const { itemId } = await desks.found();
      return desks.desk.post(`/v1/items/${itemId}/ownership-claims`, { householdId: (await household()).id, takenBy: desks.person('P3'), answers: [{ markId: question?.markId, answer: 'x' }] });
    }],
    ['a part of a found lot, which goes with its lot', 422, 'command_refused', async () => {
      const { itemId } = await desks.found({ count: 240, materialClass: 'photo-colour-print', sizeClass: 'print-10x15' });
      const [tag] = (await bench.network.post(`/v1/incidents/${bench.incident.id}/tag-blocks`, { kind: 'item', count: 1, reservedFor: 'x' }).expect(201)).body.tags;
      const { version } = await bench.read(itemId);
      const split = await bench.network.post(`/v1/incidents/${bench.incident.id}/items/${itemId}/splits`, { count: 80, tag, personId: desks.person('P1') }, { 'if-match': `"${version}"` }).expect(201);
      const part = (split.body.part ?? split.body).id as string;
      return desks.desk.post(`/v1/items/${part}/ownership-claims`, { householdId: (await household()).id, takenBy: desks.person('P3') });
    }],
  ])('%s: %i %s', async (_, status, code, ask) => {
    const before = await count();
    const answer = await ask();
    expect([answer.status, answer.body.code]).toEqual([status, code]);
    expect(await count()).toBe(before);
  });
});
