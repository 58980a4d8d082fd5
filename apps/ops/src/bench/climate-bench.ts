/** What a drying room costs to reckon, in evaluations of moist air, and how it grows. One core, no server. */
import { advanceRoomCourse, dewPointC, enthalpyKjPerKg, humidityRatio, moistAir, specificVolumeM3PerKg, startRoomCourse, wetBulbC, type CourseGoods, type RoomCourseState, type RoomEvent } from '#climate';

const HOUR_MS = 3_600_000;
const STEP_MS = 900_000;
const START_MS = Date.UTC(2031, 8, 12, 18);
const HOURS = 72;
const ROUNDS = 5;
const MACHINES_PER_GROUP = 0.05;
const FIBRES = ['cotton', 'wool', 'linen', 'silk', 'polyester'] as const;

/** Groups that differ in everything that counts, hung at once; the room and its machines grow with them, so that all see like air. */
export function benchRoom(groups: number): RoomCourseState {
  const goods = Array.from({ length: groups }, (_, i): CourseGoods => ({
    id: `group ${i}`, count: 1 + (i % 4), dryMassKg: 0.2 + (i % 17) * 0.15, exposedAreaM2: 0.8 + (i % 13) * 0.5, material: FIBRES[i % FIBRES.length] ?? 'cotton',
    moistureX: 0.5 + (i % 11) * 0.12, airReach: i % 3 === 0 ? 'packed-rack' : 'open-rack', mouldClass: 'sensitive',
  }));
  const machines = Math.max(1, Math.round(groups * MACHINES_PER_GROUP));
  return startRoomCourse({
    atMs: START_MS, volumeM3: 10 * groups, relativeHumidityPct: 65, goods,
    forcing: {
      airTempC: 21, airChangesPerH: 0.5, outdoorTempC: 13, outdoorRelativeHumidityPct: 80, airSpeedMPerS: null,
      dehumidifiers: [{ kind: 'refrigerant', ratedLitresPerDay: 40 * machines, ratedAtTempC: 26.7, ratedAtRelativeHumidityPct: 60 }],
    },
  });
}

/** A reading every quarter hour. */
export function benchReadings(hours: number): RoomEvent[] {
  return Array.from({ length: (hours * HOUR_MS) / STEP_MS }, (_, i): RoomEvent => ({ kind: 'reading', atMs: START_MS + (i + 1) * STEP_MS, airTempC: 20 + (i % 9) * 0.2, relativeHumidityPct: 58 + (i % 23) }));
}

/** Microseconds of processor for one turn of some work: the best of some rounds, because other work on the machine only adds. */
function bestMicroseconds(turns: number, work: () => unknown): number {
  const rounds = Array.from({ length: ROUNDS }, () => {
    const before = process.cpuUsage();
    for (let turn = 0; turn < turns; turn += 1) work();
    const { user, system } = process.cpuUsage(before);
    return (user + system) / turns;
  });
  return Math.min(...rounds);
}

function oneState(): () => number {
  let i = 0;
  return () => {
    i = (i + 7) % 4_000;
    const air = moistAir({ airTempC: 5 + i / 100, relativeHumidityPct: 20 + (i % 75) });
    return wetBulbC(air) + dewPointC(air) + humidityRatio(air) + enthalpyKjPerKg(air) + specificVolumeM3PerKg(air);
  };
}

/** Lines of the report. */
export function benchClimate(): string[] {
  const state = bestMicroseconds(20_000, oneState());
  const endMs = START_MS + HOURS * HOUR_MS;
  const simulated = (groups: number): number => {
    const start = benchRoom(groups);
    return bestMicroseconds(1, () => advanceRoomCourse(start, endMs, { air: 'simulated' }));
  };
  const sizes = [125, 250, 500, 1_000, 2_000];
  const costs = sizes.map(simulated);
  const full = costs[sizes.indexOf(1_000)] ?? Number.NaN;

  const readings = benchReadings(HOURS);
  const start = benchRoom(1_000);
  const replay = bestMicroseconds(1, () => advanceRoomCourse(start, endMs, { air: 'measured', events: readings }));
  const before = advanceRoomCourse(start, endMs - STEP_MS, { air: 'measured', events: readings.slice(0, -1) }).state;
  const update = bestMicroseconds(5, () => advanceRoomCourse(before, endMs, { air: 'measured', events: readings.slice(-1) }));
  return [
    `room of 1,000 groups over ${HOURS} h at 15 minutes: ${(full / state).toFixed(0)} times one psychrometric state (${(full / 1_000).toFixed(0)} ms against ${state.toFixed(2)} microseconds), so ${(full / state / 1_000 / ((HOURS * HOUR_MS) / STEP_MS)).toFixed(2)} states for each group and step`,
    `incremental update after one new reading: ${((100 * update) / replay).toFixed(2)} % of replaying ${HOURS} h of readings (${(update / 1_000).toFixed(2)} ms against ${(replay / 1_000).toFixed(0)} ms), ${((100 * update) / full).toFixed(2)} % of the simulated run`,
    `growth with items: cost ~ groups^${slope(sizes, costs).toFixed(2)} from ${sizes[0]} to ${sizes.at(-1)} groups (${sizes.map((size, i) => `${size}: ${((costs[i] ?? 0) / 1_000).toFixed(0)} ms`).join(', ')})`,
  ];
}

/** Slope of a straight line through the logarithms. */
function slope(sizes: readonly number[], costs: readonly number[]): number {
  const [x, y] = [sizes.map(Math.log), costs.map(Math.log)];
  const mean = (values: readonly number[]): number => values.reduce((sum, value) => sum + value, 0) / values.length;
  const [mx, my] = [mean(x), mean(y)];
  return x.reduce((sum, value, i) => sum + (value - mx) * ((y[i] ?? 0) - my), 0) / x.reduce((sum, value) => sum + (value - mx) ** 2, 0);
}
