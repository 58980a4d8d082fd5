import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import { startTestServer, type IncidentOnTest, type TestNetwork, type TestServer } from '#testing';
import { planNow, withBenches } from '../../unit/plan-problem/support/runs.js';
import { newestPlan, publish, testedQuilts, wishOf } from '../support/plan-wishes.js';

interface Change {
  kind: string;
  itemId: string;
  weight: number;
  text: string;
}

let server: TestServer;
let network: TestNetwork;
let incident: IncidentOnTest;
let moved: string;
let out: string;
let other: string;
let added: string;
const ids: string[] = [];

/** Four things in the first plan; in the second one is put off, one has no way left, one takes another, and one came. */
beforeAll(async () => {
  server = await startTestServer();
  network = await server.network();
  incident = await network.incident(withBenches);
  [moved, out, other] = (await testedQuilts(network, incident, 3)) as [string, string, string];
  await planNow(server, network, incident);
  ids.push((await newestPlan(network, incident)).id);
  const wish = (itemId: string, kind: string, change: object) => network.post(`/v1/incidents/${incident.id}/plan-wishes`, wishOf(incident, itemId, kind, change)).expect(201);
  await wish(moved, 'not-before', { notBefore: '2026-05-09T12:00:00Z' });
  for (const disposition of ['treat', 'hold-frozen', 'hold-wet', 'refer', 'release']) await wish(out, 'bar-way', { disposition });
  await wish(other, 'bar-way', { disposition: 'treat' });
  [added] = (await testedQuilts(network, incident, 1, { significance: 'irreplaceable' })) as [string];
  await planNow(server, network, incident);
  ids.push((await newestPlan(network, incident)).id);
});
afterAll(() => server.close());

const changes = async (id: string, query = '', language = 'en') => (await network.get(`/v1/plan-revisions/${id}/changes${query}`, { 'accept-language': language }).expect(200)).body as { items: Change[]; counts: Record<string, { items: number; weight: number }>; nextCursor: string | null; since: { number: number } | null; settledItems: number };
const about = (items: Change[], id: string) => items.find(({ itemId }) => itemId === id);

describe('what a plan has otherwise than the one before', () => {
  test('is told item by item, in words', async () => {
    const { items, counts, since } = await changes(ids[1]!);
    expect(since).toMatchObject({ number: 1 });
    expect(about(items, added)).toMatchObject({ kind: 'in-time', dispositionBefore: null, dispositionNow: 'treat', step: 'rinse' });
    expect(about(items, added)!.text).toMatch(/^[A-Z0-9-]+ \(.+\) is in time now, on the way “.+”: it begins with “.+” at 2026-05-09 \d\d:\d\d UTC at RINSE\.$/);
    expect(about(items, out)).toMatchObject({ kind: 'fallen-out', blockedBy: { kind: 'wish' }, dispositionNow: null });
    expect(about(items, out)!.text).toMatch(/ is not in time any more: every way that is open to it has been ruled out by somebody\.$/);
    expect(about(items, other)).toMatchObject({ kind: 'other-way', dispositionBefore: 'treat', dispositionNow: 'hold-frozen' });
    expect(about(items, other)!.text).toMatch(/ takes the way “.+” instead of “.+”\.$/);
    expect(about(items, moved)).toMatchObject({ kind: 'moved', step: 'rinse', now: { startsAt: '2026-05-09T12:00:00.000Z', place: 'RINSE' }, before: { place: 'RINSE' } });
    expect(about(items, moved)!.text).toMatch(/: “.+” is planned at 2026-05-09 12:00 UTC at RINSE instead of at 2026-05-09 \d\d:\d\d UTC at RINSE\.$/);
    expect(counts).toMatchObject({ inTime: { items: 1 }, fallenOut: { items: 1 }, otherWay: { items: 1 }, moved: { items: 1 } });
    expect(items.map(({ weight }) => weight)).toEqual(items.map(({ weight }) => weight).sort((a, b) => b - a));
  });

  test('is told in Spanish, too', async () => {
    const { items } = await changes(ids[1]!, '', 'es');
    expect(about(items, out)!.text).toMatch(/ ya no llega a tiempo: alguien descartó todas las vías que tiene abiertas\.$/);
    expect(about(items, moved)!.text).toMatch(/ está planificado a las 2026-05-09 12:00 UTC en RINSE en lugar de a las /);
  });

  test('can be limited to a kind and read by pages, with the counts of the whole', async () => {
    const whole = await changes(ids[1]!);
    const first = await changes(ids[1]!, '?limit=3');
    const second = await changes(ids[1]!, `?limit=3&cursor=${encodeURIComponent(first.nextCursor!)}`);
    expect([...first.items, ...second.items]).toEqual(whole.items);
    const out = await changes(ids[1]!, '?kind=fallen-out');
    expect(out.items.map(({ kind }) => kind)).toEqual(['fallen-out']);
    expect([first.counts, out.counts]).toEqual([whole.counts, whole.counts]);
  });

  test('of the first plan is all that it has', async () => {
    const { items, since } = await changes(ids[0]!);
    expect(since).toBeNull();
    expect(items.map(({ kind }) => kind)).toEqual(['in-time', 'in-time', 'in-time']);
  });

  test('is nothing when nothing happened, and what was done meanwhile is settled and no loss', async () => {
    await planNow(server, network, incident);
    const same = (await newestPlan(network, incident)).id;
    expect(await changes(same)).toMatchObject({ items: [], settledItems: 0 });
    await network.post(`/v1/items/${other}/step-results`, { step: 'wrap', outcome: 'done', personId: incident.person('P1'), disposition: 'hold-frozen' }).expect(201);
    const { body } = await network.get(`/v1/items/${other}`).expect(200);
    await network.post(`/v1/items/${other}/custody-events`, { kind: 'frozen', from: body.keeper, to: { kind: 'freezer', id: incident.freezer('F1') }, personId: incident.person('P1') }).expect(201);
    await planNow(server, network, incident);
    const later = await changes((await newestPlan(network, incident)).id, `?since=${same}`);
    expect(later).toMatchObject({ settledItems: 1, counts: { fallenOut: { items: 0 } } });
  });

  test('of a proposal is held against the plan that work follows', async () => {
    const inForce = await newestPlan(network, incident);
    await publish(network, incident, 'by-hand');
    for (let i = 0; i < 2; i += 1) await planNow(server, network, incident);
    expect((await changes((await newestPlan(network, incident)).id)).since).toMatchObject({ number: inForce.number });
  });
});

describe('it is refused', () => {
  test('against a later plan, one of another incident, and one that is not kept', async () => {
    const get = (path: string) => network.get(`/v1/plan-revisions/${path}`);
    expect((await get(`${ids[0]}/changes?since=${ids[1]}`).expect(400)).body.errors[0]).toMatchObject({ parameter: 'since' });
    const elsewhere = await network.incident();
    await planNow(server, network, elsewhere);
    await get(`${ids[1]}/changes?since=${(await newestPlan(network, elsewhere)).id}`).expect(404);
    await publish(network, incident, 'automatic');
    for (let i = 0; i < 6; i += 1) await planNow(server, network, incident);
    expect((await get(`${ids[1]}/changes`).expect(404)).body.detail).toMatch(/only the figures are kept/);
    expect((await network.get(`/v1/incidents/${incident.id}/plan/assignments?revision=1`).expect(404)).body.detail).toMatch(/only the figures are kept/);
    expect((await network.get(`/v1/incidents/${incident.id}/plan/unplanned?revision=99`).expect(404)).body.detail).toBe('The incident has no plan 99.');
  });
});
