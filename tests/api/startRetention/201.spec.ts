import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import { jpeg } from '../support/pictures.js';
import { Workbench } from '../support/workbench.js';
import { setNumber } from '../setCalibration/calibration.support.js';
import { foundInDatabase } from '../eraseHousehold/raw-dump.js';
import { dying, preview, start, workRun } from './retention.support.js';

/** An invented name that is nobody's. */
const NAME = 'Quirbelzast';
const DAY_MS = 24 * 3_600_000;
const T0_MS = Date.parse('2026-05-09T07:00:00Z');

let bench: Workbench;
const homes: Record<string, { id: string; code: string }> = {};
const post = (path: string, body: object) => bench.network.post(path, body);
const lead = () => bench.incident.person('P1');
const atDay = (day: number) => bench.server.clock.set(T0_MS + day * DAY_MS);

/** A household with a thing and something of almost every kind; its thing goes home unless it is to stay. */
async function home(name: string, stays = false): Promise<{ id: string; code: string }> {
  const contact = { name: `${name} ${NAME}`, phone: '0699-271828', email: `${name}@families.example`, address: `${NAME} Lane` };
  const { body: household } = await post(`/v1/incidents/${bench.incident.id}/households`, { code: `RET-${name}`, contact, consents: [{ scope: 'treat', given: true, manner: 'spoken', note: `Said ${name} ${NAME} at the door` }] }).expect(201);
  const item = await bench.takeIn(household, { familyWords: `Sewn by aunt ${name} ${NAME}` });
  await bench.network.post(`/v1/households/${household.id}/files?itemId=${item.id}`, await jpeg(64, 48), { 'content-type': 'image/jpeg' }).expect(201);
  await post(`/v1/households/${household.id}/status-links`, { forWhom: `The daughter ${name} ${NAME}` }).expect(201);
  if (!stays) await bench.handBack(household, [item.id], { signatureRef: `signed by ${name} ${NAME}` }).expect(201);
  homes[name] = { id: household.id, code: household.code };
  return household;
}

beforeAll(async () => {
  bench = await Workbench.open();
  atDay(0);
  for (const name of ['gone', 'lawsuit', 'second']) await home(name);
  await home('here', true);
  await post(`/v1/households/${homes['lawsuit']?.id}/legal-holds`, { personId: lead(), reason: `A claim of ${NAME}` }).expect(201);
  // A matter that nobody has settled.
  const asking = await bench.household();
  homes['asked'] = asking;
  const wanted = await bench.takeIn(asking);
  const question = await post(`/v1/items/${wanted.id}/questions`, { kind: 'photograph' }).expect(201);
  await post(`/v1/owner-questions/${question.body.id}/answers`, { answer: 'call-me', manner: 'spoken' }).expect(201);
  await bench.handBack(asking, [wanted.id]).expect(201);
});
afterAll(() => bench.close());

const of = async (name: string) => (await preview(bench)).items.find(({ householdId }) => householdId === homes[name]?.id);
const kinds = (list: { kind: string }[] = []) => list.map(({ kind }) => kind).sort();

describe('letting go what has had its time', () => {
  test('takes nothing while the incident is open, and says of each household why', async () => {
    const shown = await preview(bench, 2);
    expect(shown.totals).toMatchObject({ households: 5, touched: 0, erased: 0, going: {} });
    expect(shown.items).toHaveLength(5);
    expect((await of('gone'))?.stays.every(({ reasons }) => reasons.includes('incident-open'))).toBe(true);
    expect((await of('lawsuit'))?.stays[0]?.reasons).toContain('legal-hold');
    expect((await of('here'))?.stays[0]?.reasons).toContain('things-held');
    expect((await of('asked'))?.stays[0]?.reasons).toContain('matter-open');
    expect(shown.policy).toMatchObject({ countsFrom: 'closing', days: { voices: 90, records: 730 } });
    expect(shown.notice).toMatch(/no advice about the law/);
  });

  test('is refused to who is no lead, and by other numbers than those that the dry run was read with', async () => {
    const { policyRevision } = await preview(bench);
    const path = `/v1/incidents/${bench.incident.id}/retention-runs`;
    expect((await post(path, { personId: bench.incident.person('P3'), policyRevision }).expect(422)).body.code).toBe('command_refused');
    expect((await setNumber(bench, 'retention/countFromClosing', 0)).status).toBe(200);
    const stale = await post(path, { personId: lead(), policyRevision }).expect(422);
    expect(stale.body.errors[0]).toMatchObject({ code: 'policy_changed', pointer: '#/policyRevision' });
    expect((await bench.network.get(path).expect(200)).body.items).toEqual([]);
  });

  test.each([[0], [100], [200], [400]])('on day %i takes exactly what the dry run of that moment says, kind by kind, and again nothing', async (day) => {
    atDay(day);
    const before = await preview(bench);
    const id = await start(bench, before.policyRevision);
    expect(await workRun(bench, id)).toBe('done');
    const { body: run } = await bench.network.get(`/v1/retention-runs/${id}`).expect(200);
    expect(run).toMatchObject({ state: 'done', gone: before.totals.going, touched: before.totals.touched, erased: before.totals.erased, lookedAt: before.totals.households, personId: lead(), policyRevision: before.policyRevision });
    const after = await preview(bench);
    expect(after.totals.going).toEqual({});
    expect(after.items.map(({ householdId, stays }) => [householdId, stays])).toEqual(before.items.map(({ householdId, stays }) => [householdId, stays]));
    expect(JSON.stringify(run)).not.toContain(NAME);
    expect(await workRun(bench, id)).toBe('overtaken');
    expect((await bench.network.get(`/v1/retention-runs/${id}`).expect(200)).body).toEqual(run);
  });

  test('has taken by then the photographs, messages, contact, words and signature of whoever has everything back, and nothing of the others', async () => {
    expect(kinds((await of('gone'))?.stays)).toEqual(['records']);
    expect((await bench.network.get(`/v1/households/${homes['gone']?.id}`).expect(200)).body.contact).toBeNull();
    expect(await foundInDatabase(bench.server.admin, [`gone ${NAME}`])).toEqual([]);
    for (const name of ['lawsuit', 'here']) {
      expect(kinds((await of(name))?.stays)).toEqual(expect.arrayContaining(['contacts', 'messages', 'photographs', 'records', 'words']));
      expect((await bench.network.get(`/v1/households/${homes[name]?.id}`).expect(200)).body.contact.name).toContain(NAME);
    }
    const files = await bench.server.admin.query<{ household_id: string }>("select household_id from file where state <> 'deleted'");
    expect(files.rows.map((row) => row.household_id).sort()).toEqual([homes['lawsuit']?.id, homes['here']?.id].sort());
  });

  test('killed at every step it ends as if it had not been, counting each household once; what the law holds stays', async () => {
    atDay(800);
    const before = await preview(bench);
    expect(before.totals.erased).toBe(2);
    const id = await start(bench, before.policyRevision);
    for (const [at, when] of [[1, 'before'], [1, 'after'], [1, 'before'], [2, 'after']] as const) await expect(workRun(bench, id, dying(bench.server.unitOfWork, at, when))).rejects.toThrow('killed');
    await workRun(bench, id);
    const { body: run } = await bench.network.get(`/v1/retention-runs/${id}`).expect(200);
    expect(run).toMatchObject({ state: 'done', gone: before.totals.going, touched: before.totals.touched, erased: 2, lookedAt: 5 });
    expect((await bench.network.get(`/v1/households/${homes['gone']?.id}`).expect(200)).body.code).toBe(`erased-${homes['gone']?.id}`);
    const { rows } = await bench.server.admin.query<{ household_id: string; reason: string }>('select household_id, reason from household_erasure order by household_id');
    expect(rows).toEqual([homes['gone']?.id, homes['second']?.id].sort().map((household_id) => ({ household_id, reason: 'retention-ended' })));
  });

  test('a hold placed after the run was started still holds; lifted and gone home, nothing of the name is left in any row', async () => {
    const hold = (await bench.server.admin.query<{ id: string }>('select id from household_hold where lifted_at is null')).rows[0]?.id ?? '';
    await post(`/v1/legal-holds/${hold}/endings`, { personId: lead() }).expect(201);
    const id = await start(bench, (await preview(bench)).policyRevision);
    const again = await post(`/v1/households/${homes['lawsuit']?.id}/legal-holds`, { personId: lead(), reason: 'Announced just now.' }).expect(201);
    await workRun(bench, id);
    expect((await bench.network.get(`/v1/retention-runs/${id}`).expect(200)).body).toMatchObject({ state: 'done', erased: 0, gone: {} });
    await post(`/v1/legal-holds/${again.body.id}/endings`, { personId: lead() }).expect(201);
    const thing = (await bench.network.get(`/v1/incidents/${bench.incident.id}/items?householdId=${homes['here']?.id}`).expect(200)).body.items[0].id as string;
    await bench.handBack(homes['here'] ?? { id: '', code: '' }, [thing]).expect(201);
    atDay(1_600);
    await workRun(bench, await start(bench, (await preview(bench)).policyRevision));
    expect(await foundInDatabase(bench.server.admin, [NAME, '0699-271828'])).toEqual([]);
    const runs = (await bench.network.get(`/v1/incidents/${bench.incident.id}/retention-runs?limit=2`).expect(200)).body;
    expect(runs.items).toHaveLength(2);
    expect(runs.nextCursor).not.toBeNull();
  });

  test('of what belongs to nobody it takes notes and refused rows once the incident is closed, and not before', async () => {
    const [tag = ''] = (await post(`/v1/incidents/${bench.incident.id}/tag-blocks`, { kind: 'container', count: 1, reservedFor: 'boxes' }).expect(201)).body.tags as string[];
    const box = await post(`/v1/incidents/${bench.incident.id}/containers`, { siteId: bench.incident.site(), tag, kind: 'box', description: 'Lent by the choir' }).expect(201);
    expect((await preview(bench)).ofIncident.stays).toEqual([{ kind: 'staff-notes', count: 1, reasons: ['incident-open', 'not-yet-due'], dueAt: null }]);
    const read = await bench.network.get(`/v1/incidents/${bench.incident.id}`).expect(200);
    const held = (await bench.network.get(`/v1/incidents/${bench.incident.id}/items?limit=200`).expect(200)).body.items.filter(({ stage }: { stage: string }) => stage === 'waiting');
    expect(held).toEqual([]);
    await bench.network.patch(`/v1/incidents/${bench.incident.id}`, { state: 'closed' }, { 'if-match': read.headers['etag'] ?? '', 'content-type': 'application/merge-patch+json' }).expect(200);
    expect((await preview(bench)).ofIncident.stays[0]?.reasons).toEqual(['not-yet-due']);
    atDay(1_600 + 366);
    const before = await preview(bench);
    expect(before.ofIncident.goes).toEqual([{ kind: 'staff-notes', count: 1 }]);
    await workRun(bench, await start(bench, before.policyRevision));
    expect((await bench.network.get(`/v1/containers/${box.body.id}`).expect(200)).body.description).toBe('(erased)');
  });
});
