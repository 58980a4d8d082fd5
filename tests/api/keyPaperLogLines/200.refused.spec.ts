import { afterAll, beforeAll, beforeEach, expect, test } from '@jest/globals';
import { newId } from '#platform';
import { networkDigest } from '#testing';
import { at, KEYED_AT, PaperKit, traceOf } from '../support/paper.js';
import { recordOf, Workbench } from '../support/workbench.js';

let bench: Workbench;
beforeAll(async () => {
  bench = await Workbench.open();
});
beforeEach(() => bench.server.clock.set(Date.parse('2026-05-09T07:00:00Z')));
afterAll(() => bench.close());

const evening = () => bench.server.clock.set(Date.parse(KEYED_AT));
const P1 = () => bench.incident.person('P1');
const freezer = () => bench.incident.freezer('F1');
const rinse = (kit: PaperKit, tag: string, change: object = {}) => ({ sheetNo: kit.log('RINSE'), lineNo: 1, writtenAt: at('08:40'), tag, step: 'rinse', outcome: 'done', personId: P1(), ...change });

test('what is wrong with one line is said where it stands, holds up no other, and changes nothing', async () => {
  const [kit, quilt] = [await PaperKit.make(bench), await bench.testedQuilt(await bench.household())];
  const [stranger] = [(await bench.network.incident()).person('P1')];
  evening();
  const digest = () => networkDigest(bench.server.admin, bench.network.networkId, ['idempotency_record', 'audit_entry']);
  const clean = kit.sheetOf(bench.incident.holding('clean'));
  const cases: [object, string, string][] = [
    [{ sheetNo: 99, lineNo: 1, writtenAt: at('08:00'), tag: quilt.tag }, 'reference_unknown', 'sheetNo'],
    [{ sheetNo: clean, lineNo: 1, tag: quilt.tag }, 'command_refused', 'writtenAt'],
    [{ sheetNo: clean, lineNo: 2, writtenAt: at('08:00') }, 'command_refused', 'tag'],
    [{ sheetNo: clean, lineNo: 3, writtenAt: at('08:00'), tag: 'KXXX-XXX-00' }, 'tag_invalid', 'tag'],
    [{ sheetNo: clean, lineNo: 4, writtenAt: at('23:00'), tag: quilt.tag }, 'command_refused', 'writtenAt'],
    [{ sheetNo: clean, lineNo: 5, writtenAt: at('08:00'), tag: quilt.tag, to: { kind: 'shelf', id: newId() } }, 'reference_unknown', 'to/id'],
    [{ sheetNo: clean, lineNo: 6, writtenAt: at('08:00'), tag: quilt.tag, personId: stranger }, 'reference_unknown', 'personId'],
    [{ sheetNo: clean, lineNo: 7, writtenAt: at('08:00'), tag: quilt.tag, outcome: 'done' }, 'command_refused', 'outcome'],
    [rinse(kit, quilt.tag, { outcome: null }), 'command_refused', 'outcome'],
    [rinse(kit, quilt.tag, { personId: null }), 'command_refused', 'personId'],
    [rinse(kit, quilt.tag, { sheetNo: clean, lineNo: 8 }), 'command_refused', 'step'],
    [rinse(kit, kit.tags[0] ?? '', { lineNo: 9 }), 'tag_unknown', 'tag'],
    [rinse(kit, quilt.tag, { lineNo: 10, personId: stranger }), 'reference_unknown', 'personId'],
    [rinse(kit, quilt.tag, { lineNo: 11, withPersonIds: [stranger] }), 'reference_unknown', 'withPersonIds/0'],
    [rinse(kit, quilt.tag, { lineNo: 12, to: { kind: 'shelf', id: newId() } }), 'reference_unknown', 'to/id'],
  ];
  const before = await digest();
  const alone = await kit.key(...cases.map(([line]) => line));
  expect(alone.map(({ verdict, problem }) => [verdict, problem?.code, problem?.errors?.[0]?.pointer])).toEqual(cases.map(([, code, member], index) => ['refused', code, `#/lines/${index}/${member}`]));
  expect(await digest()).toEqual(before);
  const together = await kit.key(...cases.map(([line]) => line), rinse(kit, quilt.tag, { lineNo: 20 }));
  expect(together.filter(({ verdict }) => verdict === 'refused')).toHaveLength(cases.length);
  expect(together.at(-1)).toMatchObject({ verdict: 'keyed', became: 'step', itemId: quilt.id });
});

test('a step that is not its turn, or by hands that are not suited, is refused; a lead who answers for it may key it', async () => {
  const [kit, quilt] = [await PaperKit.make(bench), await bench.testedQuilt(await bench.household())];
  evening();
  const before = await recordOf(bench, quilt.id);
  const weak = bench.incident.person('P4');
  const [early, unsuited] = await kit.key(rinse(kit, quilt.tag, { step: 'blot' }), { ...rinse(kit, quilt.tag, { lineNo: 2 }), step: 'rinse', personId: (await helper()) });
  expect(early).toMatchObject({ verdict: 'refused', problem: { code: 'wrong_stage' } });
  expect(unsuited).toMatchObject({ verdict: 'refused', problem: { code: 'person_not_suited', errors: [{ pointer: '#/lines/1/personId' }] } });
  expect(await recordOf(bench, quilt.id)).toEqual(before);
  const [answered] = await kit.key(rinse(kit, quilt.tag, { personId: weak, override: { personId: P1(), reason: 'There was nobody else in the dark.' } }));
  expect(answered).toMatchObject({ verdict: 'keyed', became: 'step' });
});

test('a place takes no more than it has room for, on paper as elsewhere: the line that came last is refused, and nothing moves', async () => {
  const kit = await PaperKit.make(bench);
  const household = await bench.household();
  const quilts = [];
  for (let count = 0; count < 12; count += 1) quilts.push(await bench.takeIn(household));
  evening();
  const lines = quilts.map(({ tag }, index) => ({ sheetNo: kit.sheetOf(freezer()), lineNo: index + 1, writtenAt: at(`09:${String(59 - index)}`), tag }));
  const results = await kit.key(...lines);
  const full = results.filter(({ verdict }) => verdict === 'refused');
  expect(full.length).toBeGreaterThan(0);
  for (const { problem } of full) expect(problem).toMatchObject({ code: 'capacity_full' });
  // Written first, keyed last.
  expect(results.at(-1)).toMatchObject({ verdict: 'keyed', event: { kind: 'frozen' } });
  const refused = results.findIndex(({ verdict }) => verdict === 'refused');
  expect(await traceOf(bench, quilts[refused]?.id ?? '')).toHaveLength(1);
  expect(results.findLastIndex(({ verdict }) => verdict === 'refused')).toBeLessThan(results.findIndex(({ verdict }) => verdict === 'keyed'));
});

test('what would stain or infect what hangs there is refused, with what it must not lie with', async () => {
  const kit = await PaperKit.make(bench);
  const household = await bench.household();
  const quilt = await bench.testedQuilt(household);
  for (const step of ['rinse', 'blot']) await bench.report(quilt.id, step).expect(201);
  await bench.hang(quilt.id);
  const cloth = await bench.assessedQuilt(household, { materialClass: 'textile-flat-small', sizeClass: 'garment' });
  await bench.assess(cloth.id, { mould: 'active' }).expect(201);
  await bench.network.post(`/v1/items/${cloth.id}/disposition-overrides`, { disposition: 'treat', reason: 'There is a place for it.', personId: P1() }).expect(201);
  evening();
  const [result] = await kit.key({ sheetNo: kit.sheetOf(bench.incident.place('R1')), lineNo: 1, writtenAt: at('09:00'), tag: cloth.tag, personId: bench.incident.person('P2') });
  expect(result).toMatchObject({ verdict: 'refused', problem: { code: 'company_refused' } });
  expect((await bench.read(cloth.id)).stage).not.toBe('drying');
});

/** Somebody with no skill for baths. */
async function helper(): Promise<string> {
  const shifts = [{ startsAt: '2026-05-09T07:00:00Z', endsAt: '2026-05-09T19:00:00Z' }];
  return (await bench.network.post(`/v1/incidents/${bench.incident.id}/people`, { code: `H-${newId().slice(-6)}`, displayName: 'Helper', siteId: bench.incident.site(), skills: ['intake'], shifts }).expect(201)).body.id as string;
}
