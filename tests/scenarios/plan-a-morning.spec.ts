import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import { buildProblem } from '#application';
import { validatePlan, type Plan } from '#planning';
import { MORNING_MS, startTestServer, takeInTestHousehold, takeInTestItem, type IncidentOnTest, type TestNetwork, type TestServer } from '#testing';
import { type Assignment, assignmentsOf, carryOut, request, withBenches, workerContextOf } from '../unit/plan-problem/support/runs.js';

const SOUND = { fibre: 'cotton', wetState: 'wet', mould: 'none', fragility: 'sound', alreadyBled: false, onlyCopy: true, highMarketValue: false };
const SLOT_MS = 900_000;

let server: TestServer;
let network: TestNetwork;
let incident: IncidentOnTest;
const things: Record<string, string> = {};
let plan: Assignment[] = [];

const say = (scope: string, given: boolean) => ({ scope, given, manner: 'spoken' });

beforeAll(async () => {
  server = await startTestServer();
  network = await server.network();
  incident = await network.incident(withBenches);
  const willing = await takeInTestHousehold(network, incident);
  const unwilling = await takeInTestHousehold(network, incident, [say('treat', false), say('freeze', false)]);
  for (let i = 0; i < 6; i += 1) things[`quilt ${i}`] = (await takeInTestItem(network, incident, willing)).id;
  for (let i = 0; i < 4; i += 1) things[`shirt ${i}`] = (await takeInTestItem(network, incident, willing, { materialClass: 'textile-garment-3d', sizeClass: 'garment', significance: 'valued' })).id;
  things['prints'] = (await takeInTestItem(network, incident, willing, { count: 60, materialClass: 'photo-colour-print', sizeClass: 'print-10x15', significance: 'treasured' })).id;
  things['refused'] = (await takeInTestItem(network, incident, unwilling)).id;
  for (const name of ['quilt 0', 'quilt 1', 'refused']) {
    await network.post(`/v1/items/${things[name]}/assessments`, { personId: incident.person('P1'), ...SOUND }).expect(201);
    await network.post(`/v1/items/${things[name]}/colour-tests`, { personId: incident.person('P2'), tests: [{ colour: 'red', solution: 'water', method: 'swab', reading: 'no-transfer' }], allColoursTested: true }).expect(201);
  }
  expect(await carryOut(server, network, await request(server, network, incident, 'the doors are open'))).toBe('done');
  plan = await assignmentsOf(network, incident);
});
afterAll(() => server.close());

const slots = (from: string, to: string) => Array.from({ length: (Date.parse(to) - Date.parse(from)) / SLOT_MS }, (_, i) => Date.parse(from) + i * SLOT_MS);

/** The most of something in use at one time. */
function peak(uses: { from: string; to: string; amount: number }[]): number {
  const use = new Map<number, number>();
  for (const { from, to, amount } of uses) for (const slot of slots(from, to)) use.set(slot, (use.get(slot) ?? 0) + amount);
  return Math.max(0, ...use.values());
}

/** What goes into one bath together is one piece of work. */
const together = (uses: Assignment[]) => uses.filter(({ batchId }, i) => batchId === null || uses.findIndex((other) => other.batchId === batchId) === i);

describe('a morning is planned', () => {
  test('the stored plan breaks no rule of the problem that the rows make', async () => {
    const input = await server.unitOfWork.read(workerContextOf(network), (stores) => stores.plans.loadInput(incident.id));
    const { problem } = buildProblem(input!, { nowMs: MORNING_MS });
    const { rows } = await server.admin.query('select item_id, weight, blocker_kind, blocker_what from plan_unplanned where network_id = $1', [network.networkId]);
    const { rows: [revision] } = await server.admin.query('select * from plan_revision where network_id = $1', [network.networkId]);
    const slotOf = (at: string) => (Date.parse(at) - problem.originMs) / SLOT_MS;
    const listed = rows.filter((row) => problem.items.some(({ id }) => id === row.item_id));
    const lost = listed.filter((row) => problem.items.some(({ id, stabilised }) => id === row.item_id && !stabilised)).reduce((sum, row) => sum + row.weight, 0);
    const stored: Plan = {
      seed: revision.seed, iterations: revision.iterations,
      assignments: plan.map(({ startsAt, endsAt, ...rest }) => ({ ...rest, startSlot: slotOf(startsAt), endSlot: slotOf(endsAt) }) as unknown as Plan['assignments'][0]),
      unplanned: listed.map((row) => ({ itemId: row.item_id, weight: row.weight, blockedBy: { kind: row.blocker_kind, what: row.blocker_what } })),
      // What is not in the plan is as late as can be; against itself the plan in force has not moved.
      objective: [lost, lost * problem.horizonSlots, 0, Number(revision.weighted_start)],
    };
    expect(stored.assignments.length).toBeGreaterThan(15);
    expect(validatePlan(problem, stored)).toEqual([]);
  });

  test('no station has more in work than it holds, and nobody is in two places', () => {
    const capacities = new Map(incident.layout.sites[0]!.stations.map((station) => [station.id, (station as { capacity?: number }).capacity ?? 0]));
    for (const [id, capacity] of capacities) {
      const uses = together(plan.filter(({ stationId }) => stationId === id)).map(({ startsAt, endsAt }) => ({ from: startsAt, to: endsAt, amount: 1 }));
      expect(peak(uses)).toBeLessThanOrEqual(capacity);
    }
    for (const person of incident.layout.people) {
      const uses = together(plan.filter(({ personIds }) => personIds.includes(person.id))).map(({ startsAt, endsAt }) => ({ from: startsAt, to: endsAt, amount: 1 }));
      expect(peak(uses)).toBeLessThanOrEqual(1);
    }
    expect(plan.some(({ personIds }) => personIds.length === 2)).toBe(true);
  });

  test('no drying place is given more than its area at a time', async () => {
    const { rows } = await server.admin.query<{ id: string; area_dm2: number }>('select id, area_dm2 from item where network_id = $1 union all select id, area_dm2 from drying_place where network_id = $1', [network.networkId]);
    const area = new Map(rows.map((row) => [row.id, row.area_dm2]));
    const drying = plan.filter(({ dryingPlaceId }) => dryingPlaceId !== null);
    expect(drying.length).toBeGreaterThan(3);
    for (const place of new Set(drying.map(({ dryingPlaceId }) => dryingPlaceId!))) {
      const uses = drying.filter(({ dryingPlaceId }) => dryingPlaceId === place).map(({ itemId, startsAt, endsAt }) => ({ from: startsAt, to: endsAt, amount: area.get(itemId)! }));
      expect(peak(uses)).toBeLessThanOrEqual(area.get(place)!);
    }
  });

  test('a thing whose owner has refused is not planned, and the list says that it waits for the owner', async () => {
    expect(plan.filter(({ itemId }) => itemId === things['refused'])).toEqual([]);
    const { body } = await network.get(`/v1/incidents/${incident.id}/plan/unplanned`).expect(200);
    expect(body.items.find((item: { itemId: string }) => item.itemId === things['refused'])).toMatchObject({ blockedBy: { kind: 'owner', text: 'it waits for the decision of its owner' }, stabilised: false });
  });

  test('what the colour test has passed starts at the bath, the others with a look', () => {
    const first = (name: string) => plan.filter(({ itemId }) => itemId === things[name]).sort((a, b) => a.position - b.position)[0]?.step;
    expect(first('quilt 0')).toBe('rinse');
    expect(first('shirt 0')).toBe('assess');
  });

  test('the plan tells what is in time, what is not, and adds up to all that is not safe', async () => {
    const { body } = await network.get(`/v1/incidents/${incident.id}/plan`).expect(200);
    expect(body).toMatchObject({ number: 1, slotMinutes: 15, from: '2026-05-09T07:00:00.000Z', to: '2026-05-12T07:00:00.000Z', openRunId: null });
    expect(body.inTime.items + body.notInTime.items).toBe(Object.keys(things).length);
    expect(body.notInTime.weight).toBe(body.blocked.reduce((sum: number, { weight }: { weight: number }) => sum + weight, 0) + body.late.weight + body.lookOnly.weight);
    expect(body.blocked).toEqual(expect.arrayContaining([expect.objectContaining({ kind: 'owner', items: 1 })]));
    const report = await network.get(`/v1/incidents/${incident.id}/situation-report`).expect(200);
    expect(report.body.plan).toMatchObject({ number: 1, weightNotInTime: body.notInTime.weight });
  });
});

describe('a morning is worked', () => {
  const list = async (station: string) => (await network.get(`/v1/stations/${incident.station(station)}/work-list`).expect(200)).body;
  const report = (itemId: string, step: string, change: object = {}) => network.post(`/v1/items/${itemId}/step-results`, { step, outcome: 'done', personId: incident.person('P2'), ...change });
  const pass = async (itemId: string, kind: string, to: object) => {
    const { body } = await network.get(`/v1/items/${itemId}`).expect(200);
    return network.post(`/v1/items/${itemId}/custody-events`, { kind, from: body.keeper, to, personId: incident.person('P2') }).expect(201);
  };
  const orderOf = (orders: { itemId: string }[], name: string) => orders.find(({ itemId }) => itemId === things[name]);

  test('the bath is told what comes next, where it lies, how to handle it and what to wear', async () => {
    const body = await list('RINSE');
    expect(body).toMatchObject({ station: { code: 'RINSE' }, revision: { number: 1, madeAt: '2026-05-09T07:00:00.000Z' }, now: [] });
    const order = orderOf(body.next, 'quilt 0') as unknown as Record<string, unknown> & { care: { ppe: string[]; cautions: unknown[] }; crew: { name: string }[]; never: unknown[] };
    expect(order).toMatchObject({ step: 'rinse', disposition: 'treat', minutes: 20, keeper: { kind: 'holding', code: 'HOLD-dirty' }, goesTo: { kind: 'station', code: 'BLOT' } });
    expect(order.care.ppe.join(' ')).toMatch(/glove/);
    expect(order.care.cautions.length).toBeGreaterThan(0);
    expect(order.never.length).toBeGreaterThan(0);
    expect(order.crew).toHaveLength(2);
    // Nothing is on the list whose turn at this station has not come.
    expect(orderOf(body.next, 'quilt 5')).toBeUndefined();
    const starts = body.next.map(({ plannedStart }: { plannedStart: string }) => plannedStart);
    expect(starts).toEqual([...starts].sort());
  });

  test('work in hand is shown apart, and the list moves on with the work', async () => {
    const quilt = things['quilt 0']!;
    await pass(quilt, 'work-started', { kind: 'station', id: incident.station('RINSE') });
    const busy = await list('RINSE');
    expect(orderOf(busy.next, 'quilt 0')).toBeUndefined();
    expect(orderOf(busy.now, 'quilt 0')).toMatchObject({ step: 'rinse', plannedStart: null, keeper: { kind: 'station', code: 'RINSE' } });
    await report(quilt, 'rinse').expect(201);
    expect(orderOf((await list('RINSE')).next, 'quilt 0')).toBeUndefined();
    expect(orderOf((await list('BLOT')).next, 'quilt 0')).toMatchObject({ step: 'blot', keeper: { kind: 'holding', code: 'HOLD-clean' }, goesTo: { kind: 'drying-place' } });
  });

  test('the drying list says what to hang where, and when it may be dry', async () => {
    const quilt = things['quilt 0']!;
    await pass(quilt, 'work-started', { kind: 'station', id: incident.station('BLOT') });
    await report(quilt, 'blot').expect(201);
    const site = `/v1/sites/${incident.site()}/drying-list`;
    const before = (await network.get(site).expect(200)).body;
    const order = orderOf(before.toHang, 'quilt 0') as unknown as { goesTo: { kind: string; id: string; code: string } };
    expect(order.goesTo.kind).toBe('drying-place');
    expect(['R1', 'S1']).toContain(order.goesTo.code);
    await pass(quilt, 'drying-started', { kind: 'drying-place', id: order.goesTo.id });
    const after = (await network.get(site).expect(200)).body;
    expect(orderOf(after.toHang, 'quilt 0')).toBeUndefined();
    const hanging = orderOf(after.hanging, 'quilt 0') as unknown as { earliestDryAt: string; latestDryAt: string };
    expect(hanging).toMatchObject({ dries: true, roomCode: 'ROOM', place: { code: order.goesTo.code }, dryingSince: '2026-05-09T07:00:00.000Z' });
    expect(Date.parse(hanging.earliestDryAt)).toBeGreaterThan(MORNING_MS);
    expect(Date.parse(hanging.latestDryAt)).toBeGreaterThan(Date.parse(hanging.earliestDryAt));
  });

  test('the next plan leaves what hangs where it is and plans its check after it', async () => {
    expect(await carryOut(server, network, await request(server, network, incident))).toBe('done');
    const again = await assignmentsOf(network, incident, `&itemId=${things['quilt 0']}`);
    expect(again.map(({ step }) => step)).toEqual(['check', 'wrap']);
    expect(again.every(({ stationId }) => stationId === incident.station('PACK'))).toBe(true);
    const first = Date.parse(again[0]!.startsAt);
    expect(first).toBeGreaterThan(MORNING_MS + 8 * 3_600_000);
    const { body } = await network.get(`/v1/incidents/${incident.id}/plan`).expect(200);
    expect(body).toMatchObject({ number: 2 });
    expect(body.inTime.items + body.notInTime.items).toBe(Object.keys(things).length - 1);
  });
});
