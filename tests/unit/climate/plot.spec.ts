import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { SaxesParser } from 'saxes';
import { plotSvg, PLOT_STYLES, type Plot, type PlotPanel, type PlotSeries } from '#climate';

const HOUR_MS = 3_600_000;
const START_MS = Date.UTC(2026, 4, 9, 6);

function plotOf(panels: PlotPanel[], more: Partial<Plot> = {}): Plot {
  return { title: 'Drying room', description: 'Air of the room', language: 'en', fromMs: START_MS, toMs: START_MS + 24 * HOUR_MS, clock: { offsetMs: () => 0, day: () => '9 May' }, timeLabel: 'Time', emptyLabel: 'No readings', panels, notes: [], ...more };
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
    const drawn = () => plotSvg(plotOf([{ label: 'Humidity, %', series: [seriesOf([60, 62, 70])], limits: [{ label: 'cap', value: 75 }] }]));
    expect(drawn()).toBe(drawn());
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
    const labels = textsOf(plotSvg(plotOf([{ label: 'Humidity, %', series: [seriesOf([50])] }], { clock: { offsetMs: () => 5.5 * HOUR_MS, day: () => '10 May' } })));
    const hours = labels.filter((label) => /^\d\d:\d\d$/.test(label));
    expect(hours.length).toBeGreaterThan(4);
    expect(hours.every((label) => label.endsWith(':00'))).toBe(true);
    expect(labels).toContain('10 May');
  });

  test('several forecasts in one panel differ in their dashes, several sensors in their marks', () => {
    const series = (style: PlotSeries['style']): PlotSeries[] => [1, 2, 3].map((n) => seriesOf([n, n + 1], { style, label: `${style} ${n}` }));
    const dashes = linesOf(plotSvg(plotOf([{ label: 'kg/h', series: series('forecast') }]))).map(({ attributes }) => attributes['stroke-dasharray']);
    expect(new Set(dashes).size).toBe(3);
    const marked = read(plotSvg(plotOf([{ label: '°C', series: series('measured') }])));
    // Two points of each and one in the legend; the background is a rectangle, too.
    expect(marked.filter(({ name }) => name === 'circle')).toHaveLength(3);
    expect(marked.filter(({ name }) => name === 'rect')).toHaveLength(1 + 3);
    expect(marked.filter(({ name, attributes }) => name === 'path' && attributes['d']!.endsWith('Z'))).toHaveLength(3);
  });

  test('what is not believed does not move the axis: outside it stands at its edge', () => {
    const believed = seriesOf([20, 21]);
    const ticks = (series: PlotSeries[]) => textsOf(plotSvg(plotOf([{ label: '°C', series }]))).filter((text) => /^[\d.]+$/.test(text));
    expect(ticks([believed, seriesOf([20, 70], { style: 'doubted', atEdge: true })])).toEqual(ticks([believed]));
    const rings = read(plotSvg(plotOf([{ label: '°C', series: [believed, seriesOf([20, 70], { style: 'doubted', atEdge: true })] }]))).filter(({ attributes }) => attributes['r'] === '4');
    const [, , outside] = rings;
    const top = Math.min(...read(plotSvg(plotOf([{ label: '°C', series: [believed] }]))).filter(({ name, attributes }) => name === 'line' && attributes['stroke'] === '#dfe3e8').map(({ attributes }) => Number(attributes['y1'])));
    expect(Number(outside!.attributes['cy'])).toBeLessThanOrEqual(top + 18);
  });

  test('the words at the present moment stay inside the picture, wherever that is', () => {
    for (const hour of [0, 12, 24]) {
      const words = read(plotSvg(plotOf([{ label: '°C', series: [seriesOf([20])] }], { now: { atMs: START_MS + hour * HOUR_MS, label: 'as of 9 May, 14:06' } }))).find(({ text }) => text === 'as of 9 May, 14:06')!;
      const [x, half] = [Number(words.attributes['x']), 75];
      const [left, right] = { start: [x, x + 2 * half], middle: [x - half, x + half], end: [x - 2 * half, x] }[words.attributes['text-anchor']!]!;
      expect(left).toBeGreaterThanOrEqual(0);
      expect(right).toBeLessThanOrEqual(880);
    }
  });

  test('a long title takes more than one line and pushes the panels down', () => {
    const panel = { label: 'Humidity, %', series: [seriesOf([50])] };
    const heightOf = (title: string) => Number(read(plotSvg(plotOf([panel], { title })))[0]!.attributes['height']);
    const title = 'Upper hall of the old school by the river, '.repeat(4).trim();
    expect(heightOf(title)).toBeGreaterThan(heightOf('Hall'));
    const lines = textsOf(plotSvg(plotOf([panel], { title }))).filter((text) => text.includes('school') || text.includes('river'));
    expect(lines.length).toBeGreaterThan(1);
    expect(lines.join(' ')).toBe(title);
  });

  test('a band that history and forecast share is named once', () => {
    const points = [{ atMs: START_MS, value: 5, high: 8 }, { atMs: START_MS + HOUR_MS, value: 4, high: 7 }];
    const svg = plotSvg(plotOf([{ label: 'kg', series: [{ label: 'reckoned', style: 'reckoned', points, bandLabel: 'at most' }, { label: 'forecast', style: 'forecast', points, bandLabel: 'at most' }] }]));
    expect(textsOf(svg).filter((text) => text === 'at most')).toHaveLength(1);
  });
});
