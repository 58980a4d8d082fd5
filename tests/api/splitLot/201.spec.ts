import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { Workbench } from '../support/workbench.js';
import { chainOf, hangingNapkins, printsOf, split, sumOf } from './split.support.js';

let bench: Workbench;
beforeAll(async () => {
  bench = await Workbench.open();
});
afterAll(() => bench.close());

test('80 of 240 prints become an item of their own: what both count adds up, and each names the other', async () => {
  const lot = await printsOf(bench);
  const answer = await split(bench, lot.id, 80, { personId: bench.incident.person('P1') });
  expect(answer.status).toBe(201);
  const { part, lot: rest, planRunId } = answer.body;
  expect(answer.headers).toMatchObject({ etag: `"${part.version}"`, location: `/v1/items/${part.id}` });
  expect(part).toMatchObject({ kind: 'lot', count: 80, splitFromId: lot.id, dryingAreaM2: 1.6, keeper: lot.keeper, stage: 'waiting', householdId: lot['householdId'], description: lot['description'], arrivedAt: lot['arrivedAt'] });
  expect(rest).toMatchObject({ id: lot.id, tag: lot.tag, count: 160, splitFromId: null, dryingAreaM2: 3.2 });
  expect(sumOf([part, rest])).toEqual(sumOf([lot]));
  expect(await bench.read(part.id)).toEqual(part);
  expect(await bench.read(lot.id)).toEqual(rest);
  expect((await chainOf(bench, lot.id)).at(-1)).toMatchObject({ kind: 'lot-split', to: lot.keeper, stage: 'waiting', refs: { splitTo: part.id, pieces: '80', left: '160', splitBy: bench.incident.person('P1') } });
  expect(await chainOf(bench, part.id)).toMatchObject([{ kind: 'split-off', seq: 1, to: lot.keeper, stage: 'waiting', refs: { splitFrom: lot.id, pieces: '80' } }]);
  expect((await bench.network.get(`/v1/plan-runs/${planRunId}`).expect(200)).body.state).toBe('queued');
});

test('a part of one piece is a single item, and the tag leads to it', async () => {
  const lot = await printsOf(bench, 3);
  const { part } = (await split(bench, lot.id, 1)).body;
  expect(part).toMatchObject({ kind: 'item', count: 1 });
  expect((await bench.network.get(`/v1/tags/${part.tag}`).expect(200)).body.item.id).toBe(part.id);
});

test('both are triaged for what they count: a dozen leather bindings are for the freezer, six and six are dried', async () => {
  const lot = await bench.takeIn(await bench.household(), { count: 12, description: 'Parish registers', materialClass: 'book-leather-or-vellum', sizeClass: 'book' });
  await bench.assess(lot.id, { materialClass: 'book-leather-or-vellum' }).expect(201);
  expect(await bench.read(lot.id)).toMatchObject({ disposition: 'hold-frozen' });
  const { part, lot: rest } = (await split(bench, lot.id, 6)).body;
  expect([part.disposition, rest.disposition]).toEqual(['treat', 'treat']);
  for (const { id } of [part, rest]) expect((await bench.network.get(`/v1/items/${id}/triage`).expect(200)).body).toMatchObject({ observed: { count: 6, materialClass: 'book-leather-or-vellum' } });
});

test('what was seen, tested, done, agreed and decided of the lot holds for the part, in the same order', async () => {
  const household = await bench.household();
  const lot = await bench.takeIn(household, { count: 6, description: 'Napkins', materialClass: 'textile-flat-small', sizeClass: 'a4-sheet' });
  await bench.assess(lot.id).expect(201);
  await bench.colourTest(lot.id, 'no-transfer').expect(201);
  await bench.report(lot.id, 'rinse', 'owner-must-decide').expect(201);
  await bench.network.post(`/v1/households/${household.id}/consents`, { itemId: lot.id, scope: 'treat', given: true, manner: 'spoken' }).expect(201);
  await bench.report(lot.id, 'rinse').expect(201);
  await bench.network.post(`/v1/items/${lot.id}/disposition-overrides`, { disposition: 'treat', reason: 'Wanted for the table on Friday.', personId: bench.incident.person('P1') }).expect(201);
  const before = await bench.read(lot.id);
  const { part, lot: rest } = (await split(bench, lot.id, 2)).body;
  for (const side of [part, rest]) expect(side).toMatchObject({ nextStep: before['nextStep'], disposition: 'treat', waitingForOwner: false });
  const triage = async (itemId: string) => (await bench.network.get(`/v1/items/${itemId}/triage`).expect(200)).body;
  const [ofPart, ofLot] = [await triage(part.id), await triage(lot.id)];
  expect(ofPart).toMatchObject({ override: { reason: 'Wanted for the table on Friday.' }, observed: { colourTests: [{ colour: 'red border', reading: 'no-transfer' }], allColoursTested: true } });
  expect({ ...ofPart.observed, count: 4 }).toEqual(ofLot.observed);
  expect(ofPart).toMatchObject({ origin: ofLot.origin, assessedBy: ofLot.assessedBy, assessedAt: ofLot.assessedAt });
  const recorded = async (itemId: string) => (await bench.server.admin.query<{ colours: string[]; steps: string[]; consents: string[] }>(
    `select array(select colour from colour_test where item_id = $1 order by id) as colours, array(select step || ' ' || outcome from step_result where item_id = $1 order by id) as steps,
            array(select scope from consent where item_id = $1 order by id) as consents`, [itemId])).rows[0] ?? { colours: [], steps: [], consents: [] };
  const original = await recorded(lot.id);
  expect(await recorded(part.id)).toEqual({ ...original, steps: original.steps.filter((step) => step !== 'rinse owner-must-decide') });
  // The owner's no to the part is a no to the part alone.
  await bench.network.post(`/v1/households/${household.id}/consents`, { itemId: part.id, scope: 'treat', given: false, manner: 'spoken' }).expect(201);
  await bench.report(part.id, 'blot', 'done', { disposition: 'treat' }).expect(409);
  await bench.report(lot.id, 'blot').expect(201);
});

test('a question to the owner that nobody has answered is open for both', async () => {
  const lot = await bench.takeIn(await bench.household(), { count: 6, description: 'Napkins', materialClass: 'textile-flat-small', sizeClass: 'a4-sheet' });
  await bench.assess(lot.id).expect(201);
  await bench.colourTest(lot.id, 'no-transfer').expect(201);
  await bench.report(lot.id, 'rinse', 'owner-must-decide').expect(201);
  const { part, lot: rest } = (await split(bench, lot.id, 2)).body;
  expect([part.waitingForOwner, rest.waitingForOwner]).toEqual([true, true]);
});

test('a lot that hangs is split where it hangs: its drying has not begun anew, the place is no fuller, and both are taken down', async () => {
  const lot = await hangingNapkins(bench, 240);
  bench.server.clock.set(bench.server.clock.nowMs() + 3 * 3_600_000);
  const fills = async () => (await bench.network.get(`/v1/incidents/${bench.incident.id}/situation-report`).expect(200)).body;
  const before = await fills();
  const { part } = (await split(bench, lot.id, 100)).body;
  expect(part).toMatchObject({ stage: 'drying', keeper: { kind: 'drying-place', id: bench.incident.place('R1') } });
  const { hanging } = (await bench.network.get(`/v1/sites/${bench.incident.site()}/drying-list`).expect(200)).body;
  const since = (itemId: string) => hanging.find((row: { itemId: string }) => row.itemId === itemId)?.dryingSince;
  expect(since(part.id)).toBe('2026-05-09T07:00:00.000Z');
  expect(since(lot.id)).toBe(since(part.id));
  expect((await fills()).fills).toEqual(before.fills);
  // Split once more, so that the moment is carried on.
  const again = (await split(bench, part.id, 40)).body.part;
  expect((await chainOf(bench, again.id))[0]?.refs['begunAt']).toBe('2026-05-09T07:00:00.000Z');
  for (const itemId of [lot.id, part.id, again.id]) await bench.report(itemId, 'dry').expect(201);
  bench.server.clock.set(Date.parse('2026-05-09T07:00:00Z'));
});

test('what was taken down before it was split may still be reported dry', async () => {
  const lot = await hangingNapkins(bench, 10);
  await bench.pass(lot.id, 'drying-ended', bench.holding('clean'));
  const { part } = (await split(bench, lot.id, 4)).body;
  await bench.report(part.id, 'dry').expect(201);
});

test('in work the part stays with the crew, who is still the one that took the lot in hand', async () => {
  const lot = await printsOf(bench, 10);
  await bench.startAt(lot.id, 'RINSE');
  const { part } = (await split(bench, lot.id, 4, { personId: bench.incident.person('P1') })).body;
  expect(part).toMatchObject({ stage: 'in-work', keeper: { kind: 'station', id: bench.incident.station('RINSE') } });
  expect((await chainOf(bench, part.id))[0]?.refs).toMatchObject({ personId: bench.incident.person('P2'), splitBy: bench.incident.person('P1') });
});

test('any sequence of splits keeps the counts and the links, and the books still balance', async () => {
  const lot = await printsOf(bench, 240);
  const parts = [lot.id];
  for (const [from, count] of [[0, 80], [0, 79], [1, 40], [2, 1], [1, 13], [5, 12], [0, 80]] as const) {
    const answer = await split(bench, parts[from] ?? '', count);
    expect(answer.status).toBe(201);
    parts.push(answer.body.part.id);
    expect(answer.body.part.splitFromId).toBe(parts[from]);
  }
  const now = await Promise.all(parts.map((id) => bench.read(id)));
  expect(sumOf(now)).toEqual(sumOf([lot]));
  expect(now.every((item) => (item['count'] as number) >= 1)).toBe(true);
  const reconciled = (await bench.network.get(`/v1/incidents/${bench.incident.id}/reconciliation`).expect(200)).body;
  expect(reconciled).toMatchObject({ difference: 0, keepersOtherThanOne: [], chainFaults: [] });
  const { rows } = await bench.server.admin.query<{ n: number; pieces: number }>('select count(*)::int as n, sum(count)::int as pieces from item where incident_id = $1', [bench.incident.id]);
  expect(reconciled.received).toBe(rows[0]?.n);
});

test('the same command sent twice splits once', async () => {
  const lot = await printsOf(bench, 10);
  const key = { 'idempotency-key': '0198b7a0-0000-7000-8000-0000000000aa' };
  const body = { count: 4, tag: ((await split(bench, (await printsOf(bench, 3)).id, 1)).body.part.tag as string) };
  // A tag of another part stands in the first try: the refusal is remembered under its key too.
  const { version } = lot;
  const send = () => bench.network.post(`/v1/incidents/${bench.incident.id}/items/${lot.id}/splits`, body, { 'if-match': `"${version}"`, ...key });
  expect((await send()).body.code).toBe('tag_taken');
  expect((await send()).body.code).toBe('tag_taken');
  expect((await bench.read(lot.id))['count']).toBe(10);
  const first = await split(bench, lot.id, 4, {}, { 'idempotency-key': '0198b7a0-0000-7000-8000-0000000000ab' });
  const again = await bench.network.post(`/v1/incidents/${bench.incident.id}/items/${lot.id}/splits`, { count: 4, tag: first.body.part.tag }, { 'if-match': `"${version}"`, 'idempotency-key': '0198b7a0-0000-7000-8000-0000000000ab' });
  expect(again.status).toBe(201);
  expect(again.body).toEqual(first.body);
  expect(again.headers['idempotency-replayed']).toBe('true');
});
