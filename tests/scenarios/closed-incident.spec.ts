import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import { networkDigest, reserveTestTags } from '#testing';
import { Workbench } from '../api/support/workbench.js';

let bench: Workbench;
let household: Awaited<ReturnType<Workbench['household']>>;
const things: Record<string, string> = {};
let tubTag = '';

/** An incident that was closed over held things, as a database from before that was refused may hold it. */
beforeAll(async () => {
  bench = await Workbench.open();
  household = await bench.household();
  for (const name of ['quilt', 'toy', 'gone', 'home']) things[name] = (await bench.testedQuilt(household)).id;
  things['away'] = (await bench.takeIn(household)).id;
  await bench.network.post(`/v1/items/${things['away']}/referrals`, { specialistId: bench.incident.specialist('SP1'), reason: 'The dye moves.' }).expect(201);
  await bench.network.post(`/v1/households/${household.id}/consents`, { scope: 'release', given: true, manner: 'written', itemId: things['toy'] }).expect(201);
  await bench.handBack(household, [things['gone'] ?? '']).expect(201);
  [tubTag = ''] = await reserveTestTags(bench.network, bench.incident, 1, 'container');
  await bench.server.admin.query("update incident set state = 'closed' where id = $1", [bench.incident.id]);
});
afterAll(() => bench.close());

const person = () => bench.incident.person('P1');
const post = (path: string, body: object) => bench.network.post(path, body);

describe('in an incident that is closed', () => {
  const work: [string, () => Promise<{ status: number; body: { code?: string; detail?: string } }>][] = [
    ['an assessment', async () => bench.assess(things['quilt'] ?? '')],
    ['a colour test', async () => bench.colourTest(things['quilt'] ?? '', 'no-transfer')],
    ['a choice of a lead', async () => post(`/v1/items/${things['quilt']}/disposition-overrides`, { disposition: 'hold-frozen', reason: 'The tables are full.', personId: person() })],
    ['a step result', async () => bench.report(things['quilt'] ?? '', 'rinse')],
    ['a passing', async () => post(`/v1/items/${things['quilt']}/custody-events`, { kind: 'moved', from: bench.holding('dirty'), to: bench.holding('clean') })],
    ['a correction of what has left', async () => post(`/v1/items/${things['gone']}/custody-events`, { kind: 'correction', from: { kind: 'household', id: household.id }, to: bench.holding('dirty'), stage: 'waiting', corrects: { seq: 2, reason: 'wrong_item' } })],
    ['a referral', async () => post(`/v1/items/${things['quilt']}/referrals`, { specialistId: bench.incident.specialist('SP1'), reason: 'The dye moves.' })],
    ['a return from a specialist', async () => post(`/v1/items/${things['away']}/referral-returns`, { to: bench.holding('clean') })],
    ['a release', async () => post(`/v1/items/${things['toy']}/releases`, { to: 'disposed', personId: person() })],
    ['a change of words', async () => bench.network.patch(`/v1/items/${things['quilt']}`, { familyWords: 'More words' }, { 'if-match': `"${(await bench.read(things['quilt'] ?? '')).version}"` })],
    ['a block of tags', async () => post(`/v1/incidents/${bench.incident.id}/tag-blocks`, { kind: 'item', count: 1, reservedFor: 'Team' })],
    ['a sensor', async () => post(`/v1/incidents/${bench.incident.id}/sensors`, { code: 'T-1', name: 'Logger', placeKind: 'freezer', placeId: bench.incident.freezer('F1') })],
    ['readings', async () => post(`/v1/incidents/${bench.incident.id}/readings`, { readings: [{ placeKind: 'freezer', place: 'F1', measuredAt: '2026-05-09T06:50:00Z', airTempC: -18 }] })],
    ['weather', async () => post(`/v1/incidents/${bench.incident.id}/sites/${bench.incident.site()}/weather`, { kind: 'observed', source: 'Office', records: [{ validAt: '2026-05-09T06:50:00Z', airTempC: 18, relativeHumidityPct: 80 }] })],
    ['a weighing', async () => post(`/v1/items/${things['quilt']}/weighings`, { scaleKg: 6, weighedAt: '2026-05-09T07:00:00Z' })],
    ['a wish about the plan', async () => post(`/v1/incidents/${bench.incident.id}/plan-wishes`, { itemId: things['quilt'], kind: 'first', reason: 'It is needed on Sunday.', personId: person() })],
    ["a station's word about the plan", async () => post(`/v1/stations/${bench.incident.station('RINSE')}/plan-wishes`, { itemId: things['quilt'], kind: 'first', reason: 'It is needed on Sunday.', personId: person() })],
    ['a what-if about the plan', async () => post(`/v1/incidents/${bench.incident.id}/plan-what-ifs`, {})],
    ['a container', async () => post(`/v1/incidents/${bench.incident.id}/containers`, { siteId: bench.incident.site(), tag: tubTag, kind: 'tub' })],
  ];

  test.each(work)('%s is refused with the reason, and nothing changes', async (_what, send) => {
    const digest = () => networkDigest(bench.server.admin, bench.network.networkId, ['idempotency_record', 'audit_entry']);
    const before = await digest();
    const answer = await send();
    expect({ status: answer.status, code: answer.body.code }).toEqual({ status: 409, code: 'incident_closed' });
    expect(answer.body.detail).toMatch(/[Oo]pen it again/);
    expect(await digest()).toEqual(before);
  });

  test('everything can still be read', async () => {
    for (const path of [`/v1/items/${things['quilt']}`, `/v1/items/${things['quilt']}/triage`, `/v1/items/${things['gone']}/custody-events`, `/v1/incidents/${bench.incident.id}/items`, `/v1/incidents/${bench.incident.id}/reconciliation`, `/v1/households/${household.id}`]) {
      await bench.network.get(path).expect(200);
    }
  });

  test("an owner's word is taken, and a family gets its things: closing is no reason to keep them", async () => {
    await post(`/v1/households/${household.id}/consents`, { scope: 'photograph', given: false, manner: 'written' }).expect(201);
    await bench.handBack(household, [things['home'] ?? '']).expect(201);
    expect(await bench.read(things['home'] ?? '')).toMatchObject({ stage: 'handed-back' });
  });
});
