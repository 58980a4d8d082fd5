import { advanceRoomCourse, startRoomCourse, type CourseGoods, type Dehumidifier, type RoomCourseState, type RoomEvent } from '#climate';
import { DAY, MEASURING, ROOM_TRUTH } from '../calibration.js';
import { Dice } from '../dice.js';
import type { SiteCode } from './types.js';
import { weatherAt } from './weather.js';

const MINUTE_MS = 60_000;
const HOUR_MS = 60 * MINUTE_MS;

/** A room as it is registered, and when one of its machines stands still although nobody has said so. */
export interface RoomAsBuilt {
  site: SiteCode;
  code: string;
  volumeM3: number;
  airChangesPerH: number;
  airTempC: number;
  relativeHumidityPct: number;
  machines: readonly { code: string; ratedLPerDay: number; ratedTempC: number; ratedRelativeHumidityPct: number }[];
  stopped: { code: string; fromMs: number; toMs: number } | null;
}

/** The air of a room at one moment. */
export interface TrueAir {
  atMs: number;
  airTempC: number;
  relativeHumidityPct: number;
}

/** Water in a thing as it truly is. */
export interface TrueWater {
  /** kg water per kg dry, and what counts as dry. */
  moistureX: number;
  targetX: number;
  /** Of the whole lot. */
  dryKg: number;
  hungX: number;
}

/**
 * A drying room of the played world: its air follows from what hangs there, its machines, its cracks and the weather. It knows what
 * nobody in the hall knows; people only see what loggers and scales show of it.
 */
export class TrueRoom {
  /** Every ten minutes of the day so far. */
  readonly air: TrueAir[] = [];
  private state: RoomCourseState;
  private readonly hungX = new Map<string, number>();
  private readonly machineShare: number;

  constructor(
    private readonly seed: number,
    private readonly room: RoomAsBuilt,
  ) {
    const dice = Dice.of(seed, 'room', room.site, room.code);
    const airChangesPerH = (room.airChangesPerH * dice.int(ROOM_TRUTH.airChangesPct[0], ROOM_TRUTH.airChangesPct[1])) / 100;
    this.machineShare = dice.int(ROOM_TRUTH.machinesPct[0], ROOM_TRUTH.machinesPct[1]) / 100;
    const outdoor = weatherAt(seed, room.site, DAY.preparedAtMs);
    this.state = startRoomCourse({
      atMs: DAY.preparedAtMs, volumeM3: room.volumeM3, relativeHumidityPct: room.relativeHumidityPct, stepMinutes: MEASURING.loggerEveryMinutes,
      forcing: { airTempC: room.airTempC, airChangesPerH, outdoorTempC: outdoor.airTempC, outdoorRelativeHumidityPct: outdoor.relativeHumidityPct, dehumidifiers: this.running(DAY.preparedAtMs), airSpeedMPerS: null },
    });
    this.note();
  }

  get atMs(): number {
    return this.state.atMs;
  }

  /** Lets time pass. */
  advance(untilMs: number): void {
    const everyMs = MEASURING.loggerEveryMinutes * MINUTE_MS;
    while (this.state.atMs < untilMs) {
      const nextMs = Math.min(untilMs, (Math.floor(this.state.atMs / everyMs) + 1) * everyMs);
      this.state = advanceRoomCourse(this.state, nextMs, { air: 'simulated', events: this.forcings(this.state.atMs) }).state;
      if (nextMs % everyMs === 0) this.note();
    }
  }

  hang(goods: CourseGoods): void {
    this.happen([{ kind: 'hang', atMs: this.state.atMs, goods }]);
    this.hungX.set(goods.id, goods.moistureX);
  }

  take(id: string): void {
    if (this.has(id)) this.happen([{ kind: 'take', atMs: this.state.atMs, id }]);
  }

  has(id: string): boolean {
    return this.state.groups.some((group) => group.id === id);
  }

  /** Null for what does not hang here. */
  waterOf(id: string): TrueWater | null {
    const group = this.state.groups.find((one) => one.id === id);
    return group === undefined ? null : { moistureX: group.moistureX, targetX: group.targetX, dryKg: group.dryMassKg * group.count, hungX: this.hungX.get(id) ?? group.moistureX };
  }

  private happen(events: RoomEvent[]): void {
    this.state = advanceRoomCourse(this.state, this.state.atMs, { air: 'simulated', events }).state;
  }

  private note(): void {
    this.air.push({ atMs: this.state.atMs, airTempC: this.state.forcing.airTempC, relativeHumidityPct: this.state.relativeHumidityPct });
  }

  /** Weather, warmth and machines from `atMs` on, for the minutes until the next look. */
  private forcings(atMs: number): RoomEvent[] {
    const outdoor = weatherAt(this.seed, this.room.site, atMs);
    const warmth = ROOM_TRUTH.tempSwingC * Math.cos(((atMs / HOUR_MS - 16) / 24) * 2 * Math.PI) - (this.isStopped(atMs) ? ROOM_TRUTH.tempSwingC : 0);
    return [
      { kind: 'outdoor', atMs, outdoorTempC: outdoor.airTempC, outdoorRelativeHumidityPct: outdoor.relativeHumidityPct },
      { kind: 'room-temp', atMs, airTempC: this.room.airTempC + warmth },
      { kind: 'machines', atMs, dehumidifiers: this.running(atMs) },
    ];
  }

  private isStopped(atMs: number): boolean {
    return this.room.stopped !== null && atMs >= this.room.stopped.fromMs && atMs < this.room.stopped.toMs;
  }

  private running(atMs: number): Dehumidifier[] {
    return this.room.machines.filter(({ code }) => !(this.isStopped(atMs) && code === this.room.stopped?.code)).map((machine) => ({
      kind: 'refrigerant', ratedLitresPerDay: machine.ratedLPerDay * this.machineShare, ratedAtTempC: machine.ratedTempC, ratedAtRelativeHumidityPct: machine.ratedRelativeHumidityPct,
    }));
  }
}
