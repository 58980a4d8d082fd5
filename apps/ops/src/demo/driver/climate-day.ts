import { eachOf } from '../api-client.js';
import { DAY, momentMs } from '../calibration.js';
import { trueRooms } from '../world/rooms.js';
import { CODES, MAIN_SITE } from '../world/region.js';
import type { TrueRoom } from '../world/true-room.js';
import type { DemoWorld, SiteCode } from '../world/types.js';
import { AlarmRounds, type Alarm } from './alarm-rounds.js';
import type { Book } from './book.js';
import type { Crew } from './crew.js';
import type { Drying } from './drying.js';
import { Measuring, type LoggedRoom } from './measuring.js';
import { compare, compareTaken, untilReckoned, type Compared, type RoomState } from './reckoning.js';
import type { Scales } from './scales.js';

/** When nobody has seen an alarm by then, somebody hears that the machine is silent. */
const HEARD_AT_MS = momentMs(1, 15, 30);
/** Hours in which the hall waits for the program, so that alarms come at the hour they would come at. */
const WATCHED: readonly [fromMs: number, toMs: number][] = [[DAY.dehumidifierTripsAtMs, momentMs(1, 15, 30)], [DAY.dehumidifierMendedAtMs, momentMs(1, 19)]];
/** When program and truth are held against each other; nobody goes round with the scale then, so that both are of one moment. */
export const COMPARED_AT: readonly number[] = [momentMs(1, 13), DAY.reportAtMs, momentMs(2, 8), DAY.endsAtMs];
/** Alarms upon which somebody goes and looks at the machines of the room. */
const GO_AND_LOOK: ReadonlySet<Alarm['kind']> = new Set(['room-over-cap', 'room-mould-possible', 'dehumidifier-short']);

/** What the program said of one network's rooms through the day, for the report. */
export interface ClimateReport {
  measuring: Measuring;
  alarms: AlarmRounds;
  atEight: Map<string, RoomState>;
  /** By moment: every thing on the racks, by the program and in truth; null where a room was not reckoned in time. */
  compared: { atMs: number; room: LoggedRoom; things: Compared[] | null }[];
  /** Weighed things as they were when they were taken down. */
  taken: Compared[];
  /** Of the main site: the thing that was weighed most often. */
  mostWeighed: string | null;
}

/** Air, water and alarms of the day: what is measured of the true rooms, and what people do about what the program makes of it. */
export class ClimateDay {
  readonly truths: ReadonlyMap<SiteCode, TrueRoom>;
  private readonly networks: { book: Book; report: ClimateReport }[];

  constructor(
    private readonly world: DemoWorld,
    books: readonly Book[],
    crews: ReadonlyMap<string, Crew>,
    private readonly say: (line: string) => void,
  ) {
    this.truths = trueRooms(world);
    this.networks = books.map((book) => ({ book, report: { measuring: new Measuring(book, world.seed, this.truths), alarms: new AlarmRounds(book, crews, say), atEight: new Map(), compared: [], taken: [], mostWeighed: null } }));
  }

  reports(): ReadonlyMap<Book, ClimateReport> {
    return new Map(this.networks.map(({ book, report }) => [book, report]));
  }

  async begin(): Promise<void> {
    for (const { report } of this.networks) await report.measuring.begin();
  }

  /** Lets the true rooms be until `toMs` and sends what was measured of them. */
  async measure(fromMs: number, toMs: number): Promise<void> {
    for (const truth of this.truths.values()) truth.advance(toMs);
    // The first sending begins with what was measured while the halls were prepared.
    const sinceMs = fromMs === DAY.opensAtMs ? DAY.preparedAtMs - 1 : fromMs;
    await eachOf(this.networks, this.networks.length, ({ report }) => report.measuring.send(sinceMs, toMs, toMs === DAY.endsAtMs));
  }

  /** Leads look at the alarms. True when a machine was found to stand still. */
  async alarmRound(toMs: number): Promise<boolean> {
    let found = false;
    for (const { book, report } of this.networks) {
      const taken = await report.alarms.look(toMs);
      const hall = report.measuring.rooms.find(({ site }) => site.code === MAIN_SITE);
      const alarmed = taken.some((alarm) => GO_AND_LOOK.has(alarm.kind) && alarm.subject.id === hall?.roomId);
      if (hall && (alarmed || toMs >= HEARD_AT_MS)) found = (await this.lookAtMachine(book, toMs, alarmed)) || found;
    }
    return found;
  }

  /** Goes to the machine that trips; records it when it truly stands still and nobody has recorded it yet. */
  private async lookAtMachine(book: Book, toMs: number, alarmed: boolean): Promise<boolean> {
    const standsStill = toMs >= DAY.dehumidifierTripsAtMs && toMs < DAY.dehumidifierMendedAtMs;
    const machine = book.site(MAIN_SITE).dryingRooms.flatMap((room) => room.dehumidifiers).find(({ code }) => code === CODES.trippingDehumidifier);
    if (!standsStill || !machine || machine.state !== 'running') return false;
    await book.api.patch(`/v1/incidents/${book.incidentId}/dehumidifiers/${machine.id}`, machine.version, { state: 'tripped' });
    await book.readLayout();
    this.say(`${new Date(toMs).toISOString().slice(11, 16)}  ${alarmed ? 'Somebody goes and looks' : 'Without an alarm somebody hears it'}: ${machine.name.toLowerCase()} stands still. It is recorded as tripped.`);
    return true;
  }

  /** At the end of a step: in the hours that matter the hall waits for the program; three times it is held against the truth. */
  async settle(toMs: number, racks: readonly { siteId: string; drying: Drying; scales: Scales }[]): Promise<void> {
    const isWatched = WATCHED.some(([fromMs, untilMs]) => toMs >= fromMs && toMs <= untilMs);
    const isCompared = COMPARED_AT.includes(toMs);
    const rooms = this.networks.flatMap(({ book, report }) => report.measuring.rooms.map((room) => ({ book, report, room })));
    await eachOf(rooms, rooms.length, async ({ book, report, room }) => {
      if (isWatched && room.site.code === MAIN_SITE) await untilReckoned(book, room, toMs);
      const rack = racks.find(({ siteId }) => siteId === room.site.id);
      if (!isCompared || !rack) return;
      report.compared.push({ atMs: toMs, room, things: await compare(book, room, rack.drying.itemIds, rack.scales, toMs) });
      if (room.site.code === MAIN_SITE) report.mostWeighed = rack.scales.mostWeighed();
      if (toMs === DAY.endsAtMs) report.taken.push(...(await compareTaken(book, room, rack.scales)));
      if (toMs === DAY.reportAtMs) report.atEight.set(room.roomId, await untilReckoned(book, room, toMs));
    });
  }
}
