import type { PlotAir, ReckonedAir } from '#application';
import { say, type Message } from '#care';
import type { PlotPanel, PlotPoint, PlotSeries } from '#climate';

export type Say = (message: Message) => string;

/** The two panels of the air of a room: temperature, and humidity with its cap. */
export function airPanels(air: PlotAir, reckoned: ReckonedAir, humidityCapPct: number, inWords: Say): PlotPanel[] {
  return [
    {
      label: inWords(say('Air temperature, °C')), atLeast: [10, 25],
      series: seriesOf(air, air.by.map(({ tempC }) => tempC), { doubted: air.doubtedTempC, reckoned: reckoned.tempC, ahead: reckoned.tempAheadC, gapMs: reckoned.longestGapMs }, inWords),
    },
    {
      label: inWords(say('Relative humidity of the air, %')), atLeast: [40, 80], within: [0, 100],
      series: seriesOf(air, air.by.map(({ humidityPct }) => humidityPct), { doubted: air.doubtedHumidityPct, reckoned: reckoned.humidityPct, ahead: reckoned.humidityAheadPct, gapMs: reckoned.longestGapMs }, inWords),
      limits: [{ label: inWords(say('cap of the room, {percent} %', { percent: humidityCapPct })), value: humidityCapPct }],
    },
  ];
}

interface AirLines {
  doubted: PlotPoint[];
  reckoned: PlotPoint[];
  ahead: PlotPoint[];
  gapMs: number;
}

function seriesOf(air: PlotAir, measured: readonly PlotPoint[][], { doubted, reckoned, ahead, gapMs }: AirLines, inWords: Say): PlotSeries[] {
  return [
    ...air.by.map(({ sensorCode }, index): PlotSeries => ({ label: inWords(measuredLabel(air, sensorCode)), style: 'measured', points: measured[index] ?? [], longestGapMs: air.longestGapMs })),
    ...(reckoned.length === 0 ? [] : [{ label: inWords(say('reckoned, nobody measured')), style: 'reckoned' as const, points: reckoned, longestGapMs: gapMs }]),
    ...(ahead.length === 0 ? [] : [{ label: inWords(say('forecast')), style: 'forecast' as const, points: ahead }]),
    ...(doubted.length === 0 ? [] : [{ label: inWords(say('in doubt, not counted (outside the axis: at its edge)')), style: 'doubted' as const, points: doubted, atEdge: true }]),
  ];
}

function measuredLabel({ merged }: PlotAir, sensorCode: string | null): Message {
  if (merged) return say('measured, many sensors');
  return sensorCode === null ? say('measured by hand') : say('measured, sensor {code}', { code: sensorCode });
}
