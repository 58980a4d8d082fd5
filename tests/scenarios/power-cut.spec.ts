/** Sixty things taken in on paper during a power cut, keyed in ten hours later with the logs of stations and places, and held against the printed slips and sheets. */
import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { newId } from '#platform';
import { PaperKit, traceOf, type LineResult } from '../api/support/paper.js';
import { SOUND_COTTON, Workbench } from '../api/support/workbench.js';

let bench: Workbench;
let kit: PaperKit;
/** Ids of what was taken in, by the numbers of the slips. */
let taken: Map<number, string>;
beforeAll(async () => {
  bench = await Workbench.open();
});
afterAll(() => bench.close());

const CUT_MS = Date.parse('2026-05-09T08:00:00Z');
const KEYED_AT = '2026-05-09T20:00:00.000Z';
const THINGS = [['Wedding quilt', 'double-quilt', 'textile-quilt-padded'], ['Letters in a tin', 'a4-sheet', 'paper-uncoated'], ['Photograph album', 'book', 'album-or-scrapbook'], ['Shirt', 'garment', 'textile-garment-3d']] as const;

/** Slip `n`, written three minutes after the one before, now for one of twelve families and now for another. */
function slipOf(n: number): object {
  const [description, sizeClass, materialClass] = THINGS[n % THINGS.length] as (typeof THINGS)[number];
  return {
    slipNo: n, writtenAt: new Date(CUT_MS + n * 180_000).toISOString(), description: `${description} ${n}`, sizeClass, materialClass, significance: n % 5 === 0 ? 'irreplaceable' : 'valued', count: sizeClass === 'a4-sheet' ? 40 : 1,
    household: { code: `PAPER-${n % 12}`, language: n % 2 === 0 ? 'es' : 'en', contact: { name: `Family on slip ${n % 12}`, phone: '555 0100' } }, consents: [{ scope: 'treat', given: true }],
  };
}

interface Verdict {
  slipNo: number;
  verdict: string;
  itemId: string | null;
  tag: string | null;
}

test('60 slips of 65: late times stay what they are, each marked as keyed from paper and by whom, missing and void slips named, nothing twice', async () => {
  kit = await PaperKit.make(bench, 65);
  bench.server.clock.set(Date.parse(KEYED_AT));
  const person = bench.incident.person('P2');
  const numbers = Array.from({ length: 60 }, (_, index) => index + 1);
  // Keyed in the order in which the pile lay, which is none.
  const pile = numbers.toSorted((a, b) => ((a * 37) % 61) - ((b * 37) % 61));
  const body = { personId: person, slips: [...pile.map(slipOf), { slipNo: 61, void: 'spoilt' }, { slipNo: 62, void: 'unused' }] };
  const sent = { 'idempotency-key': newId() };
  const began = performance.now();
  const { results } = (await bench.network.post(`/v1/paper-kits/${kit.id}/keyed-slips`, body, sent).expect(200)).body as { results: Verdict[] };
  process.stdout.write(`60 slips keyed in ${Math.round(performance.now() - began)} ms\n`);
  expect(results.map(({ slipNo }) => slipNo)).toEqual([...pile, 61, 62]);
  expect(results.filter(({ verdict }) => verdict === 'keyed')).toHaveLength(60);
  expect(results.slice(60).map(({ verdict }) => verdict)).toEqual(['void', 'void']);
  taken = new Map(results.map(({ slipNo, itemId }) => [slipNo, itemId ?? '']));
  for (const { slipNo, tag } of results) expect(tag).toBe(kit.tags[slipNo - 1]);

  // The answer got lost on the way: the same request again, and then the pile again under another key.
  expect((await bench.network.post(`/v1/paper-kits/${kit.id}/keyed-slips`, body, sent).expect(200)).body.results).toEqual(results);
  const again = (await bench.network.post(`/v1/paper-kits/${kit.id}/keyed-slips`, body).expect(200)).body.results as Verdict[];
  expect(again.map(({ verdict, itemId }) => [verdict, itemId])).toEqual(results.map(({ itemId }) => ['keyed-before', itemId]));
  const { rows } = await bench.server.admin.query<{ items: number; households: number; late: number }>(
    `select (select count(*)::int from item where incident_id = $1) as items, (select count(*)::int from household where incident_id = $1) as households,
            (select count(*)::int from custody_event where incident_id = $1 and kind = 'taken-in' and recorded_at = $2 and occurred_at < $2) as late`,
    [bench.incident.id, KEYED_AT],
  );
  expect(rows[0]).toEqual({ items: 60, households: 12, late: 60 });

  for (const { slipNo, itemId } of results.slice(0, 60)) {
    const { items } = (await bench.network.get(`/v1/items/${itemId}/custody-events`).expect(200)).body;
    expect(items).toHaveLength(1);
    expect(items[0]).toMatchObject({ kind: 'taken-in', occurredAt: new Date(CUT_MS + slipNo * 180_000).toISOString(), recordedAt: KEYED_AT, refs: { paperKitId: kit.id, slipNo: String(slipNo), keyedBy: person } });
    expect(JSON.stringify(items)).not.toContain('Family on slip');
  }

  const view = (await bench.network.get(`/v1/paper-kits/${kit.id}`).expect(200)).body;
  expect(view.counts).toEqual({ keyed: 60, void: 2, missing: 3 });
  expect(view.list.filter(({ state }: { state: string }) => state === 'missing').map(({ slipNo }: { slipNo: number }) => slipNo)).toEqual([63, 64, 65]);
  expect(view.list[0]).toMatchObject({ slipNo: 1, state: 'keyed', writtenAt: '2026-05-09T08:03:00.000Z', keyedAt: KEYED_AT, keyedBy: person });
  const account = (await bench.network.get(`/v1/incidents/${bench.incident.id}/reconciliation`).expect(200)).body;
  expect(account).toMatchObject({ received: 60, difference: 0, keepersOtherThanOne: [], chainFaults: [] });
}, 120_000);

/** A written line, and what it says of which slip. */
interface Written {
  slip: number;
  minute: number;
  line: { sheetNo: number; lineNo: number; step?: string; [member: string]: unknown };
}

const timeAt = (minute: number) => new Date(CUT_MS + minute * 60_000).toISOString();
const F1 = () => ({ kind: 'freezer', id: bench.incident.freezer('F1') });
const R1 = () => ({ kind: 'drying-place', id: bench.incident.place('R1') });
/** Quilts that were looked at, tested and rinsed by lamplight. */
const RINSED = [4, 8, 12];

/** Letters were carried to the freezer, albums to the cold, shirts to the clean side; three quilts were rinsed, blotted and hung in the minute in which they came from the table. */
function writtenInTheDark(): Written[] {
  const person = bench.incident.person('P1');
  const numbers = new Map<number, number>();
  const line = (slip: number, minute: number, sheetNo: number, said: object = {}): Written => {
    numbers.set(sheetNo, (numbers.get(sheetNo) ?? 0) + 1);
    return { slip, minute, line: { sheetNo, lineNo: numbers.get(sheetNo) ?? 0, writtenAt: timeAt(minute), tag: kit.tags[slip - 1], personId: person, ...said } };
  };
  const places = [null, F1(), bench.holding('cold'), bench.holding('clean')] as const;
  const carried = Array.from({ length: 60 }, (_, index) => index + 1).flatMap((slip) => {
    const place = places[slip % 4];
    return place ? [line(slip, slip * 3 + 20, kit.sheetOf(place.id))] : [];
  });
  const worked = RINSED.flatMap((slip) => [line(slip, slip * 3 + 40, kit.log('RINSE'), { step: 'rinse', outcome: 'done' }), line(slip, slip * 3 + 70, kit.log('BLOT'), { step: 'blot', outcome: 'done' }), line(slip, slip * 3 + 70, kit.sheetOf(R1().id))]);
  return [...carried, ...worked];
}

/** What stood on the log of the table where things are looked at; looks have a command of their own. */
async function keyLooks(): Promise<void> {
  for (const slip of RINSED) {
    const looked = { personId: bench.incident.person('P1'), ...SOUND_COTTON, assessedAt: timeAt(slip * 3 + 10) };
    await bench.network.post(`/v1/items/${taken.get(slip)}/assessments`, looked).expect(201);
    const tests = [{ colour: 'red border', solution: 'water', method: 'swab', reading: 'no-transfer' }];
    await bench.network.post(`/v1/items/${taken.get(slip)}/colour-tests`, { personId: bench.incident.person('P2'), tests, allColoursTested: true, testedAt: timeAt(slip * 3 + 15) }).expect(201);
  }
}

test('the logs and sheets of that power cut: every line once, at its own time; what has gone on since is not taken back; record and paper agree on where each thing is', async () => {
  await keyLooks();
  // While the sheets still lie in their folder, somebody carries a shirt to quarantine and scans it there.
  const [shirt, scanned] = [3, bench.holding('quarantine')];
  await bench.network.post(`/v1/items/${taken.get(shirt)}/custody-events`, { kind: 'moved', from: bench.holding('dirty'), to: scanned, personId: bench.incident.person('P3') }).expect(201);
  const written = writtenInTheDark();
  const lines = written.map(({ line }) => line);
  const pile = lines.toSorted((a, b) => ((a.sheetNo * 31 + a.lineNo * 37) % 53) - ((b.sheetNo * 31 + b.lineNo * 37) % 53));
  // A tag that nobody can read, a line that was struck out, and one that the keying skipped.
  const clean = kit.sheetOf(bench.incident.holding('clean'));
  const extra = [{ sheetNo: clean, lineNo: 16, writtenAt: timeAt(100), tag: 'KXXX-XXX-00' }, { sheetNo: clean, lineNo: 18, void: 'crossed-out' }];
  const began = performance.now();
  const results = await kit.key(...pile, ...extra);
  process.stdout.write(`${lines.length} lines keyed in ${Math.round(performance.now() - began)} ms\n`);
  const of = (line: { sheetNo: number; lineNo: number }): LineResult => results.find((result) => result.sheetNo === line.sheetNo && result.lineNo === line.lineNo) as LineResult;
  expect(results.slice(pile.length)).toMatchObject([{ verdict: 'refused', problem: { code: 'tag_invalid' } }, { verdict: 'void' }]);

  for (const { slip, line } of written) expect([slip, of(line)]).toMatchObject([slip, { verdict: 'keyed', itemId: taken.get(slip), became: slip === shirt ? 'seen-late' : line.step === undefined ? 'moved' : 'step', problem: null }]);
  // The pile again, as when the answer was lost: nothing twice.
  expect((await kit.key(...pile)).map(({ verdict, event, stepResultId }) => [verdict, event, stepResultId])).toEqual(pile.map((line) => ['keyed-before', of(line).event, of(line).stepResultId]));

  for (const { slip, minute, line } of written) {
    const { event } = of(line);
    if (event === null) continue;
    const told = (await traceOf(bench, taken.get(slip) ?? ''))[event.seq - 1];
    expect(told).toMatchObject({ kind: event.kind, occurredAt: timeAt(minute), recordedAt: KEYED_AT, refs: { paperKitId: kit.id, sheetNo: String(line.sheetNo), lineNo: String(line.lineNo), keyedBy: bench.incident.person('P2') } });
  }
  // Where paper says that each thing is now, by the last line that names it.
  const lying = (slip: number) => (slip === shirt ? scanned : RINSED.includes(slip) ? R1() : ([bench.holding('dirty'), F1(), bench.holding('cold'), bench.holding('clean')] as const)[slip % 4]);
  for (const [slip, itemId] of taken) if (slip <= 60) expect([slip, (await bench.read(itemId)).keeper]).toEqual([slip, lying(slip)]);
  for (const slip of RINSED) expect(await bench.read(taken.get(slip) ?? '')).toMatchObject({ stage: 'drying', nextStep: 'dry' });

  const sheets = await kit.sheets();
  expect(sheets.reduce((sum, { keyed }) => sum + keyed, 0)).toBe(written.length);
  expect(sheets.filter(({ gaps }) => gaps.length > 0)).toEqual([{ sheetNo: clean, place: bench.holding('clean'), keyed: 15, void: 1, gaps: [{ part: 1, lineNo: 16 }, { part: 1, lineNo: 17 }] }]);
  const account = (await bench.network.get(`/v1/incidents/${bench.incident.id}/reconciliation`).expect(200)).body;
  expect(account).toMatchObject({ received: 60, difference: 0, keepersOtherThanOne: [], chainFaults: [] });
}, 120_000);
