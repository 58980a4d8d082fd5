import type { z } from 'zod';
import type { ReadingsReportBody, SensorBody, WeatherReportBody } from '#contracts';
import { eachOf } from '../api-client.js';
import { DAY, MEASURING, PLAY, WEATHER } from '../calibration.js';
import { chestTempC, FREEZER_ROUNDS, trailerTempC } from '../world/freezers.js';
import { asTable, Logger, LOGGERS, type LoggerRow } from '../world/loggers.js';
import { CODES, NETWORK_OF_SITE } from '../world/region.js';
import type { TrueRoom } from '../world/true-room.js';
import type { SiteCode } from '../world/types.js';
import { asShown, forecastOf, weatherAt, type Outdoors } from '../world/weather.js';
import type { Book, Site } from './book.js';

type ReadingsReport = z.output<typeof ReadingsReportBody>;

const MINUTE_MS = 60_000;
const HOUR_MS = 60 * MINUTE_MS;
const TRAILER_LOGGER = 'COLD-1';

/** What the API answered about readings of one place, counted. */
export interface ReadingCount {
  accepted: number;
  doubtful: number;
  duplicate: number;
  conflicting: number;
  refused: number;
  late: number;
  /** Batches that were sent once more because no definite answer had come. */
  sentOnceMore: number;
}

const NONE: ReadingCount = { accepted: 0, doubtful: 0, duplicate: 0, conflicting: 0, refused: 0, late: 0, sentOnceMore: 0 };

/** A room with its logger, and what became of the readings. */
export interface LoggedRoom {
  site: Site;
  roomId: string;
  roomName: string;
  sensorId: string;
  logger: Logger;
  truth: TrueRoom;
  count: ReadingCount;
}

/** Everything that measures air for one network: loggers of rooms, thermometers of freezers, the weather of its sites. */
export class Measuring {
  readonly rooms: LoggedRoom[] = [];
  readonly freezers: ReadingCount = { ...NONE };
  readonly weather = { observed: 0, forecast: 0, refused: 0 };
  private trailerSensor = false;

  constructor(
    private readonly book: Book,
    private readonly seed: number,
    private readonly truths: ReadonlyMap<SiteCode, TrueRoom>,
  ) {}

  /** Registers the loggers before the doors open. */
  async begin(): Promise<void> {
    for (const kind of LOGGERS.filter(({ site }) => NETWORK_OF_SITE[site] === this.book.network)) {
      const site = this.book.site(kind.site);
      const room = site.dryingRooms[0];
      const truth = this.truths.get(kind.site);
      if (!room || !truth) throw new Error(`${site.name} has no drying room`);
      const { body } = await this.book.api.post<z.output<typeof SensorBody>>(`/v1/incidents/${this.book.incidentId}/sensors`, { code: kind.code, name: kind.name, placeKind: 'drying-room', placeId: room.id });
      this.rooms.push({ site, roomId: room.id, roomName: room.name, sensorId: body.id, logger: new Logger(this.seed, kind), truth, count: { ...NONE } });
    }
  }

  /** Sends what was measured after `fromMs`, up to `toMs`. `last`: loggers send all that they hold. */
  async send(fromMs: number, toMs: number, last = false): Promise<void> {
    await this.sendWeather(fromMs, toMs);
    await eachOf(this.rooms, PLAY.parallel, async (room) => {
      const air = room.truth.air.filter(({ atMs }) => atMs > fromMs && atMs <= toMs);
      const rows = room.logger.batch(air, last);
      if (rows.length > 0) add(room.count, await this.readings(rows, room.logger.kind.form, room.count));
    });
    await this.sendFreezers(fromMs, toMs);
  }

  /** A logger knows nothing of idempotency: when its line broke, it sends the batch once more. */
  private async readings(rows: readonly LoggerRow[], form: 'json' | 'table', count: ReadingCount): Promise<ReadingsReport> {
    const { api, incidentId } = this.book;
    const path = `/v1/incidents/${incidentId}/readings`;
    const sending = () => (form === 'table' ? api.upload<ReadingsReport>(path, 'text/csv', asTable(rows)) : api.post<ReadingsReport>(path, { readings: rows }));
    const before = api.traffic.sentAgain;
    const { body } = await sending();
    if (api.traffic.sentAgain > before) {
      count.sentOnceMore += 1;
      add(count, (await sending()).body);
    }
    return body;
  }

  private async sendWeather(fromMs: number, toMs: number): Promise<void> {
    const hours = momentsWithin(fromMs, toMs, HOUR_MS);
    if (hours.length === 0) return;
    const sites = this.book.layout.sites;
    await eachOf(sites, PLAY.parallel, async (site) => {
      await this.recordWeather(site, { kind: 'observed', records: hours.map((atMs) => asShown(weatherAt(this.seed, site.code as SiteCode, atMs))), issuedAtMs: null });
      const issuedAtMs = hours.find((atMs) => atMs % (WEATHER.forecastEveryH * HOUR_MS) === 0);
      if (issuedAtMs !== undefined) await this.recordWeather(site, { kind: 'forecast', records: forecastOf(this.seed, site.code as SiteCode, issuedAtMs), issuedAtMs });
    });
  }

  private async recordWeather(site: Site, { kind, records, issuedAtMs }: { kind: 'observed' | 'forecast'; records: readonly Outdoors[]; issuedAtMs: number | null }): Promise<void> {
    const { body } = await this.book.api.post<z.output<typeof WeatherReportBody>>(`/v1/incidents/${this.book.incidentId}/sites/${site.id}/weather`, {
      kind, source: kind === 'observed' ? `Weather mast of ${site.name}` : 'Selm Valley weather office', issuedAt: issuedAtMs === null ? null : iso(issuedAtMs),
      records: records.map(({ atMs, ...air }) => ({ validAt: iso(atMs), ...air })),
    });
    this.weather[kind] += body.accepted;
    this.weather.refused += body.refused + body.conflicting;
  }

  /** Chests by hand, on a round; the trailer by its own logger from when it stands in the yard. */
  private async sendFreezers(fromMs: number, toMs: number): Promise<void> {
    const { seed, book } = this;
    const chests = book.layout.sites.flatMap((site) => site.freezers.filter(({ code }) => code !== CODES.trailer).map((freezer) => ({ site, freezer })));
    const byHand = FREEZER_ROUNDS.filter((atMs) => atMs > fromMs && atMs <= toMs).flatMap((atMs) =>
      chests.map(({ site, freezer }) => ({ placeKind: 'freezer', place: freezer.id, measuredAt: iso(atMs), airTempC: chestTempC(seed, `${site.code}/${freezer.code}`, freezer.setPointC, atMs) })));
    const trailer = book.layout.sites.flatMap((site) => site.freezers).find(({ code }) => code === CODES.trailer);
    // The step in which it arrives had sent its readings already.
    const sinceMs = this.trailerSensor ? fromMs : Math.min(fromMs, DAY.trailerFromMs - 1);
    if (trailer && !this.trailerSensor) {
      this.trailerSensor = true;
      await book.api.post(`/v1/incidents/${book.incidentId}/sensors`, { code: TRAILER_LOGGER, name: 'Thermometer of the trailer', placeKind: 'freezer', placeId: trailer.id });
    }
    const moments = trailer ? momentsWithin(sinceMs, toMs, MEASURING.loggerEveryMinutes * MINUTE_MS) : [];
    const bySensor = moments.map((atMs) => ({ sensor: TRAILER_LOGGER, measuredAt: iso(atMs), airTempC: trailerTempC(seed, atMs) }));
    const readings = [...byHand, ...bySensor];
    if (readings.length > 0) add(this.freezers, (await book.api.post<ReadingsReport>(`/v1/incidents/${book.incidentId}/readings`, { readings })).body);
  }
}

function add(count: ReadingCount, { accepted, doubtful, duplicate, conflicting, refused, rows }: ReadingsReport): void {
  count.accepted += accepted;
  count.doubtful += doubtful;
  count.duplicate += duplicate;
  count.conflicting += conflicting;
  count.refused += refused;
  count.late += rows.filter(({ late, outcome }) => late && outcome !== 'refused').length;
}

/** Whole multiples of a span after `fromMs`, up to `toMs`. */
function momentsWithin(fromMs: number, toMs: number, everyMs: number): number[] {
  const moments: number[] = [];
  for (let atMs = (Math.floor(fromMs / everyMs) + 1) * everyMs; atMs <= toMs; atMs += everyMs) moments.push(atMs);
  return moments;
}

function iso(ms: number): string {
  return new Date(ms).toISOString();
}
