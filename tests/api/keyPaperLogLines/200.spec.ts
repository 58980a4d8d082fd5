import { afterAll, beforeAll, beforeEach, expect, test } from '@jest/globals';
import { reserveTestTags } from '#testing';
import { at, KEYED_AT, PaperKit, traceOf } from '../support/paper.js';
import { Workbench } from '../support/workbench.js';

let bench: Workbench;
const MORNING_MS = Date.parse('2026-05-09T07:00:00Z');
beforeAll(async () => {
  bench = await Workbench.open();
});
beforeEach(() => bench.server.clock.set(MORNING_MS));
afterAll(() => bench.close());

const evening = () => bench.server.clock.set(Date.parse(KEYED_AT));
const rack = () => bench.incident.place('R1');

test('steps and moves of a morning, keyed in any order: each happened when it was written, and was recorded at night, from this line, by whoever keyed it', async () => {
  const [kit, quilt] = [await PaperKit.make(bench), await bench.testedQuilt(await bench.household())];
  const [P1, P2, P3] = ['P1', 'P2', 'P3'].map((code) => bench.incident.person(code));
  evening();
  const results = await kit.key(
    { sheetNo: kit.sheetOf(rack()), lineNo: 1, writtenAt: at('09:10'), tag: quilt.tag, personId: P3 },
    { sheetNo: kit.log('BLOT'), lineNo: 1, writtenAt: at('09:10'), tag: quilt.tag.toLowerCase(), step: 'blot', outcome: 'done', personId: P1 },
    { sheetNo: kit.log('RINSE'), part: 2, lineNo: 7, writtenAt: at('08:40'), tag: quilt.tag, step: 'rinse', outcome: 'done', to: bench.holding('clean'), personId: P1, withPersonIds: [P3], note: 'The border was tested again.' },
    { sheetNo: kit.log('RINSE'), lineNo: 2, void: 'crossed-out' },
  );
  expect(results.map(({ sheetNo, part, lineNo, verdict, became, event, problem }) => [sheetNo, part, lineNo, verdict, became, event, problem])).toEqual([
    [kit.sheetOf(rack()), 1, 1, 'keyed', 'moved', { kind: 'drying-started', seq: 3 }, null],
    [kit.log('BLOT'), 1, 1, 'keyed', 'step', null, null],
    [kit.log('RINSE'), 2, 7, 'keyed', 'step', { kind: 'moved', seq: 2 }, null],
    [kit.log('RINSE'), 1, 2, 'void', null, null, null],
  ]);
  const trace = await traceOf(bench, quilt.id);
  const onPaper = (sheetNo: number, part: number, lineNo: number) => ({ paperKitId: kit.id, sheetNo: String(sheetNo), part: String(part), lineNo: String(lineNo), keyedBy: P2 });
  expect(trace.slice(1)).toMatchObject([
    { kind: 'moved', occurredAt: at('08:40'), recordedAt: KEYED_AT, refs: { ...onPaper(kit.log('RINSE'), 2, 7), personId: P1, step: 'rinse', stepResultId: results[2]?.stepResultId } },
    { kind: 'drying-started', occurredAt: at('09:10'), recordedAt: KEYED_AT, refs: { ...onPaper(kit.sheetOf(rack()), 1, 1), personId: P3 } },
  ]);
  const { rows } = await bench.server.admin.query('select step, outcome, finished_at, recorded_at, person_id, station_id, note, with_person_ids from step_result where item_id = $1 and recorded_at = $2 order by finished_at', [quilt.id, KEYED_AT]);
  expect(rows.map((row) => [row.step, row.finished_at.toISOString(), row.recorded_at.toISOString(), row.person_id, row.station_id])).toEqual([
    ['rinse', at('08:40'), KEYED_AT, P1, bench.incident.station('RINSE')], ['blot', at('09:10'), KEYED_AT, P1, bench.incident.station('BLOT')],
  ]);
  expect(rows[0]).toMatchObject({ note: 'The border was tested again.', with_person_ids: [P3] });
  expect(await bench.read(quilt.id)).toMatchObject({ stage: 'drying', keeper: { kind: 'drying-place', id: rack() }, nextStep: 'dry', locationDisputed: false });
});

test('the sheets of the kit count what was keyed and name the lines that nobody has keyed', async () => {
  const [kit, quilt] = [await PaperKit.make(bench), await bench.takeIn(await bench.household())];
  evening();
  const sheetNo = kit.sheetOf(bench.incident.holding('clean'));
  await kit.key({ sheetNo, lineNo: 3, writtenAt: at('09:00'), tag: quilt.tag }, { sheetNo, lineNo: 1, void: 'unreadable' }, { sheetNo, part: 2, lineNo: 2, void: 'crossed-out' });
  const sheets = await kit.sheets();
  expect(sheets.find((sheet) => sheet.sheetNo === sheetNo)).toEqual({ sheetNo, place: bench.holding('clean'), keyed: 1, void: 2, gaps: [{ part: 1, lineNo: 2 }, { part: 2, lineNo: 1 }] });
  expect(sheets.map((sheet) => sheet.sheetNo)).toEqual(Array.from({ length: 13 }, (_, index) => index + 1));
  expect(sheets.slice(0, 6).every(({ place }) => place.kind === 'station')).toBe(true);
});

test('the same line again is answered as before and does nothing; another content for it is refused, and the first stands', async () => {
  const [kit, quilt] = [await PaperKit.make(bench), await bench.testedQuilt(await bench.household())];
  evening();
  const sheetNo = kit.log('RINSE');
  const line = { sheetNo, lineNo: 1, writtenAt: at('08:40'), tag: quilt.tag, step: 'rinse', outcome: 'done', personId: bench.incident.person('P1'), to: bench.holding('clean') };
  const [first] = await kit.key(line);
  const [again, twice] = await kit.key(line, { ...line, note: 'Spelt otherwise.' });
  expect(again).toEqual({ ...first, verdict: 'keyed-before' });
  expect(twice).toEqual(again);
  const [other] = await kit.key({ ...line, outcome: 'dye-moved' });
  expect(other).toMatchObject({ verdict: 'refused', problem: { code: 'already_exists', itemId: quilt.id, errors: [{ pointer: '#/lines/0/lineNo' }] } });
  expect(await traceOf(bench, quilt.id)).toHaveLength(2);
});

test('two desks key the same page at the same moment: every line is done once, and both are told the same', async () => {
  const [kit, household] = [await PaperKit.make(bench), await bench.household()];
  const quilts = await Promise.all(Array.from({ length: 4 }, () => bench.takeIn(household)));
  evening();
  const lines = quilts.map(({ tag }, index) => ({ sheetNo: kit.sheetOf(bench.incident.holding('clean')), lineNo: index + 1, writtenAt: at('08:30'), tag }));
  const answers = await Promise.all(Array.from({ length: 5 }, (_, index) => kit.key(...(index % 2 === 0 ? lines : lines.toReversed()))));
  expect(answers.flat().filter(({ verdict }) => verdict === 'keyed')).toHaveLength(4);
  expect(answers.flat().filter(({ verdict }) => verdict === 'keyed-before')).toHaveLength(16);
  for (const quilt of quilts) expect(await traceOf(bench, quilt.id)).toHaveLength(2);
});

test('a tub is moved with all that is in it', async () => {
  const [kit, quilt, [tag = '']] = [await PaperKit.make(bench), await bench.takeIn(await bench.household()), await reserveTestTags(bench.network, bench.incident, 1, 'container')];
  const tub = (await bench.network.post(`/v1/incidents/${bench.incident.id}/containers`, { siteId: bench.incident.site(), tag, kind: 'tub' }).expect(201)).body;
  evening();
  const [inTub, moved] = await kit.key(
    { sheetNo: kit.log('RINSE'), lineNo: 1, writtenAt: at('08:10'), tag: quilt.tag, to: { kind: 'container', id: tub.id } },
    { sheetNo: kit.sheetOf(bench.incident.holding('clean')), lineNo: 1, writtenAt: at('08:20'), tag },
  );
  expect(inTub).toMatchObject({ verdict: 'keyed', became: 'moved', itemId: quilt.id });
  expect(moved).toMatchObject({ verdict: 'keyed', became: 'moved', containerId: tub.id, itemId: null });
  expect((await bench.network.get(`/v1/containers/${tub.id}`).expect(200)).body).toMatchObject({ keeper: bench.holding('clean') });
});
