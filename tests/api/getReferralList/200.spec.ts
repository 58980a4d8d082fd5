import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import { startTestServer, takeInTestHousehold, type TestServer } from '#testing';
import { benchIncident, type BenchIncident, refer, referralList, STUDIO } from '../support/referrals.js';

let server: TestServer;
let world: BenchIncident;
beforeAll(async () => {
  server = await startTestServer();
  world = await benchIncident(server, 3, { bench: { piecesAtOnce: 3, hoursPerPiece: 5 } });
});
afterAll(() => server.close());

const report = (itemId: string, step: string) => world.network.post(`/v1/items/${itemId}/step-results`, { step, outcome: 'done', personId: world.incident.person('P1') }).expect(201);
const listed = async (itemId: string, language = 'en') => (await referralList(world.network, world.incident, '', language)).items.find((one) => one.itemId === itemId);

describe('what the plan sends to specialists', () => {
  test('is listed in the order in which it should be with them, with tag, specialist, times, steps ahead and cautions', async () => {
    const { items, revision, standing } = await referralList(world.network, world.incident);
    expect(revision).toMatchObject({ number: 1 });
    expect(items.map(({ itemId }) => itemId).sort()).toEqual([...world.tapes].sort());
    expect(items.map(({ withThemAt }) => withThemAt)).toEqual(items.map(({ withThemAt }) => withThemAt).sort());
    for (const one of items) {
      expect(one).toMatchObject({ specialist: { id: world.incident.specialist('SP1'), code: 'SP1', name: STUDIO }, stepsAhead: ['stabilise', 'pack'], missing: [] });
      expect(Date.parse(one.benchUntil) - Date.parse(one.withThemAt)).toBe(5 * 3_600_000);
      expect(one.care!.cautions.length).toBeGreaterThan(0);
      expect(one.inWords).toBe(`${one.tag} (Tape with a voice on it) should be with ${STUDIO} at ${one.withThemAt.slice(0, 16).replace('T', ' ')} UTC.`);
    }
    expect(standing).toMatch(/^Advice to the coordinator: the plan sends nothing\./);
  });

  test('in Spanish, too', async () => {
    const { items, standing } = await referralList(world.network, world.incident, '', 'es');
    expect(items[0]!.inWords).toContain(`debería estar con ${STUDIO}`);
    expect(standing).toMatch(/el plan no envía nada/);
  });

  test('can be limited to a specialist and to a number', async () => {
    expect((await referralList(world.network, world.incident, `?specialistId=${world.incident.specialist('SP1')}&limit=2`)).items).toHaveLength(2);
    expect((await referralList(world.network, world.incident, '?specialistId=0198b7a0-0000-7000-8000-00000000dead')).items).toEqual([]);
  });

  test('a step that is done stands no longer before it', async () => {
    const [tape] = world.tapes as [string];
    await report(tape, 'stabilise');
    expect(await listed(tape)).toMatchObject({ stepsAhead: ['pack'] });
  });

  test('what has gone, or is missing, is not listed', async () => {
    const [, second, third] = world.tapes as [string, string, string];
    await refer(world, second).expect(201);
    expect(await listed(second)).toBeUndefined();
    expect(await listed(third)).toBeDefined();
    await world.network.post(`/v1/items/${third}/missing-reports`, { lookedAt: '2026-05-09T06:50:00Z' }).expect(201);
    expect(await listed(third)).toBeUndefined();
  });

  test('what goes another way by the choice of a lead is not listed', async () => {
    const { network, incident, tapes } = await benchIncident(server, 1, { thing: { materialClass: 'parchment', wettedAt: '2026-05-09T06:30:00Z' } });
    expect((await referralList(network, incident)).items.map(({ itemId }) => itemId)).toEqual(tapes);
    await network.post(`/v1/items/${tapes[0]}/disposition-overrides`, { disposition: 'hold-frozen', reason: 'Nobody drives before noon.', personId: incident.person('P1') }).expect(201);
    expect((await referralList(network, incident)).items).toEqual([]);
  });
});

describe('what is still missing', () => {
  test("the owner's word, when it was taken back after the plan was made; a refusal is told apart", async () => {
    const { network, incident, tapes } = await benchIncident(server, 1);
    const household = (await network.get(`/v1/items/${tapes[0]}`).expect(200)).body.householdId as string;
    expect((await referralList(network, incident)).items).toMatchObject([{ missing: [] }]);
    await network.post(`/v1/households/${household}/consents`, { scope: 'refer', given: false, manner: 'spoken' }).expect(201);
    expect((await referralList(network, incident)).items).toMatchObject([{ missing: [{ code: 'consent-refused', text: 'The owner has refused a referral: it stays here.' }] }]);
    expect((await referralList(network, incident, '', 'es')).items[0]!.missing[0]!.text).toBe('El dueño rechazó el envío a un especialista: se queda aquí.');
  });

  test('nothing that an owner has not agreed to is planned to leave', async () => {
    const { network, incident } = await benchIncident(server, 1, { consents: [{ scope: 'treat', given: true, manner: 'spoken' }] });
    expect((await referralList(network, incident)).items).toEqual([]);
  });

  test('before the first plan the list is empty and names no plan', async () => {
    const network = await server.network();
    const incident = await network.incident();
    await takeInTestHousehold(network, incident);
    expect(await referralList(network, incident)).toMatchObject({ revision: null, items: [] });
  });
});
