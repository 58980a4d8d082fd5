import type { z } from 'zod';
import type { ClimateReadingBody } from '#contracts';
import { KIND_WORDS, type Alarm } from '../driver/alarm-rounds.js';
import type { Book } from '../driver/book.js';
import type { ClimateReport } from '../driver/climate-day.js';
import type { LoggedRoom, ReadingCount } from '../driver/measuring.js';
import type { RoomState } from '../driver/reckoning.js';
import { agreementLines } from './agreement.js';

type Reading = z.output<typeof ClimateReadingBody>;

/** What was measured, what the program made of it, and whether it agrees with the played world. */
export interface ClimateAccount {
  lines: string[];
  /** Sentences about readings that were lost or doubled; empty when all is there. */
  faults: string[];
}

/** The rooms of all networks, as the API answers for them at the end of the day. */
export async function climateAccount(reports: ReadonlyMap<Book, ClimateReport>): Promise<ClimateAccount> {
  const account: ClimateAccount = { lines: ['--- air and water ---'], faults: [] };
  for (const [book, report] of reports) {
    const alarms = await report.alarms.all();
    for (const room of report.measuring.rooms) {
      const kept = await book.api.list<Reading>(`/v1/incidents/${book.incidentId}/readings?sensorId=${room.sensorId}`);
      account.lines.push(...roomLines(room, kept, alarms.filter((alarm) => isOf(room, alarm)), report.atEight.get(room.roomId)));
      account.faults.push(...readingFaults(room, kept));
    }
    const { freezers, weather } = report.measuring;
    account.lines.push(`  freezers: readings ${countWords(freezers)}`, ...alarms.filter(({ subject }) => subject.kind === 'freezer').map(alarmWords), `  weather: ${weather.observed} observations and ${weather.forecast} hours of forecasts kept, ${weather.refused} refused`);
  }
  account.lines.push(...agreementLines([...reports.values()].flatMap(({ compared }) => compared), [...reports.values()].flatMap(({ taken }) => taken)));
  return account;
}

function isOf({ roomId, site }: LoggedRoom, { subject }: Alarm): boolean {
  return subject.id === roomId || site.dryingRooms.some((room) => room.id === roomId && room.dehumidifiers.some(({ id }) => id === subject.id));
}

function roomLines(room: LoggedRoom, kept: readonly Reading[], alarms: readonly Alarm[], atEight: RoomState | undefined): string[] {
  const believed = kept.filter(({ state, relativeHumidityPct }) => state === 'accepted' && relativeHumidityPct !== null);
  const peak = believed.reduce<Reading | null>((highest, one) => (highest === null || (one.relativeHumidityPct ?? 0) > (highest.relativeHumidityPct ?? 0) ? one : highest), null);
  return [
    `${room.site.name}, ${room.roomName.toLowerCase()}: readings ${countWords(room.count)}`,
    ...(peak === null ? [] : [`  dampest: ${peak.relativeHumidityPct} % at ${clock(peak.measuredAt)}`]),
    ...(alarms.length === 0 ? ['  alarms: none'] : alarms.map(alarmWords)),
    `  at 20:00: ${atEightWords(atEight)}`,
  ];
}

function countWords({ accepted, doubtful, duplicate, conflicting, refused, late, sentOnceMore }: ReadingCount): string {
  return `kept ${accepted}, in doubt ${doubtful}, there already ${duplicate}, conflicting ${conflicting}, refused ${refused}; late ${late}${sentOnceMore === 0 ? '' : `; batches sent once more ${sentOnceMore}`}`;
}

function alarmWords({ kind, subject, raisedAt, acknowledged, clearedAt }: Alarm): string {
  const seen = acknowledged === null ? 'seen by nobody' : `seen ${clock(acknowledged.at)} by ${acknowledged.byName ?? 'a lead'}`;
  return `  alarm: ${subject.name.toLowerCase()}, ${KIND_WORDS[kind]}: raised ${clock(raisedAt)}, ${seen}, ${clearedAt === null ? 'still open' : `cleared ${clock(clearedAt)}`}`;
}

function atEightWords(state: RoomState | undefined): string {
  if (!state || state.climate === null) return 'not reckoned';
  const { climate } = state;
  return `${climate.relativeHumidityPct.toFixed(1)} %, ${climate.airTempC.toFixed(1)} C, ${climate.things} things with ${climate.waterLeftKg.toFixed(1)} kg of water to leave, ${climate.clocks.amber} clocks amber and ${climate.clocks.red} red. ${climate.statement}`;
}

/** Every moment that the logger measured is kept exactly once, whatever was sent late, twice, or again after a kill. */
function readingFaults({ roomName, logger }: LoggedRoom, kept: readonly Reading[]): string[] {
  const moments = kept.map(({ measuredAt }) => new Date(measuredAt).toISOString());
  const missing = [...logger.measured].filter((moment) => !moments.includes(moment));
  const doubled = moments.filter((moment, at) => moments.indexOf(moment) !== at);
  const strange = moments.filter((moment) => !logger.measured.has(moment));
  return [
    ...(missing.length === 0 ? [] : [`${roomName}: readings lost: ${missing.length}, the first of ${missing[0]}`]),
    ...(doubled.length === 0 ? [] : [`${roomName}: readings there twice: ${doubled.length}, the first of ${doubled[0]}`]),
    ...(strange.length === 0 ? [] : [`${roomName}: readings that nobody measured: ${strange.length}, the first of ${strange[0]}`]),
  ];
}

/** Day and hour; the day of the flood's morning is left out. */
function clock(instant: string): string {
  return instant.startsWith('2026-05-09') ? instant.slice(11, 16) : `${instant.slice(11, 16)} the day after`;
}
