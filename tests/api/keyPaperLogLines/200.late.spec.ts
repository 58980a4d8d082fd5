import { afterAll, beforeAll, beforeEach, expect, test } from '@jest/globals';
import { at, KEYED_AT, PaperKit, traceOf } from '../support/paper.js';
import { recordOf, Workbench } from '../support/workbench.js';

// Lines against a record that has gone on meanwhile: the cases of the conflict taxonomy in our reliability study, section 5.3, for paper.

let bench: Workbench;
beforeAll(async () => {
  bench = await Workbench.open();
});
beforeEach(() => bench.server.clock.set(Date.parse('2026-05-09T07:00:00Z')));
afterAll(() => bench.close());

const at20 = () => bench.server.clock.set(Date.parse(KEYED_AT));
const P1 = () => bench.incident.person('P1');
const sightings = async (itemId: string) => (await bench.network.get(`/v1/items/${itemId}/sightings`).expect(200)).body.items as { verdict: string; seenAt: string; recordedAt: string }[];
const came = (kit: PaperKit, place: { id: string }, tag: string, time: string, lineNo = 1) => ({ sheetNo: kit.sheetOf(place.id), lineNo, writtenAt: at(time), tag, personId: P1() });

test('a line from before what is on record by now is kept as a sighting, and the thing stays where it is', async () => {
  const [kit, quilt] = [await PaperKit.make(bench), await bench.takeIn(await bench.household())];
  at20();
  await bench.pass(quilt.id, 'moved', bench.holding('clean'));
  const [late] = await kit.key(came(kit, bench.holding('quarantine'), quilt.tag, '09:00'));
  expect(late).toMatchObject({ verdict: 'keyed', became: 'seen-late', itemId: quilt.id, event: null, problem: null });
  expect(await bench.read(quilt.id)).toMatchObject({ keeper: bench.holding('clean'), locationDisputed: false, custodySeq: 2 });
  expect(await sightings(quilt.id)).toMatchObject([{ verdict: 'seen-late', seenAt: at('09:00'), recordedAt: KEYED_AT }]);
  const [again] = await kit.key(came(kit, bench.holding('quarantine'), quilt.tag, '09:00'));
  expect(again).toEqual({ ...late, verdict: 'keyed-before' });
  expect(await sightings(quilt.id)).toHaveLength(1);
});

test('a step from before what is on record by now is refused with where the thing is, and nothing is taken back', async () => {
  const [kit, quilt] = [await PaperKit.make(bench), await bench.testedQuilt(await bench.household())];
  at20();
  await bench.pass(quilt.id, 'moved', bench.holding('clean'));
  const before = await recordOf(bench, quilt.id);
  const line = { sheetNo: kit.log('RINSE'), lineNo: 1, writtenAt: at('09:00'), tag: quilt.tag, step: 'rinse', outcome: 'done', personId: P1() };
  const [late] = await kit.key(line);
  expect(late).toMatchObject({ verdict: 'refused', problem: { code: 'command_refused', status: 422, keeper: bench.holding('clean'), errors: [{ pointer: '#/lines/0/writtenAt', code: 'overtaken' }] } });
  expect(await recordOf(bench, quilt.id)).toEqual(before);
});

test('pages that are keyed one after the other tell one story; a page from earlier that turns up later moves nothing', async () => {
  const [kit, quilt] = [await PaperKit.make(bench), await bench.takeIn(await bench.household())];
  at20();
  expect((await kit.key(came(kit, bench.holding('clean'), quilt.tag, '08:30')))[0]).toMatchObject({ became: 'moved' });
  expect((await kit.key(came(kit, bench.holding('quarantine'), quilt.tag, '10:00')))[0]).toMatchObject({ became: 'moved', event: { seq: 3 } });
  expect((await kit.key(came(kit, bench.holding('cold'), quilt.tag, '09:00')))[0]).toMatchObject({ became: 'seen-late' });
  expect((await kit.key(came(kit, bench.holding('quarantine'), quilt.tag, '10:30', 2)))[0]).toMatchObject({ became: 'seen-again' });
  expect(await bench.read(quilt.id)).toMatchObject({ keeper: bench.holding('quarantine'), locationDisputed: false });
  expect((await traceOf(bench, quilt.id)).map(({ kind, occurredAt }) => [kind, occurredAt]).slice(1)).toEqual([['moved', at('08:30')], ['moved', at('10:00')]]);
});

test('two places in one minute: no clock says which came first, so it is disputed and a person looks', async () => {
  const [kit, quilt] = [await PaperKit.make(bench), await bench.takeIn(await bench.household())];
  at20();
  const [first, second] = await kit.key(came(kit, bench.holding('clean'), quilt.tag, '09:00'), came(kit, bench.holding('quarantine'), quilt.tag, '09:00'));
  expect(first).toMatchObject({ became: 'moved' });
  expect(second).toMatchObject({ verdict: 'keyed', became: 'disputed', event: { kind: 'location-disputed', seq: 3 }, problem: { code: 'location_disputed', claimed: bench.holding('quarantine') } });
  expect(await bench.read(quilt.id)).toMatchObject({ keeper: bench.holding('clean'), locationDisputed: true });
  const claim = (await traceOf(bench, quilt.id))[2];
  expect(claim?.refs).toMatchObject({ claimedId: bench.incident.holding('quarantine'), paperKitId: kit.id, lineNo: '1' });
  expect(claim?.refs).not.toHaveProperty('scanId');
});

test('what the writer cannot have known, because a device told it only later, is a claim and moves nothing', async () => {
  const [kit, quilt] = [await PaperKit.make(bench), await bench.takeIn(await bench.household())];
  at20();
  // A tablet that was out of reach sends at night what it saw in the morning.
  await bench.network.post(`/v1/items/${quilt.id}/custody-events`, { kind: 'moved', from: bench.holding('dirty'), to: bench.holding('clean'), occurredAt: at('08:30') }).expect(201);
  const [claim] = await kit.key(came(kit, bench.holding('quarantine'), quilt.tag, '09:00'));
  expect(claim).toMatchObject({ verdict: 'keyed', became: 'disputed', problem: { code: 'location_disputed' } });
  expect((await bench.read(quilt.id)).keeper).toEqual(bench.holding('clean'));
});

test('what went home before, and is seen on paper afterwards, is kept as a sighting with a word to the coordinator', async () => {
  const household = await bench.household();
  const [kit, quilt] = [await PaperKit.make(bench), await bench.takeIn(household)];
  await bench.handBack(household, [quilt.id]).expect(201);
  at20();
  const [seen] = await kit.key(came(kit, bench.holding('clean'), quilt.tag, '09:00'));
  expect(seen).toMatchObject({ verdict: 'keyed', became: 'sighted', event: null, problem: { code: 'item_terminal' } });
  expect(await bench.read(quilt.id)).toMatchObject({ stage: 'handed-back', custodySeq: 2 });
  expect((await sightings(quilt.id)).map(({ verdict }) => verdict)).toEqual(['left-the-network']);
});

test('what was reported missing in the morning was found by whoever wrote it down', async () => {
  const [kit, quilt] = [await PaperKit.make(bench), await bench.takeIn(await bench.household())];
  await bench.network.post(`/v1/items/${quilt.id}/missing-reports`, {}).expect(201);
  at20();
  const [found] = await kit.key(came(kit, bench.holding('clean'), quilt.tag, '09:00'));
  expect(found).toMatchObject({ verdict: 'keyed', became: 'moved', event: { kind: 'found-again' } });
  expect(await bench.read(quilt.id)).toMatchObject({ keeper: bench.holding('clean'), missing: false });
});
