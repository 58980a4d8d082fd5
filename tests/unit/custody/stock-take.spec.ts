import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { resolutionsFor, stockTakeResult, STOCK_TAKE_RESOLUTIONS, subjectOf, type Keeper, type Recount, type SeenElsewhere, type StockTakeLine, type StockTakeScan } from '#custody';

const SHELF: Keeper = { kind: 'shelf', id: 's1' };
const OTHER: Keeper = { kind: 'shelf', id: 's2' };
const BOX: Keeper = { kind: 'container', id: 'b1' };

const line = (itemId: string, change: Partial<StockTakeLine> = {}): StockTakeLine => ({ itemId, way: [SHELF], moved: false, since: [], lost: false, ...change });
let order = 0;
const scan = (itemId: string | null, at: Keeper, change: Partial<StockTakeScan> = {}): StockTakeScan => {
  order += 1;
  return { scanId: `scan-${order}`, tag: `tag of ${itemId ?? 'nothing'}`, standing: itemId === null ? 'unknown' : 'ours', itemId, at, seenAtMs: order * 10, order, ...change };
};
const kinds = (lines: StockTakeLine[], scans: StockTakeScan[], elsewhere: SeenElsewhere[] = [], recounts: Recount[] = []) => stockTakeResult(lines, scans, elsewhere, recounts).differences.map(({ kind, id }) => `${kind} ${id}`);

describe('what is a difference', () => {
  test('a thing that was seen where it is on record, or at the place of its box, is in place', () => {
    const inBox = line('i', { way: [BOX, SHELF] });
    for (const at of [BOX, SHELF]) expect(stockTakeResult([inBox], [scan('i', at)], [], [])).toMatchObject({ expected: 1, seen: 1, inPlace: ['i'], differences: [] });
  });

  test('seen elsewhere it is misplaced, not seen it is missing', () => {
    expect(kinds([line('i'), line('j')], [scan('i', OTHER)])).toEqual(['misplaced i', 'missing j']);
  });

  test('the latest look counts, whatever came later over the network', () => {
    const [early, late] = [scan('i', OTHER, { seenAtMs: 1 }), scan('i', SHELF, { seenAtMs: 2 })];
    for (const scans of [[early, late], [late, early]]) expect(kinds([line('i')], scans)).toEqual([]);
  });

  test('a thing that the record has as missing is a difference wherever it is seen, and only then', () => {
    const lost = line('i', { lost: true });
    expect(kinds([lost], [scan('i', SHELF)])).toEqual(['misplaced i']);
    expect(kinds([lost], [])).toEqual(['missing i']);
  });

  test('a thing that an ordinary event moved meanwhile is no difference, seen before, after or not at all', () => {
    const moved = line('i', { moved: true, since: [OTHER] });
    for (const scans of [[], [scan('i', SHELF)], [scan('i', OTHER)]]) expect(stockTakeResult([moved], scans, [], [])).toMatchObject({ movedMeanwhile: ['i'], inPlace: [], differences: [] });
    expect(kinds([moved], [scan('i', BOX)])).toEqual(['misplaced i']);
  });

  test('what nobody expected is foreign: a thing on record elsewhere, a tag that leads to nothing; but not what came by an ordinary event', () => {
    const stray = scan(null, SHELF);
    expect(kinds([], [scan('x', SHELF), stray], [{ itemId: 'x', since: [OTHER] }])).toEqual([`foreign ${stray.scanId}`, 'foreign x'].sort());
    expect(kinds([], [scan('x', SHELF)], [{ itemId: 'x', since: [BOX, SHELF] }])).toEqual([]);
    expect(kinds([], [scan('x', SHELF, { standing: 'left' })], [{ itemId: 'x', since: [SHELF] }])).toEqual(['foreign x']);
  });

  test('a recount forgets the looks before it', () => {
    const wrong = scan('i', OTHER);
    const recounts = [{ subject: 'i', afterOrder: wrong.order }];
    expect(kinds([line('i')], [wrong], [], recounts)).toEqual(['missing i']);
    expect(kinds([line('i')], [wrong, scan('i', SHELF)], [], recounts)).toEqual([]);
    const stray = scan(null, SHELF);
    expect(kinds([], [stray], [], [{ subject: subjectOf(stray), afterOrder: stray.order }])).toEqual([]);
  });

  test('the record is moved only for things of ours', () => {
    const differences = stockTakeResult([line('i'), line('j')], [scan('i', OTHER), scan('x', SHELF), scan(null, SHELF)], [], []).differences;
    expect(differences.filter((difference) => resolutionsFor(difference).includes('move-on-record')).map(({ id }) => id)).toEqual(['i', 'x']);
    expect(differences.filter((difference) => resolutionsFor(difference).includes('reported-missing')).map(({ id }) => id)).toEqual(['j']);
    expect(new Set(differences.flatMap(resolutionsFor))).toEqual(new Set(STOCK_TAKE_RESOLUTIONS));
  });
});

/** Random stock-takes over a few places and things, so that everything meets everything. */
const places = fc.constantFrom<Keeper>(SHELF, OTHER, BOX, { kind: 'freezer', id: 'f' });
const stockTakes = fc
  .record({
    lines: fc.uniqueArray(fc.record({ itemId: fc.constantFrom('a', 'b', 'c', 'd', 'e'), way: fc.array(places, { minLength: 1, maxLength: 3 }), moved: fc.boolean(), since: fc.array(places, { maxLength: 2 }), lost: fc.boolean() }), { selector: (entry) => entry.itemId }),
    looks: fc.array(fc.record({ itemId: fc.option(fc.constantFrom('a', 'b', 'c', 'd', 'e', 'x', 'y')), at: places, seenAtMs: fc.nat(20), stray: fc.constantFrom('t1', 't2') }), { maxLength: 30 }),
    elsewhere: fc.uniqueArray(fc.record({ itemId: fc.constantFrom('x', 'y'), since: fc.array(places, { maxLength: 2 }) }), { selector: (entry) => entry.itemId }),
    recounts: fc.array(fc.record({ subject: fc.constantFrom('a', 'b', 'x', 't1'), afterOrder: fc.nat(30) }), { maxLength: 3 }),
  })
  .map(({ looks, ...rest }) => ({
    ...rest,
    scans: looks.map(({ itemId, at, seenAtMs, stray }, index): StockTakeScan => ({ scanId: `scan-${index}`, tag: itemId ?? stray, standing: itemId === null ? 'unknown' : 'ours', itemId, at, seenAtMs, order: index + 1 })),
  }));

describe('for any stock-take', () => {
  test('expected = in place + moved meanwhile + misplaced + missing, each thing once, and foreign things apart', () => {
    fc.assert(
      fc.property(stockTakes, ({ lines, scans, elsewhere, recounts }) => {
        const { expected, inPlace, movedMeanwhile, differences } = stockTakeResult(lines, scans, elsewhere, recounts);
        const ofLines = differences.filter(({ kind }) => kind !== 'foreign').map(({ itemId }) => itemId);
        expect([...inPlace, ...movedMeanwhile, ...ofLines].sort()).toEqual(lines.map(({ itemId }) => itemId).sort());
        expect(expected).toBe(lines.length);
        const foreign = differences.filter(({ kind }) => kind === 'foreign').map(({ itemId }) => itemId);
        expect(foreign.filter((itemId) => lines.some((entry) => entry.itemId === itemId))).toEqual([]);
        expect(new Set(differences.map(({ id }) => id)).size).toBe(differences.length);
      }),
    );
  });

  test('the order in which scans and lines are given changes nothing, and neither does a scan that is given twice', () => {
    fc.assert(
      fc.property(stockTakes, ({ lines, scans, elsewhere, recounts }) => {
        const result = stockTakeResult(lines, scans, elsewhere, recounts);
        expect(stockTakeResult(lines.toReversed(), scans.toReversed(), elsewhere, recounts.toReversed())).toEqual(result);
        expect(stockTakeResult(lines, [...scans, ...scans], elsewhere, recounts)).toEqual(result);
      }),
    );
  });

  test('a last look at each thing where it is on record, and a recount of every tag without a thing, leave nothing open', () => {
    fc.assert(
      fc.property(stockTakes, ({ lines: any, scans, elsewhere, recounts }) => {
        const lines = any.map((entry) => ({ ...entry, lost: false }));
        const end = scans.length + 100;
        const looks = lines.map(({ itemId, way }, index): StockTakeScan => ({ scanId: `last-${index}`, tag: itemId, standing: 'ours', itemId, at: way[0]!, seenAtMs: 1_000, order: end + index }));
        const rest = ['a', 'b', 'c', 'd', 'e', 'x', 'y', 't1', 't2'].filter((subject) => !lines.some(({ itemId }) => itemId === subject)).map((subject) => ({ subject, afterOrder: end }));
        expect(stockTakeResult(lines, [...scans, ...looks], elsewhere, [...recounts, ...rest]).differences).toEqual([]);
      }),
    );
  });
});
