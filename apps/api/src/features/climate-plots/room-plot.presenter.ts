import type { RoomPlotData } from '#application';
import { render, say, type Language, type Message } from '#care';
import type { Plot, PlotPanel } from '#climate';
import { airPanels, type Say } from './air-panels.js';
import { notesOf, sentences, STANDING, tenths } from './plot-words.js';
import { wallClock, type WallClock } from '../../presenters/wall-clock.js';

export function presentRoomPlot(data: RoomPlotData, language: Language): Plot {
  const { room, air, reckonedAir, calibration, asOfMs, fromMs, toMs, everyMs } = data;
  const inWords: Say = (message) => render(message, language);
  const clock = wallClock(data.timeZone, language);
  const told = tellingOf(data, clock);
  const shown = { cutShort: air.cutShort, everyMs };
  return {
    title: inWords(say('{name} ({code}), air and water', { name: room.name, code: room.code })), description: sentences(told, inWords), language, fromMs, toMs, clock,
    timeLabel: inWords(say('Time on the clock in {zone}', { zone: clock.zone })), now: { atMs: asOfMs, label: inWords(say('as of {moment}', { moment: clock.moment(asOfMs) })) },
    emptyLabel: inWords(say('Nothing to show for this time')),
    panels: [...airPanels(air, reckonedAir, room.humidityCapPct, inWords), waterPanel(data, inWords), flowPanel(data, inWords)],
    notes: [sentences(told, inWords), ...[...notesOf(calibration, shown), CALIBRATED, STANDING].map(inWords)],
  };
}

const CALIBRATED = say('Published: moist air (ASHRAE Fundamentals 2017), the form of evaporation from a wet face (ASHRAE Transactions 1998, 104-1A), the curve of a dehumidifier (NREL). Our own calibration, which a network can change: the cap unless one is set for the room, how air reaches things, how far a reading reaches, and that no machine is counted above its label.');

function waterPanel({ waterKg, waterAheadKg }: RoomPlotData, inWords: Say): PlotPanel {
  const band = [...waterKg, ...waterAheadKg].some(({ high }) => high !== undefined) ? { bandLabel: inWords(say('up to this if thick things dry slowly')) } : {};
  return {
    label: inWords(say('Water left in what hangs here, kg')), atLeast: [0, 1], within: [0, Infinity],
    series: [{ label: inWords(say('reckoned')), style: 'reckoned', points: waterKg, ...band }, ...(waterAheadKg.length === 0 ? [] : [{ label: inWords(say('forecast')), style: 'forecast' as const, points: waterAheadKg, ...band }])],
  };
}

function flowPanel({ flows }: RoomPlotData, inWords: Say): PlotPanel {
  const ahead = [
    { label: inWords(say('evaporation, forecast')), points: flows.evaporationAhead },
    { label: inWords(say('taken by dehumidifiers, forecast')), points: flows.dehumidifiersAhead },
    { label: inWords(say('taken by outdoor air, forecast (below 0: brought in)')), points: flows.outdoorAirAhead },
  ].filter(({ points }) => points.length > 0);
  return {
    label: inWords(say('Water that moves, kg per hour')), atLeast: [0, 0.5],
    series: [{ label: inWords(say('evaporation, reckoned')), style: 'reckoned', points: flows.evaporation }, ...ahead.map((line) => ({ ...line, style: 'forecast' as const }))],
  };
}

/** The main numbers in words. */
function tellingOf({ room: { standing, humidityCapPct }, air, waterKg: water }: RoomPlotData, clock: WallClock): Message[] {
  const measured = air.by.some(({ tempC }) => tempC.length > 0);
  if (standing === null) return measured ? [say('The air has been measured; nothing is reckoned of this room yet.')] : [say('Nobody measured the air of this room in the time shown, and nothing is reckoned of it yet: write down what a thermometer with a hygrometer shows there.')];
  const { asOfMs, airTempC, relativeHumidityPct, things, waterKg, peakAtMs, peakRelativeHumidityPct } = standing;
  const mostKg = Math.max(waterKg, water.at(-1)?.high ?? waterKg);
  const values = { moment: clock.moment(asOfMs), tempC: tenths(airTempC), humidityPct: tenths(relativeHumidityPct), capPct: humidityCapPct };
  return [
    standing.measured ? say('As of {moment}: {tempC} °C and {humidityPct} % humidity, cap {capPct} %.', values) : say('As of {moment}: {tempC} °C and {humidityPct} % humidity, cap {capPct} %; the last reading is too old, so this is reckoned.', values),
    things === 0 ? say('Nothing hangs here.') : say('{things, plural, one {# thing hangs here} other {# things hang here}} with {kg} kg of water left, at most {mostKg} kg.', { things, kg: tenths(waterKg), mostKg: tenths(mostKg) }),
    say('The highest humidity of the three days to come is {humidityPct} %, on {moment}.', { humidityPct: tenths(peakRelativeHumidityPct), moment: clock.moment(peakAtMs) }),
    ...(standing.state === 'over-cap' || standing.state === 'mould-possible' ? [OVER_CAP[standing.state]] : []),
  ];
}

const OVER_CAP = {
  'over-cap': say('The air is above the cap: everything in the room is at risk. Hang nothing more, and bring the humidity down.'),
  'mould-possible': say('Air this damp lets mould grow even on things that are dry. Hang nothing more, and bring the humidity down.'),
};
