import { readFile, writeFile } from 'node:fs/promises';
import { expect, test } from '@jest/globals';
import { plotSvg, type Plot } from '#climate';
import { modelledG, SHIRTS } from './shirts.js';

/** The source counts minutes; the plot starts at ten o'clock of an invented morning. */
const START_MS = Date.UTC(2026, 4, 10, 10);
const MINUTE_MS = 60_000;
const FILE = new URL('./shirts.svg', import.meta.url);

function plotOfShirts(): Plot {
  return {
    title: 'Two shirts drying on an outdoor line',
    description: 'Weighed and reckoned mass of a cotton and a merino shirt every quarter of an hour; the two agree within 4 g.',
    language: 'en',
    fromMs: START_MS - 5 * MINUTE_MS,
    toMs: START_MS + 95 * MINUTE_MS,
    clock: { offsetMs: () => 0, day: () => '' },
    timeLabel: 'Minutes counted from 10:00',
    emptyLabel: 'Nothing to show',
    panels: SHIRTS.map((shirt) => ({
      label: `${shirt.name} shirt, g`,
      series: [
        { label: 'reckoned', style: 'reckoned', bandLabel: 'reckoned within 4 g', points: Array.from({ length: 91 }, (_, minute) => modelledG(shirt, minute)).map((value, minute) => ({ atMs: START_MS + minute * MINUTE_MS, value, low: value - 4, high: value + 4 })) },
        { label: 'weighed', style: 'weighed', points: shirt.measuredG.map((value, quarter) => ({ atMs: START_MS + quarter * 15 * MINUTE_MS, value })) },
      ],
      limits: [{ label: 'after tumble drying', value: shirt.dryG }],
    })),
    notes: [
      'Weighed: an informal published measurement (How laundry dries, tedpiotrowski.svbtle.com). Air and wind are not stated there.',
      'Reckoned: constant rate, then falling rate. Rate, critical moisture and resting moisture are fitted to these weighings; the shape is the test.',
    ],
  };
}

test.each(SHIRTS)('the $name shirt is reckoned within 4 g of every weighing', (shirt) => {
  shirt.measuredG.forEach((measured, quarter) => expect(Math.abs(modelledG(shirt, quarter * 15) - measured)).toBeLessThanOrEqual(4));
});

test('the plot of both shirts that is kept beside this test is the one that is drawn now', async () => {
  const drawn = plotSvg(plotOfShirts());
  if (process.env['WRITE_PLOTS'] === '1') await writeFile(FILE, drawn);
  expect(await readFile(FILE, 'utf8')).toBe(drawn);
});
