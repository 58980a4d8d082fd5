import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { SaxesParser } from 'saxes';
import { BAR_LOOKS, lanesSvg, loadSvg, type Bar, type LaneChart, type LoadChart, type LoadStep } from '#climate';

const HOUR_MS = 3_600_000;
const START_MS = Date.UTC(2026, 4, 9, 6);
const [LEFT, RIGHT, WIDTH] = [64, 856, 880];

interface Element { name: string; attributes: Record<string, string>; text: string }

/** Elements of a document with their attributes and text; throws where it is not well-formed XML. */
function read(svg: string): Element[] {
  const found: Element[] = [];
  const open: number[] = [];
  const parser = new SaxesParser();
  parser.on('error', (error) => { throw error; });
  parser.on('opentag', ({ name, attributes }) => { open.push(found.push({ name, attributes: attributes as Record<string, string>, text: '' }) - 1); });
  parser.on('text', (text) => { const at = open.at(-1); if (at !== undefined) found[at]!.text += text; });
  parser.on('closetag', () => { open.pop(); });
  parser.write(svg).close();
  return found;
}

const shared = { title: 'Rinse baths (RINSE), work by the plan', description: 'Three pieces of work.', language: 'en', fromMs: START_MS, toMs: START_MS + 8 * HOUR_MS, clock: { offsetMs: () => 0, day: () => '9 May' }, timeLabel: 'Time', notes: ['Advice.'], emptyLabel: 'Nothing', now: { atMs: START_MS + 3 * HOUR_MS, label: 'now, 9 May, 09:00' } };
const legend = { planned: 'still to come', 'in-work': 'in work', done: 'done', late: 'late', dropped: 'dropped', shaded: 'closed' };

function lanesOf(bars: Bar[], change: Partial<LaneChart> = {}): LaneChart {
  return { ...shared, label: 'Places', lanes: ['1', '2', '+1'], bars, shaded: [], legend, unnamed: (count) => `${count} without a name`, ...change };
}

function barOf(change: Partial<Bar> = {}): Bar {
  return { lane: 0, fromMs: START_MS + HOUR_MS, toMs: START_MS + 2 * HOUR_MS, look: 'planned', lines: ['BBBC-BBB-47', 'rinse'], told: 'BBBC-BBB-47, “rinse”, 07:00 to 08:00: still to come', ...change };
}

const loadOf = (steps: LoadStep[], change: Partial<LoadChart> = {}): LoadChart => ({ ...shared, label: 'm²', steps, legend: { used: 'used', available: 'there is', over: 'more than there is' }, ...change });
const x = (ms: number): number => LEFT + ((ms - START_MS) / (8 * HOUR_MS)) * (RIGHT - LEFT);
/** Rectangles of bars: outlined ones below the legend. */
const boxesOf = (svg: string) => read(svg).filter(({ name, attributes }) => name === 'rect' && attributes['stroke'] !== undefined && Number(attributes['height']) > 20).map(({ attributes }) => ({ x: Number(attributes['x']), y: Number(attributes['y']), width: Number(attributes['width']), height: Number(attributes['height']), dash: attributes['stroke-dasharray'] ?? 'none', stroke: attributes['stroke-width'] }));
const wordsOf = (svg: string): string[] => read(svg).filter(({ name }) => name === 'text').map(({ text }) => text);

/** Advances in DejaVu Sans in parts of the text size, of the letters of these tests; measured with its font file. */
const ADVANCE: Readonly<Record<string, number>> = { W: 0.989, ' ': 0.318, i: 0.278, m: 0.974 };

/** Whether every text lies inside the picture. */
function expectInside(svg: string): void {
  const [root, ...rest] = read(svg);
  const height = Number(root!.attributes['height']);
  for (const { name, attributes, text } of rest) {
    if (name !== 'text') continue;
    const width = [...text].reduce((sum, sign) => sum + (ADVANCE[sign] ?? 0.6), 0) * Number(attributes['font-size'] ?? 13);
    const at = Number(attributes['x']);
    const [from, to] = { start: [at, at + width], middle: [at - width / 2, at + width / 2], end: [at - width, at] }[attributes['text-anchor'] ?? 'start']!;
    expect(from).toBeGreaterThanOrEqual(0);
    expect(to).toBeLessThanOrEqual(WIDTH);
    expect(Number(attributes['y'])).toBeLessThan(height);
  }
}

const anyBar = fc.record({ lane: fc.integer({ min: -1, max: 4 }), fromMs: fc.integer({ min: START_MS - HOUR_MS, max: START_MS + 9 * HOUR_MS }), length: fc.integer({ min: -1, max: 5 * HOUR_MS }), look: fc.constantFrom(...BAR_LOOKS), lines: fc.array(fc.string({ unit: 'binary' }), { maxLength: 2 }), told: fc.string({ unit: 'binary' }) })
  .map(({ length, ...bar }): Bar => ({ ...bar, toMs: bar.fromMs + length }));
const anyStep = fc.record({ fromMs: fc.integer({ min: START_MS - HOUR_MS, max: START_MS + 9 * HOUR_MS }), length: fc.integer({ min: -1, max: HOUR_MS }), used: fc.double(), available: fc.double() }).map(({ length, ...step }): LoadStep => ({ ...step, toMs: step.fromMs + length }));

describe('a chart of rows', () => {
  test('is well-formed whatever is in its texts and times, and no text becomes markup', () => {
    fc.assert(fc.property(fc.array(anyBar, { maxLength: 12 }), fc.string({ unit: 'binary' }), (bars, text) => {
      const elements = read(lanesSvg(lanesOf(bars, { title: text, description: text, label: text, notes: [text], lanes: [text, '2', '3'], shaded: [{ fromMs: START_MS, toMs: START_MS + HOUR_MS }] })));
      for (const { name, attributes } of elements) {
        expect(['svg', 'title', 'desc', 'rect', 'text', 'g', 'line', 'path']).toContain(name);
        for (const value of Object.values(attributes)) expect(value).not.toMatch(/NaN|Infinity|undefined/);
      }
    }), { numRuns: 200 });
  });

  test('names that look like tags stand there as text', () => {
    const nasty = '<script>alert(1)</script>';
    const svg = lanesSvg(lanesOf([barOf({ told: nasty, toMs: START_MS + 8 * HOUR_MS, lines: [nasty, '"]]>&'] })], { title: `${nasty} (RINSE)` }));
    expect(read(svg).some(({ name }) => name === 'script')).toBe(false);
    expect(svg).not.toContain('<script');
    expect(wordsOf(svg)).toEqual(expect.arrayContaining([nasty, '"]]>&', `${nasty} (RINSE)`]));
  });

  test('has each bar where its time is, cut at the ends, and bars of a row never overlap', () => {
    fc.assert(fc.property(fc.array(fc.tuple(fc.integer({ min: 1, max: 40 }), fc.nat(20)), { minLength: 1, maxLength: 12 }), (gaps) => {
      let at = START_MS - HOUR_MS;
      const bars = gaps.map(([length, gap]) => {
        const fromMs = at + gap * 300_000;
        at = fromMs + length * 300_000;
        return barOf({ fromMs, toMs: at });
      });
      const boxes = boxesOf(lanesSvg(lanesOf(bars, { lanes: ['1'] })));
      const seen = bars.filter(({ fromMs, toMs }) => fromMs < START_MS + 8 * HOUR_MS && toMs > START_MS);
      expect(boxes).toHaveLength(seen.length);
      for (const [i, box] of boxes.entries()) {
        const half = Number(box.stroke) / 2;
        expect(box.x - half).toBeCloseTo(Math.max(LEFT, x(seen[i]!.fromMs)), 0);
        expect(box.x + box.width + half).toBeCloseTo(Math.min(RIGHT, x(seen[i]!.toMs)), 0);
        if (i > 0) expect(box.x - half + 0.2).toBeGreaterThanOrEqual(boxes[i - 1]!.x + boxes[i - 1]!.width + half);
      }
    }), { numRuns: 50 });
  });

  test('tells how work stands by outline, hatch or tick, and names each look', () => {
    const looks = BAR_LOOKS.map((look) => {
      const svg = lanesSvg(lanesOf([barOf({ look })], { lanes: ['1'] }));
      const [box] = boxesOf(svg);
      const strokes = read(svg).filter(({ name, attributes }) => name === 'path' && attributes['fill'] === 'none' && Number(/M([\d.]+)/.exec(attributes['d'] ?? '')?.[1]) > box!.x && attributes['stroke'] !== '#1b1f24').length;
      return `${box!.stroke} ${box!.dash} ${strokes}`;
    });
    expect(new Set(looks).size).toBe(BAR_LOOKS.length);
    expect(wordsOf(lanesSvg(lanesOf([])))).toEqual(expect.arrayContaining(['still to come', 'in work', 'done', 'late', 'dropped']));
  });

  test('a bar that is too short for its words has a number and is told below; one that is too short for that is counted', () => {
    const minutes = (from: number, length: number) => ({ fromMs: START_MS + from * 60_000, toMs: START_MS + (from + length) * 60_000 });
    const svg = lanesSvg(lanesOf([barOf({ ...minutes(0, 120), told: 'long' }), barOf({ ...minutes(130, 15), told: 'short one' }), barOf({ ...minutes(150, 2), told: 'a moment' })]));
    const words = wordsOf(svg);
    expect(words).toEqual(expect.arrayContaining(['BBBC-BBB-47', 'rinse', '1', '1: short one', '1 without a name']));
    expect(words.filter((word) => word === 'BBBC-BBB-47')).toHaveLength(1);
    // Whoever points at it is told all of it.
    expect(read(svg).filter(({ name }) => name === 'title').map(({ text }) => text)).toEqual(['Rinse baths (RINSE), work by the plan', 'long', 'short one', 'a moment']);
  });

  test('the present moment, closed hours and an empty time are drawn', () => {
    const svg = lanesSvg(lanesOf([], { shaded: [{ fromMs: START_MS + 4 * HOUR_MS, toMs: START_MS + 20 * HOUR_MS }] }));
    expect(wordsOf(svg)).toEqual(expect.arrayContaining(['Nothing', 'closed', 'now, 9 May, 09:00']));
    const shades = read(svg).filter(({ name, attributes }) => name === 'rect' && attributes['fill'] === '#e9ecef' && Number(attributes['height']) > 20);
    expect(shades.map(({ attributes }) => [Number(attributes['x']), Number(attributes['width'])])).toEqual([[460, 396]]);
    const now = read(svg).filter(({ name, attributes }) => name === 'line' && attributes['stroke-width'] === '1.2');
    expect(now.map(({ attributes }) => Number(attributes['x1']))).toEqual([x(START_MS + 3 * HOUR_MS)]);
    expect(wordsOf(lanesSvg(lanesOf([], { now: { atMs: START_MS - 1, label: 'before' } })))).not.toContain('before');
  });

  test('no text stands outside the picture, however long the names are', () => {
    const long = 'W'.repeat(200);
    const bars = Array.from({ length: 60 }, (_, i) => barOf({ lane: i % 3, fromMs: START_MS + Math.floor(i / 3) * 1_440_000, toMs: START_MS + Math.floor(i / 3) * 1_440_000 + 1_400_000, told: `${long} ${i}`, look: BAR_LOOKS[i % 5]! }));
    expectInside(lanesSvg(lanesOf(bars, { title: long, notes: [long], lanes: [long, '2', '3'] })));
    expectInside(loadSvg(loadOf([{ fromMs: START_MS, toMs: START_MS + HOUR_MS, used: 12345, available: 1 }], { title: long, notes: [long] })));
  });

  test('equal data give equal bytes', () => {
    expect(lanesSvg(lanesOf([barOf()]))).toBe(lanesSvg(lanesOf([barOf()])));
  });
});

describe('a chart of a load', () => {
  test('is well-formed whatever its numbers and texts are', () => {
    fc.assert(fc.property(fc.array(anyStep, { maxLength: 12 }), fc.string({ unit: 'binary' }), (steps, text) => {
      for (const { name, attributes } of read(loadSvg(loadOf(steps, { title: text, label: text, legend: { used: text, available: text, over: text } })))) {
        expect(['svg', 'title', 'desc', 'rect', 'text', 'g', 'line', 'path']).toContain(name);
        for (const value of Object.values(attributes)) expect(value).not.toMatch(/NaN|Infinity|undefined/);
      }
    }), { numRuns: 200 });
  });

  test('its steps stand at the numbers of the series, and overload alone is hatched', () => {
    fc.assert(fc.property(fc.array(fc.tuple(fc.integer({ min: 0, max: 30 }), fc.integer({ min: 0, max: 30 })), { minLength: 1, maxLength: 16 }), (pairs) => {
      const steps = pairs.map(([used, available], i): LoadStep => ({ fromMs: START_MS + i * 1_800_000, toMs: START_MS + (i + 1) * 1_800_000, used, available }));
      const elements = read(loadSvg(loadOf(steps)));
      const ticks = elements.filter(({ name, attributes }) => name === 'text' && attributes['text-anchor'] === 'end' && attributes['x'] === '56').map(({ attributes, text }) => ({ y: Number(attributes['y']) - 4, value: Number(text) }));
      const [low, high] = [ticks[0]!, ticks.at(-1)!];
      const valueAt = (y: number): number => low.value + ((y - low.y) / (high.y - low.y)) * (high.value - low.value);
      const drawn = (dash: string): number[] => elements.filter(({ name, attributes }) => name === 'path' && attributes['fill'] === 'none' && Number(attributes['stroke-width']) >= 1.8 && (attributes['stroke-dasharray'] ?? 'none') === dash).flatMap(({ attributes }) => [...attributes['d']!.matchAll(/V([\d.]+)H/g)].map((match) => valueAt(Number(match[1]))));
      const near = (found: number[], wanted: number[]) => {
        expect(found).toHaveLength(wanted.length);
        for (const [i, value] of wanted.entries()) expect(Math.abs(found[i]! - value)).toBeLessThan(0.05);
      };
      near(drawn('none'), pairs.map(([used]) => used));
      near(drawn('7 4'), pairs.map(([, available]) => available));
      const over = elements.filter(({ name, attributes }) => name === 'rect' && attributes['stroke'] === '#8a1c3b');
      const wanted = steps.filter(({ used, available }) => used > available);
      expect(over.filter(({ attributes }) => Number(attributes['y']) > 100)).toHaveLength(wanted.length);
      expect(elements.some(({ name, text }) => name === 'text' && text === 'more than there is')).toBe(wanted.length > 0);
    }), { numRuns: 60 });
  });

  test('time of which nothing is known stays empty', () => {
    const step = (hour: number): LoadStep => ({ fromMs: START_MS + hour * HOUR_MS, toMs: START_MS + (hour + 1) * HOUR_MS, used: 2, available: 4 });
    const lines = (steps: LoadStep[]) => read(loadSvg(loadOf(steps))).filter(({ name, attributes }) => name === 'path' && attributes['stroke-dasharray'] === '7 4');
    expect(lines([step(0), step(1)])).toHaveLength(1);
    expect(lines([step(0), step(3)])).toHaveLength(2);
    expect(wordsOf(loadSvg(loadOf([])))).toContain('Nothing');
  });
});
