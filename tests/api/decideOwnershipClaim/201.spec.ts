import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import { verifyNetwork, type Fault } from '../../../apps/ops/src/verify/verify-network.js';
import { foundInDatabase } from '../eraseHousehold/raw-dump.js';
import { ClaimDesks } from '../support/found-items.js';
import { OWNER_SAYS_YES, Workbench } from '../support/workbench.js';

let bench: Workbench;
let desks: ClaimDesks;
beforeAll(async () => {
  bench = await Workbench.open();
  desks = await ClaimDesks.open(bench);
});
afterAll(() => bench.close());
const household = (consents?: object[]) => bench.household(consents);
const chainOf = async (itemId: string) => (await bench.network.get(`/v1/items/${itemId}/custody-events`).expect(200)).body.items as { kind: string; refs: Record<string, string>; corrects: { seq: number; reason: string } | null }[];
const claimsOf = async (itemId: string) => (await bench.network.get(`/v1/items/${itemId}/found-record`).expect(200)).body.claims as { id: string; state: string; reason: string | null; toTell: string }[];
/** An answer without its ids: any four digits may stand in those by chance. */
const wordsOf = (text: string) => text.replaceAll(/[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}/g, '');
async function faults(): Promise<Fault[]> {
  const found: Fault[] = [];
  await verifyNetwork({ unitOfWork: bench.server.unitOfWork, networkId: bench.network.networkId, onFault: (fault) => found.push(fault) });
  return found;
}

test('one found quilt, claimed by two households: two people give it to one, the other ends, and it is handed back like any other', async () => {
  const { itemId } = await desks.found();
  const [owner, rival] = [await household(OWNER_SAYS_YES), await household()];
  const claim = await desks.claim(itemId, owner.id);
  const other = await desks.claim(itemId, rival.id, ['A ribbon', 'Nothing']);
  await desks.seen(claim.id);
  const half = await desks.decide(desks.lead, claim.id, 'P1').expect(201);
  expect(half.body).toMatchObject({ state: 'open', acceptances: 1 });
  await bench.handBack(owner, [itemId]).expect(422);
  const before = await bench.read(itemId);
  const whole = await desks.decide(desks.second, claim.id, 'P2').expect(201);
  expect(whole.body).toMatchObject({ state: 'granted', acceptances: 2, householdId: owner.id });
  expect(await claimsOf(itemId)).toEqual([expect.objectContaining({ id: claim.id, state: 'granted' }), expect.objectContaining({ id: other.id, state: 'declined', reason: 'another-claim-accepted', toTell: expect.stringContaining('Another claim') })]);
  const after = await bench.read(itemId);
  expect([after['householdId'], after.keeper, after.stage, after['custodySeq']]).toEqual([owner.id, before.keeper, before.stage, (before['custodySeq'] as number) + 1]);
  expect((await chainOf(itemId)).at(-1)).toMatchObject({ kind: 'correction', corrects: { seq: 1, reason: 'owner-found' }, refs: { householdId: owner.id, householdWas: before['householdId'], claimId: claim.id } });
  expect(await faults()).toEqual([]);
  const audit = (await bench.network.get('/v1/audit-entries?limit=200').expect(200)).body.items as { operation: string; subjectId: string }[];
  expect(audit.filter(({ operation, subjectId }) => operation === 'decideOwnershipClaim' && subjectId === claim.id)).toHaveLength(2);
  expect((await bench.network.get(`/v1/items/${itemId}/found-notice`).expect(409)).body.code).toBe('owner_known');
  await bench.handBack(rival, [itemId]).expect(422);
  await bench.handBack(owner, [itemId]).expect(201);
  expect((await bench.read(itemId)).stage).toBe('handed-back');
});

test('what was taken out of a found lot goes with it, and the word of the new owner counts for all of it', async () => {
  const { itemId } = await desks.found({ count: 240, materialClass: 'photo-colour-print', sizeClass: 'print-10x15' });
  const [tag] = (await bench.network.post(`/v1/incidents/${bench.incident.id}/tag-blocks`, { kind: 'item', count: 1, reservedFor: 'x' }).expect(201)).body.tags;
  const split = await bench.network.post(`/v1/incidents/${bench.incident.id}/items/${itemId}/splits`, { count: 80, tag, personId: desks.person('P1') }, { 'if-match': `"${(await bench.read(itemId)).version}"` }).expect(201);
  const part = (split.body.part ?? split.body).id as string;
  const owner = await household([{ scope: 'freeze', given: false, manner: 'spoken' }]);
  await desks.grant((await desks.claim(itemId, owner.id)).id);
  expect([(await bench.read(itemId))['householdId'], (await bench.read(part))['householdId']]).toEqual([owner.id, owner.id]);
  await bench.network.post(`/v1/items/${part}/custody-events`, { kind: 'frozen', from: bench.holding('dirty'), to: bench.freezer(), personId: desks.person('P2') }).expect(409);
  expect(await faults()).toEqual([]);
});

test('what was sealed before is held about the household, its claim with it, the finder and the claims of others not; and an erasure leaves none of it', async () => {
  const { itemId } = await desks.found();
  await bench.network.post(`/v1/items/${itemId}/custody-events`, { kind: 'moved', from: bench.holding('dirty'), to: bench.holding('clean'), personId: desks.person('P2'), reason: 'Zwetschkenkern in the seam' }).expect(201);
  const etag = `"${(await bench.read(itemId)).version}"`;
  await bench.network.patch(`/v1/items/${itemId}`, { familyWords: 'Somebody said Grießnockerl' }, { 'if-match': etag }).expect(200);
  const unknown = (await bench.read(itemId))['householdId'] as string;
  const file = (await bench.network.post(`/v1/households/${unknown}/words`, { itemId, text: 'Schlagoberswolke on the lining', language: 'en', sensitive: false }).expect(201)).body.id as string;
  expect((await bench.network.post(`/v1/files/${file}/links`, { purpose: 'publication' }).expect(409)).body.code).toBe('owner_unknown');
  const [owner, rival] = [await household(), await household()];
  const lost = await desks.claim(itemId, rival.id, ['Kipferlmond']);
  await desks.grant((await desks.claim(itemId, owner.id, ['Bells of Topfenstrudel', 'Ottilie'])).id);
  const { text, body } = await bench.network.get(`/v1/households/${owner.id}/personal-data`).expect(200);
  for (const word of ['Zwetschkenkern', 'Grießnockerl', 'Topfenstrudel', 'Two brass bells', 'Karmesin']) expect([word, text.includes(word)]).toEqual([word, true]);
  // The number with its beginning: half of it stands in some id or time by chance.
  expect(text).not.toMatch(/Kipferlmond|Xanthippe|0699-?271828/);
  expect(text).not.toContain(rival.id);
  expect(body.held.ownership_claim).toHaveLength(1);
  expect(body.held.file).toEqual([expect.objectContaining({ id: file, household_id: owner.id })]);
  const link = await bench.network.post(`/v1/files/${file}/links`, { purpose: 'work' }).expect(201);
  const shown = await fetch(new URL(link.body.url ?? link.body.path, bench.server.url));
  expect(await shown.text()).toBe('Schlagoberswolke on the lining');
  const theirs = await bench.network.get(`/v1/households/${rival.id}/personal-data`).expect(200);
  expect([theirs.text.includes('Kipferlmond'), theirs.text.includes('brass bells'), theirs.text.includes('Topfenstrudel')]).toEqual([true, false, false]);
  await bench.handBack(owner, [itemId]).expect(201);
  for (const id of [owner.id, rival.id]) await bench.network.post(`/v1/households/${id}/erasures`, { personId: desks.person('P1'), reason: 'owner-asked' }).expect(201);
  expect((await bench.network.get(`/v1/households/${rival.id}/personal-data`).expect(200)).text).not.toContain('Kipferlmond');
  const { rows } = await bench.server.admin.query('select (select answers from ownership_claim where id = $1) as answers, (select place from found_item where item_id = $2) as place, (select count(*)::int from owner_mark where item_id = $2 and (question is not null or answer is not null)) as marks, (select count(*)::int from household_word where household_id = any($3)) as words', [lost.id, itemId, [owner.id, rival.id]]);
  expect(rows[0]).toEqual({ answers: null, place: null, marks: 0, words: 0 });
  expect(await foundInDatabase(bench.server.admin, ['Zwetschkenkern', 'Grießnockerl', 'Kipferlmond', 'Topfenstrudel'])).toEqual([]);
  expect(await faults()).toEqual([]);
});

test('a claim that is declined says the same to everybody, whatever was wrong, and nothing of what was right; the thing stays', async () => {
  const { itemId } = await desks.found();
  const owner = await household();
  const told = new Set<string>();
  for (const [answers, reason] of [[['Two brass bells', 'A name'], 'not-enough-agreed'], [['Glass', 'For Ottilie, 1961'], 'not-enough-agreed'], [['Nothing'], 'cannot-be-told']] as const) {
    const claim = await desks.claim(itemId, owner.id, [...answers]);
    await desks.seen(claim.id);
    const { body, text } = await desks.decide(desks.lead, claim.id, 'P1', { accepts: false, reason }).expect(201);
    expect([body.state, body.reason]).toEqual(['declined', reason]);
    expect(wordsOf(text)).not.toMatch(/brass|bells|Ottilie|1961|hem|back/i);
    told.add(body.toTell as string);
  }
  expect(told.size).toBe(1);
  expect((await chainOf(itemId)).map(({ kind }) => kind)).toEqual(['taken-in']);
});

describe('decisions at the same moment have exactly one outcome', () => {
  const owned = async (itemId: string) => (await bench.read(itemId))['householdId'] as string;

  test('the second yes and a no: granted or declined, never both, and the thing is where that says', async () => {
    for (let round = 0; round < 4; round += 1) {
      const { itemId } = await desks.found();
      const owner = await household();
      const unknown = await owned(itemId);
      const third = bench.network.as(await bench.network.newKey());
      const claim = await desks.claim(itemId, owner.id);
      await desks.seen(claim.id);
      await desks.look(third, claim.id, 'P4').expect(200);
      await desks.decide(desks.lead, claim.id, 'P1').expect(201);
      const answers = await Promise.all([desks.decide(desks.second, claim.id, 'P2'), desks.decide(third, claim.id, 'P4', { accepts: false, reason: 'cannot-be-told' })]);
      expect(answers.map(({ status }) => status).sort()).toEqual([201, 409]);
      expect(answers.find(({ status }) => status === 409)?.body.code).toBe('claim_closed');
      const [{ state } = { state: '' }] = await claimsOf(itemId);
      expect(await owned(itemId)).toBe(state === 'granted' ? owner.id : unknown);
    }
  });

  test('the second yes for two rivals: one household gets it, the other claim ends, and the chain has one correction', async () => {
    for (let round = 0; round < 4; round += 1) {
      const { itemId } = await desks.found();
      const [one, other] = [await household(), await household()];
      const claims = [await desks.claim(itemId, one.id), await desks.claim(itemId, other.id)];
      for (const { id } of claims) {
        await desks.seen(id);
        await desks.decide(desks.lead, id, 'P1').expect(201);
      }
      const answers = await Promise.all(claims.map(({ id }) => desks.decide(desks.second, id, 'P2')));
      expect(answers.map(({ status }) => status).sort()).toEqual([201, 409]);
      const states = await claimsOf(itemId);
      expect(states.map(({ state }) => state).sort()).toEqual(['declined', 'granted']);
      const granted = claims.find(({ id }) => id === states.find(({ state }) => state === 'granted')?.id);
      expect(await owned(itemId)).toBe(granted?.householdId);
      expect((await chainOf(itemId)).map(({ kind }) => kind)).toEqual(['taken-in', 'correction']);
    }
    expect(await faults()).toEqual([]);
  });

  test('the same yes sent twice by one person counts once', async () => {
    const claim = await desks.claim((await desks.found()).itemId, (await household()).id);
    await desks.seen(claim.id);
    const answers = await Promise.all([desks.decide(desks.lead, claim.id, 'P1'), desks.decide(desks.lead, claim.id, 'P1')]);
    expect(answers.map(({ status }) => status).sort()).toEqual([201, 409]);
    expect(answers.find(({ status }) => status === 409)?.body).toMatchObject({ code: 'claim_person', reason: 'decided-before' });
  });

  test('an erasure and a decision: the claim is granted and the erasure refused, or the household is erased and gets nothing', async () => {
    for (let round = 0; round < 3; round += 1) {
      const { itemId } = await desks.found();
      const owner = await household();
      const claim = await desks.claim(itemId, owner.id);
      await desks.seen(claim.id);
      await desks.decide(desks.lead, claim.id, 'P1').expect(201);
      const [decision, erasure] = await Promise.all([desks.decide(desks.second, claim.id, 'P2'), bench.network.post(`/v1/households/${owner.id}/erasures`, { personId: desks.person('P1'), reason: 'owner-asked' })]);
      expect([[201, 409], [409, 201]]).toContainEqual([decision.status, erasure.status]);
      const [ended] = await claimsOf(itemId);
      expect([ended?.state, (await owned(itemId)) === owner.id]).toEqual(decision.status === 201 ? ['granted', true] : ['withdrawn', false]);
    }
  });
});

describe('is refused, and decides nothing', () => {
  const opened = async () => desks.claim((await desks.found()).itemId, (await household()).id);
  test.each<[string, number, string, () => Promise<{ status: number; body: { code: string; reason?: string } }>]>([
    ['the same person with another key', 409, 'claim_person decided-before', async () => {
      const { id } = await opened();
      await desks.seen(id);
      await desks.decide(desks.lead, id, 'P1').expect(201);
      return desks.decide(desks.second, id, 'P1');
    }],
    ['another name with the same key', 409, 'claim_person key-decided-before', async () => {
      const { id } = await opened();
      await desks.seen(id);
      await desks.decide(desks.lead, id, 'P1').expect(201);
      return desks.decide(desks.lead, id, 'P2');
    }],
    ['who took the answers', 409, 'claim_person took-the-answers', async () => desks.decide(desks.lead, (await opened()).id, 'P3')],
    ['the key with which they were taken', 409, 'claim_person took-the-answers', async () => desks.decide(desks.desk, (await opened()).id, 'P1')],
    ['who has not looked', 409, 'claim_person has-not-looked', async () => desks.decide(desks.lead, (await opened()).id, 'P1')],
    ['two of whom none is a lead', 422, 'command_refused', async () => {
      const { id } = await opened();
      for (const [client, code] of [[desks.lead, 'P2'], [desks.second, 'P4']] as const) await desks.look(client, id, code).expect(200);
      await desks.decide(desks.lead, id, 'P2').expect(201);
      return desks.decide(desks.second, id, 'P4');
    }],
    ['after it is decided', 409, 'claim_closed', async () => {
      const { id } = await opened();
      await desks.grant(id);
      return desks.decide(bench.network, id, 'P4');
    }],
    ['after it was taken back', 409, 'claim_closed', async () => {
      const { id } = await opened();
      await desks.seen(id);
      await bench.network.post(`/v1/ownership-claims/${id}/withdrawal`, {}).expect(200);
      return desks.decide(desks.lead, id, 'P1');
    }],
    ['a no without its reason', 400, 'validation_failed', async () => desks.decide(desks.lead, (await opened()).id, 'P1', { accepts: false })],
    ['a claim of another network', 404, 'not_found', async () => desks.decide(await bench.server.network(), (await opened()).id, 'P1')],
  ])('%s: %i %s', async (_, status, code, ask) => {
    const answer = await ask();
    expect([answer.status, [answer.body.code, answer.body.reason].filter((part) => part !== undefined).join(' ')]).toEqual([status, code]);
  });

  test('and a record that is claimed is not joined to another one', async () => {
    const [one, other] = [await desks.found(), await desks.found()];
    await desks.claim(one.itemId, (await household()).id);
    const joined = await bench.network.post(`/v1/items/${one.itemId}/merges`, { into: other.itemId, reason: 'taken-in-twice', personId: desks.person('P1') });
    expect([joined.status, joined.body.reason]).toEqual([422, 'claimed']);
  });
});
