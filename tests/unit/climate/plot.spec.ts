import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { SaxesParser } from 'saxes';
import { plotSvg, PLOT_STYLES, type Plot, type PlotPanel, type PlotSeries } from '#climate';

const HOUR_MS = 3_600_000;
const START_MS = Date.UTC(2026, 4, 9, 6);

function plotOf(panels: PlotPanel[], more: Partial<Plot> = {}): Plot {
  return { title: 'Drying room', description: 'Air of the room', language: 'en', fromMs: START_MS, toMs: START_MS + 24 * HOUR_MS, timeZone: 'UTC', timeLabel: 'Time', emptyLabel: 'No readings', panels, notes: [], ...more };
}

function seriesOf(values: number[], more: Partial<PlotSeries> = {}): PlotSeries {
  return { label: 'humidity', style: 'measured', points: values.map((value, hour) => ({ atMs: START_MS + hour * HOUR_MS, value })), ...more };
}

/** Elements of a document with their attributes and text; throws where it is not well-formed XML. */
function read(svg: string): { name: string; attributes: Record<string, string>; text: string }[] {
  const found: { name: string; attributes: Record<string, string>; text: string }[] = [];
  const open: number[] = [];
  const parser = new SaxesParser();
  parser.on('error', (error) => { throw error; });
  parser.on('opentag', ({ name, attributes }) => { open.push(found.push({ name, attributes: attributes as Record<string, string>, text: '' }) - 1); });
  parser.on('text', (text) => { const at = open.at(-1); if (at !== undefined) found[at]!.text += text; });
  parser.on('closetag', () => { open.pop(); });
  parser.write(svg).close();
  return found;
}

const textsOf = (svg: string): string[] => read(svg).filter(({ name }) => name === 'text').map(({ text }) => text);
const linesOf = (svg: string) => read(svg).filter(({ name, attributes }) => name === 'path' && attributes['fill'] === 'none' && attributes['stroke-width'] === '2');

const anyPanel = fc.record({
  label: fc.string({ unit: 'binary' }),
  series: fc.array(fc.record({
    label: fc.string(),
    style: fc.constantFrom(...PLOT_STYLES),
    points: fc.array(fc.record({ atMs: fc.integer({ min: START_MS - HOUR_MS, max: START_MS + 30 * HOUR_MS }), value: fc.double(), low: fc.double(), high: fc.double() }), { maxLength: 30 }),
    longestGapMs: fc.integer({ min: 1, max: 10 * HOUR_MS }),
    bandLabel: fc.string(),
  }), { maxLength: 4 }),
  limits: fc.array(fc.record({ label: fc.string(), value: fc.double({ min: -1e6, max: 1e6, noNaN: true }) }), { maxLength: 3 }),
});

describe('a plot', () => {
  test('is well-formed whatever is in its texts and numbers, and no text becomes markup', () => {
    fc.assert(fc.property(fc.array(anyPanel, { maxLength: 3 }), fc.string({ unit: 'binary' }), (panels, title) => {
      const elements = read(plotSvg(plotOf(panels, { title, notes: [title] })));
      for (const { name } of elements) expect(['svg', 'title', 'desc', 'rect', 'text', 'g', 'line', 'path', 'circle']).toContain(name);
      for (const { attributes } of elements) for (const value of Object.values(attributes)) expect(value).not.toMatch(/NaN|Infinity|undefined/);
    }), { numRuns: 200 });
  });

  test('text that looks like a tag stands there as text', () => {
    const svg = plotSvg(plotOf([{ label: '<script>alert(1)</script>', series: [seriesOf([50], { label: '"]]>&' })] }], { title: '</title><script/>' }));
    expect(read(svg).some(({ name }) => name === 'script')).toBe(false);
    expect(textsOf(svg)).toEqual(expect.arrayContaining(['<script>alert(1)</script>', '"]]>&', '</title><script/>']));
  });

  test('equal data give equal bytes', () => {
    const plot = plotOf([{ label: 'Humidity, %', series: [seriesOf([60, 62, 70])], limits: [{ label: 'cap', value: 75 }] }]);
    expect(plotSvg(plot)).toBe(plotSvg(structuredClone(plot)));
  });

  test('higher values stand higher and later ones further right', () => {
    fc.assert(fc.property(fc.array(fc.integer({ min: 0, max: 100 }), { minLength: 2, maxLength: 20 }), (values) => {
      const dots = read(plotSvg(plotOf([{ label: 'Humidity, %', series: [seriesOf(values)] }]))).filter(({ name }) => name === 'circle').map(({ attributes }) => ({ x: Number(attributes['cx']), y: Number(attributes['cy']) }));
      // The legend comes first and has a mark of its own.
      const marks = dots.slice(-values.length);
      for (let i = 1; i < marks.length; i += 1) {
        expect(marks[i]!.x).toBeGreaterThan(marks[i - 1]!.x);
        if (values[i]! > values[i - 1]!) expect(marks[i]!.y).toBeLessThan(marks[i - 1]!.y);
        if (values[i]! < values[i - 1]!) expect(marks[i]!.y).toBeGreaterThan(marks[i - 1]!.y);
      }
    }), { numRuns: 50 });
  });

  test('a line is not drawn across a gap in which nobody measured', () => {
    const points = [0, 1, 9, 10].map((hour) => ({ atMs: START_MS + hour * HOUR_MS, value: 60 + hour }));
    const at = (longestGapMs: number) => linesOf(plotSvg(plotOf([{ label: 'Humidity, %', series: [{ label: 'measured', style: 'measured', points, longestGapMs }] }])));
    expect(at(2 * HOUR_MS)).toHaveLength(2);
    expect(at(9 * HOUR_MS)).toHaveLength(1);
  });

  test('a panel without data says so', () => {
    expect(textsOf(plotSvg(plotOf([{ label: 'Humidity, %', series: [seriesOf([])] }])))).toContain('No readings');
  });

  test('what is uncertain shows its band and names it', () => {
    const points = [{ atMs: START_MS, value: 5, low: 3, high: 8 }, { atMs: START_MS + HOUR_MS, value: 4, low: 2, high: 7 }];
    const svg = plotSvg(plotOf([{ label: 'Water left, kg', series: [{ label: 'forecast', style: 'forecast', points, bandLabel: 'likely range' }] }]));
    expect(textsOf(svg)).toContain('likely range');
    expect(read(svg).filter(({ name, attributes }) => name === 'path' && attributes['fill-opacity'] === '0.16')).toHaveLength(1);
  });

  test('the limits are in sight even when every reading is far below', () => {
    const svg = plotSvg(plotOf([{ label: 'Humidity, %', series: [seriesOf([40, 41])], limits: [{ label: 'cap', value: 75 }] }]));
    const [limit] = read(svg).filter(({ name, attributes }) => name === 'line' && attributes['stroke-dasharray'] === '2 3' && attributes['x1'] === '64' && attributes['x2'] === '856');
    expect(Number(limit!.attributes['y1'])).toBeGreaterThan(0);
    expect(textsOf(svg)).toContain('cap');
  });

  test('ticks fall on whole hours of the clock on the wall, also where it is half an hour off', () => {
    const labels = textsOf(plotSvg(plotOf([{ label: 'Humidity, %', series: [seriesOf([50])] }], { timeZone: 'Asia/Kolkata' })));
    const hours = labels.filter((label) => /^\d\d:\d\d$/.test(label));
    expect(hours.length).toBeGreaterThan(4);
    expect(hours.every((label) => label.endsWith(':00'))).toBe(true);
  });
});
