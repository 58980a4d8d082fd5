import type { ItemPlotData, ItemRoomData } from '#application';
import { render, say, type Language, type Message } from '#care';
import type { CalibrationValues, Plot, PlotPanel } from '#climate';
import { formatTagCode } from '#custody';
import { airPanels, type Say } from './air-panels.js';
import { hundredths, notesOf, sentences, STANDING, tenths } from './plot-words.js';
import { wallClock, type WallClock } from '../../presenters/wall-clock.js';

const HOUR_MS = 3_600_000;

export function presentItemPlot(data: ItemPlotData, language: Language): Plot {
  const inWords: Say = (message) => render(message, language);
  const clock = wallClock(data.timeZone, language);
  const { inRoom, calibration } = data;
  const told = inRoom === null ? [NOTHING_RECKONED] : tellingOf(inRoom, clock, calibration);
  const shared = { language, clock, description: sentences(told, inWords), timeLabel: inWords(say('Time on the clock in {zone}', { zone: clock.zone })), emptyLabel: inWords(say('Nothing to show for this time')) };
  const tag = formatTagCode(data.tagCode);
  if (inRoom === null) {
    const panel = { label: inWords(WATER), series: [], atLeast: [0, 1] as const };
    return { ...shared, title: inWords(say('Thing {tag}', { tag })), fromMs: data.nowMs - HOUR_MS, toMs: data.nowMs, panels: [panel], notes: [...told, STANDING].map(inWords) };
  }
  const { room, air, reckonedAir, asOfMs, fromMs, toMs, climate: { standing } } = inRoom;
  const label = standing.takenAtMs === null ? say('as of {moment}', { moment: clock.moment(asOfMs) }) : say('taken down {moment}', { moment: clock.moment(asOfMs) });
  return {
    ...shared, title: inWords(say('Thing {tag} in {name} ({code})', { tag, name: room.name, code: room.code })), fromMs, toMs, now: { atMs: asOfMs, label: inWords(label) },
    panels: [waterPanel(inRoom, inWords, calibration), ...clockPanel(inRoom, inWords, calibration), ...airPanels(air, reckonedAir, room.humidityCapPct, inWords)],
    notes: [shared.description, ...[...notesOf(calibration, { cutShort: air.cutShort, everyMs: inRoom.everyMs }), ...clockNotes(inRoom, calibration), STANDING].map(inWords)],
  };
}

const NOTHING_RECKONED = say('Nothing is reckoned of this thing: it has not hung in a drying room, or was hung a moment ago and nobody has read that room yet.');
const WATER = say('Water left above what counts as dry, kg');

function fittedBand(build: ItemRoomData['climate']['standing']['build'], times: number): Message {
  return build === 'thin' ? say('80 % interval of the speed that weighings have fitted') : say('faster as fitted by weighings (80 %), or up to {times} times slower: thick', { times });
}

function waterPanel({ waterKg, waterAheadKg, weighedKg, doubtedKg, climate: { standing } }: ItemRoomData, inWords: Say, { thinErrorFraction, thickSlowdownMax }: CalibrationValues): PlotPanel {
  const percent = Math.round(thinErrorFraction * 100);
  const bandLabel = inWords(standing.speedBand !== undefined ? fittedBand(standing.build, thickSlowdownMax) : standing.build === 'thin' ? say('if it dries {percent} % faster or slower', { percent }) : say('{percent} % faster, or up to {times} times slower: it is thick', { percent, times: thickSlowdownMax }));
  return {
    label: inWords(WATER), atLeast: [0, 0.1], within: [0, Infinity],
    series: [
      { label: inWords(say('reckoned')), style: 'reckoned', points: waterKg, bandLabel },
      ...(waterAheadKg.length === 0 ? [] : [{ label: inWords(say('forecast')), style: 'forecast' as const, points: waterAheadKg, bandLabel }]),
      ...(weighedKg.length === 0 ? [] : [{ label: inWords(say('weighed')), style: 'weighed' as const, points: weighedKg }]),
      ...(doubtedKg.length === 0 ? [] : [{ label: inWords(say('in doubt, not counted (outside the axis: at its edge)')), style: 'doubted' as const, points: doubtedKg, atEdge: true }]),
    ],
  };
}

function clockPanel({ clockH, clockAheadH }: ItemRoomData, inWords: Say, values: CalibrationValues): PlotPanel[] {
  if (clockH === null) return [];
  const [amberH, redH] = [values.amberDose, values.redDose].map((dose) => Math.round(dose * values.mouldHoursAtReference * 10) / 10) as [number, number];
  const bandLabel = inWords(say('as the sources span: {shortest} to {longest} h', { shortest: values.mouldHoursShortest, longest: values.mouldHoursLongest }));
  return [{
    label: inWords(say('Mould clock, hours used of {hours} h at 22 °C and soaked', { hours: redH })), atLeast: [0, redH], within: [0, 2 * redH],
    series: [{ label: inWords(say('reckoned')), style: 'reckoned', points: clockH, bandLabel }, ...(clockAheadH.length === 0 ? [] : [{ label: inWords(say('forecast')), style: 'forecast' as const, points: clockAheadH, bandLabel }])],
    limits: [{ label: inWords(say('amber at {hours} h', { hours: amberH })), value: amberH }, { label: inWords(say('red at {hours} h', { hours: redH })), value: redH }],
  }];
}

/** The main numbers in words. */
function tellingOf({ climate: { standing }, weighedKg }: ItemRoomData, clock: WallClock, { mouldHoursAtReference }: CalibrationValues): Message[] {
  const { clock: mould, waterKg, slowWaterKg, asOfMs, takenAtMs } = standing;
  const values = { moment: clock.moment(takenAtMs ?? asOfMs), kg: hundredths(waterKg), mostKg: hundredths(Math.max(waterKg, slowWaterKg)), count: weighedKg.length };
  return [
    ...(takenAtMs === null ? [] : [say('It hangs there no longer.')]),
    say('As of {moment} about {kg} kg of water are left, at most {mostKg} kg; {count, plural, =0 {nobody weighed it in the time shown} one {# weighing is shown} other {# weighings are shown}}.', values),
    ...dryWords(standing, clock),
    ...(mould === null ? [say('Mould cannot live on it, so it has no clock.')] : [say('Of its {hours} h of the mould clock {used} h are used.', { hours: mouldHoursAtReference, used: tenths(mould.dose * mouldHoursAtReference) })]),
    ...(mould?.state === 'red' ? [say('The time that the rule of practice allows is used up: look for mould before it is handled, with a respirator, gloves and eye protection.')] : []),
  ];
}

function dryWords({ takenAtMs, asOfMs, dry, dryEarliestMs, dryLatestMs }: ItemRoomData['climate']['standing'], clock: WallClock): Message[] {
  if (takenAtMs !== null) return [];
  if (dryLatestMs !== null && dryLatestMs <= asOfMs && !dry) return [say('It should have been dry before, and takes water up from the damp air again: bring the humidity down.')];
  if (dry) return [say('By reckoning it is dry. Weigh and touch it before it is taken down.')];
  if (dryEarliestMs === null) return [say('In this air it will not be dry within three days. Lower the humidity, or freeze it if that is allowed.')];
  if (dryEarliestMs <= asOfMs) return [dryLatestMs === null ? say('It may be dry already, perhaps not within three days: weigh it.') : say('It may be dry already, and should be by {latest}: weigh it.', { latest: clock.moment(dryLatestMs) })];
  const earliest = clock.moment(dryEarliestMs);
  return [dryLatestMs === null ? say('It may be dry from {earliest} on, perhaps not within three days.', { earliest }) : say('It should be dry between {earliest} and {latest}.', { earliest, latest: clock.moment(dryLatestMs) })];
}

function clockNotes({ climate: { standing: { clock } } }: ItemRoomData, values: CalibrationValues): Message[] {
  if (clock === null) return [];
  const percent = Math.round(clock.assumedShare * 100);
  return [
    say('The mould clock is a rule of practice and no forecast of when mould starts: the agencies’ “dry or freeze within 24 to 48 hours”. That {hours} h at 22 °C and soaked use it up, and the span of {shortest} to {longest} h, are our own calibration; how temperature and humidity speed it up was found on wood (Hukka and Viitanen 1999).', { hours: values.mouldHoursAtReference, shortest: values.mouldHoursShortest, longest: values.mouldHoursLongest }),
    ...(percent > 0 ? [say('{percent} % of its clock is assumed because nobody measured; such time counts on the cautious side.', { percent })] : []),
  ];
}
