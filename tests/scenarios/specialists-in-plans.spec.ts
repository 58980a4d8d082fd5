import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import { startTestServer, type TestServer } from '#testing';
import { benchIncident, type BenchIncident, refer, referralList, STUDIO } from '../api/support/referrals.js';
import { ask, reckon } from '../api/support/what-ifs.js';
import { type Assignment, assignmentsOf, planNow } from '../unit/plan-problem/support/runs.js';

type Planned = Assignment & { serviceId: string | null; serviceName: string | null };

let server: TestServer;
let world: BenchIncident;
/** Of two tapes for one place on the bench: the one that the plan sends, and the one that it cannot. */
let sent: string;
let kept: string;

beforeAll(async () => {
  server = await startTestServer();
  world = await benchIncident(server, 2);
  sent = (await referrals())[0]!.itemId;
  kept = world.tapes.find((id) => id !== sent)!;
});
afterAll(() => server.close());

const referrals = async () => ((await assignmentsOf(world.network, world.incident)) as Planned[]).filter(({ step }) => step === 'refer');
const get = async (path: string, language = 'en') => (await world.network.get(path, { 'accept-language': language }).expect(200)).body;

describe('a specialist with room for one thing', () => {
  test('gets one of two tapes before its deadline, with their name in the plan, and the plan is told apart from a sending', async () => {
    const [only, ...more] = await referrals();
    expect(more).toEqual([]);
    expect(only).toMatchObject({ disposition: 'refer', stationId: null, personIds: [], serviceId: world.incident.specialist('SP1'), serviceName: STUDIO });
    expect(Date.parse(only!.startsAt)).toBeLessThan(Date.parse('2026-05-09T17:00:00Z'));
    expect(Date.parse(only!.endsAt) - Date.parse(only!.startsAt)).toBe(12 * 3_600_000);
    expect(await get(`/v1/items/${sent}`)).toMatchObject({ stage: 'waiting' });
  });

  test('stands in the way of the other, by name and in both languages', async () => {
    const unplanned = async (language: string) => (await get(`/v1/incidents/${world.incident.id}/plan/unplanned`, language)).items;
    expect(await unplanned('en')).toMatchObject([{ itemId: kept, blockedBy: { kind: 'service', text: `no free courier or specialist, soonest ${STUDIO}` } }]);
    expect(await unplanned('es')).toMatchObject([{ itemId: kept, blockedBy: { text: expect.stringContaining(STUDIO) } }]);
    expect((await get(`/v1/incidents/${world.incident.id}/plan`)).blocked).toMatchObject([{ kind: 'service', what: STUDIO, items: 1 }]);
    expect((await get(`/v1/items/${kept}/plan-explanation`)).inWords.join(' ')).toContain(`The way “to refer it to a specialist” was passed over: no free courier or specialist, soonest ${STUDIO}.`);
  });

  test('is named where the plan of an item is explained', async () => {
    const explained = await get(`/v1/items/${sent}/plan-explanation`);
    const [referral] = await referrals();
    expect(explained.steps.at(-1)).toMatchObject({ step: 'refer', places: [{ kind: 'specialist', id: world.incident.specialist('SP1'), code: STUDIO }] });
    expect(explained.inWords.join(' ')).toContain(`It is to be with ${STUDIO} from ${referral!.startsAt.slice(0, 16).replace('T', ' ')} UTC, if they agree.`);
    expect(explained.stabilisedAt).toBe(referral!.startsAt);
    expect((await get(`/v1/items/${sent}/plan-explanation`, 'es')).inWords.join(' ')).toContain(`Estará con ${STUDIO} desde`);
  });

  test('is no station: no work list holds a referral', async () => {
    for (const code of ['PACK', 'TEST', 'WRAP', 'BENCH']) {
      const { next, now } = await get(`/v1/stations/${world.incident.station(code)}/work-list?limit=100`);
      expect([...next, ...now].filter(({ step }: { step: string }) => step === 'refer')).toEqual([]);
    }
  });

  test('what is asked for where the plan is short is one more thing at once with them, which saves the other tape', async () => {
    const id = await ask(world.network, world.incident, {});
    expect(await reckon(server, world.network, id)).toBe('done');
    const values = (await get(`/v1/plan-what-ifs/${id}`)).result.values as { changes: object[]; inWords: string; savedItems: number; saved: { itemId: string }[]; cautions: string[] }[];
    const more = values.find(({ inWords }) => inWords === `1 thing more at once with ${STUDIO}`);
    expect(more).toMatchObject({ changes: [{ kind: 'specialist-units', specialistId: world.incident.specialist('SP1'), units: 1 }], savedItems: 1 });
    expect(more!.cautions.join(' ')).toMatch(/Ask the specialist first/);
  });
});

describe('as time goes on', () => {
  test('two at once saves both, and what is different is told with the name', async () => {
    const path = `/v1/incidents/${world.incident.id}/specialists/${world.incident.specialist('SP1')}`;
    await world.network.patch(path, { piecesAtOnce: 2 }, { 'if-match': '"1"' }).expect(200);
    await planNow(server, world.network, world.incident);
    expect(await referrals()).toHaveLength(2);
    const { revisionId } = await get(`/v1/incidents/${world.incident.id}/plan`);
    const { items } = await get(`/v1/plan-revisions/${revisionId}/changes`);
    expect(items).toMatchObject([{ kind: 'in-time', itemId: kept, dispositionNow: 'refer' }]);
  });

  test('what went out leaves the list, and holds its place on the bench in the next plan', async () => {
    expect((await referralList(world.network, world.incident)).items.map(({ itemId }) => itemId).sort()).toEqual([...world.tapes].sort());
    await refer(world, sent).expect(201);
    expect((await referralList(world.network, world.incident)).items.map(({ itemId }) => itemId)).toEqual([kept]);
    await world.network.patch(`/v1/incidents/${world.incident.id}/specialists/${world.incident.specialist('SP1')}`, { piecesAtOnce: 1 }, { 'if-match': '"2"' }).expect(200);
    await planNow(server, world.network, world.incident);
    expect(await referrals()).toEqual([]);
    expect((await get(`/v1/incidents/${world.incident.id}/plan/unplanned`)).items).toMatchObject([{ itemId: kept, blockedBy: { kind: 'service' } }]);
  });
});

describe('where nothing is said of a specialist', () => {
  test('a referral ends where the thing is ready, as before', async () => {
    const { network, incident, tapes } = await benchIncident(server, 1, { bench: {} });
    const planned = (await assignmentsOf(network, incident)) as Planned[];
    expect(planned.map(({ itemId, step, disposition, serviceId }) => [itemId, step, disposition, serviceId])).toEqual([[tapes[0], 'stabilise', 'refer', null], [tapes[0], 'pack', 'refer', null]]);
    expect((await referralList(network, incident)).items).toEqual([]);
  });
});
