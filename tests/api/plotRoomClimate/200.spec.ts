import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { readDrawn, type Drawn } from '../support/drawn.js';
import { Workbench } from '../support/workbench.js';
import { readRoom, reckonAir } from '../support/air.js';

let bench: Workbench;
beforeAll(async () => { bench = await Workbench.open(); });
afterAll(() => bench.close());

const at = (time: string) => bench.server.clock.set(Date.parse(`2026-05-09T${time}:00Z`));
const address = (query = '') => `/v1/drying-rooms/${bench.incident.room('ROOM')}/climate/plot${query}`;
const plot = async (query = '', headers: Record<string, string> = {}) => bench.network.get(address(query), headers).expect(200);
const drawn = async (query = '', headers: Record<string, string> = {}): Promise<Drawn> => readDrawn((await plot(query, headers)).body.toString());

/** The room is registered with the air of 06:30. */
const REGISTERED = 60;
/** Readings from 08:00 on, every quarter of an hour; the machine trips at 11:00. */
const HUMIDITY = [62, 61, 63, 60, 62, 61, 60, 62, 61, 60, 62, 61, 62, 66, 71, 76, 80];
const timeOf = (quarter: number): string => new Date(Date.parse('2026-05-09T08:00:00Z') + quarter * 900_000).toISOString();

test('before the first reckoning the picture shows what was read and says so; whoever opens it, it may run nothing', async () => {
  const answer = await plot();
  expect(answer.headers).toMatchObject({ 'content-type': 'image/svg+xml; charset=utf-8', 'content-security-policy': "default-src 'none'; frame-ancestors 'none'; sandbox", 'x-content-type-options': 'nosniff', 'content-language': 'en', vary: 'Accept-Language' });
  const picture = readDrawn(answer.body.toString());
  expect(picture.desc).toBe('The air has been measured; nothing is reckoned of this room yet.');
  expectClose(picture.panels[1]!.marks, [REGISTERED], 0.15);
  expect(picture.words.filter((word) => word === 'Nothing to show for this time')).toHaveLength(2);
  at('09:00');
  const later = await drawn('?hoursBack=1');
  expect(later.desc).toMatch(/^Nobody measured the air of this room in the time shown/);
  expect(later.words.filter((word) => word === 'Nothing to show for this time')).toHaveLength(4);
  at('07:00');
});

test('every reading is a dot at its value, the cap is a line, and what comes is dashed', async () => {
  const household = await bench.household();
  for (let i = 0; i < 3; i += 1) {
    const quilt = await bench.testedQuilt(household);
    for (const step of ['rinse', 'blot']) await bench.report(quilt.id, step).expect(201);
    await bench.hang(quilt.id);
  }
  at('12:00');
  for (const [quarter, humidity] of HUMIDITY.entries()) await readRoom(bench.network, bench.incident, timeOf(quarter), humidity, 20 + quarter / 10);
  await reckonAir(bench.server, bench.network);
  const { panels: [temperature, humidity], title, desc, names } = await drawn('?hoursBack=6&hoursAhead=12');
  expect([...names].sort()).toEqual(['circle', 'desc', 'g', 'line', 'path', 'rect', 'svg', 'text', 'title']);
  expect(title).toBe('Drying room (ROOM), air and water');
  expect(desc).toContain('As of 9 May, 12:00: 21.6 °C and 80.0 % humidity, cap 75 %.');
  expect(desc).toContain('3 things hang here with ');
  expect(desc).toContain('Hang nothing more');
  expect(humidity!.label).toBe('Relative humidity of the air, %');
  expect(humidity!.legend).toEqual(['measured by hand', 'forecast', 'cap of the room, 75 %']);
  expectClose(humidity!.marks, [REGISTERED, ...HUMIDITY], 0.15);
  expectClose(temperature!.marks, [20, ...HUMIDITY.map((_, quarter) => 20 + quarter / 10)], 0.05);
  expectClose(humidity!.limits, [75], 0.15);
  // One line of what was measured, and one dashed line that begins where it ends.
  expect(humidity!.lines.map(({ dash }) => dash)).toEqual(['none', '7 4']);
  expectClose(humidity!.lines[0]!.values, [REGISTERED, ...HUMIDITY], 0.15);
  expect(humidity!.lines[1]!.values[0]).toBeCloseTo(80, 0);
});

test('water and what comes are the numbers of the newest reckoning', async () => {
  const { body: state } = await bench.network.get(`/v1/drying-rooms/${bench.incident.room('ROOM')}/climate`).expect(200);
  const { body: forecast } = await bench.network.get(`/v1/drying-rooms/${bench.incident.room('ROOM')}/forecast`).expect(200);
  const points = (forecast.points as { at: string; relativeHumidityPct: number; waterLeftKg: number; evaporationKgPerH: number }[]).slice(0, 12);
  const { panels: [, humidity, water, flows] } = await drawn('?hoursBack=6&hoursAhead=12');
  const [past, ahead] = water!.lines;
  expect(past!.dash).toBe('none');
  expect(past!.values.at(-1)).toBeCloseTo(state.climate.waterLeftKg, 1);
  // Nothing before they are hung; then they only dry.
  const hung = past!.values.findIndex((kg) => kg > 1);
  expect(past!.values.slice(0, hung).every((kg) => kg === 0)).toBe(true);
  for (let i = hung + 1; i < past!.values.length; i += 1) expect(past!.values[i]!).toBeLessThanOrEqual(past!.values[i - 1]! + 0.02);
  expectClose(ahead!.values, [state.climate.waterLeftKg, ...points.map(({ waterLeftKg }) => waterLeftKg)], 0.05);
  expectClose(humidity!.lines[1]!.values, [80, ...points.map(({ relativeHumidityPct }) => relativeHumidityPct)], 0.15);
  expectClose(flows!.lines[1]!.values, points.map(({ evaporationKgPerH }) => evaporationKgPerH), 0.02);
  expect(water!.legend).toEqual(['reckoned', 'up to this if thick things dry slowly', 'forecast']);
  expect(flows!.legend).toEqual(['evaporation, reckoned', 'evaporation, forecast', 'taken by dehumidifiers, forecast', 'taken by outdoor air, forecast (below 0: brought in)']);
  expect(new Set(flows!.lines.map(({ dash }) => dash)).size).toBe(4);
});

test('what water left in the past, hour by hour, is what was stored at the readings', async () => {
  const { rows } = await bench.server.admin.query<{ at: Date; state: { course: { groups: { id: string; count: number; dryMassKg: number; moistureX: number; targetX: number }[] } } }>('select at, state from room_checkpoint where drying_room_id = $1 order by at', [bench.incident.room('ROOM')]);
  expect(rows.length).toBeGreaterThan(2);
  const { panels: [, , water] } = await drawn('?hoursBack=6&hoursAhead=0');
  const past = water!.lines[0]!;
  for (const { at: moment, state } of rows) {
    const kg = state.course.groups.reduce((sum, group) => sum + group.count * group.dryMassKg * Math.max(0, group.moistureX - group.targetX), 0);
    const x = 64 + ((moment.getTime() - Date.parse('2026-05-09T06:00:00Z')) / (6 * 3_600_000)) * (856 - 64);
    const near = past.xs.findIndex((one) => Math.abs(one - x) < 0.2);
    expect(near).toBeGreaterThanOrEqual(0);
    expect(past.values[near]).toBeCloseTo(kg, 1);
  }
});

test('the line is open where nobody measured, and that time is reckoned', async () => {
  at('20:00');
  await readRoom(bench.network, bench.incident, '2026-05-09T19:45:00Z', 70, 21);
  await reckonAir(bench.server, bench.network);
  const { panels: [, humidity] } = await drawn('?hoursBack=14&hoursAhead=0');
  const measured = humidity!.lines.filter(({ values }) => values.length === HUMIDITY.length + 1 || values.length === 1);
  expect(measured.map(({ values }) => values.length)).toEqual([HUMIDITY.length + 1, 1]);
  expect(humidity!.legend).toEqual(['measured by hand', 'reckoned, nobody measured', 'cap of the room, 75 %']);
});

test('a reading in doubt stands beside the others as a ring, and does not stretch the axis', async () => {
  const { body: sensor } = await bench.network.post(`/v1/incidents/${bench.incident.id}/sensors`, { code: 'T7', name: 'Logger', placeKind: 'drying-room', placeId: bench.incident.room('ROOM') }).expect(201);
  const readings = [['19:00', 21], ['19:10', 21.2], ['19:20', 55], ['19:30', 21.1]].map(([time, airTempC]) => ({ sensor: sensor.code, measuredAt: `2026-05-09T${time}:00Z`, airTempC, relativeHumidityPct: 66 }));
  await bench.network.post(`/v1/incidents/${bench.incident.id}/readings`, { readings }).expect(200);
  await reckonAir(bench.server, bench.network);
  const { panels: [temperature] } = await drawn('?hoursBack=2&hoursAhead=0');
  expect(temperature!.legend).toEqual(expect.arrayContaining(['measured by hand', 'measured, sensor T7', 'in doubt, not counted (outside the axis: at its edge)']));
  expect(Math.max(...temperature!.marks)).toBeLessThanOrEqual(30);
  expectClose(temperature!.marks.slice(0, 4).toSorted(), [21, 21, 21.1, 21.2], 0.06);
});

test('it is said in Spanish to who asks for it, with the times of the network', async () => {
  const answer = await plot('', { 'accept-language': 'es' });
  expect(answer.headers).toMatchObject({ 'content-language': 'es', vary: 'Accept-Language' });
  const picture = readDrawn(answer.body.toString());
  expect(picture.language).toBe('es');
  expect(picture.title).toBe('Drying room (ROOM), aire y agua');
  expect(picture.panels.map(({ label }) => label)).toEqual(['Temperatura del aire, °C', 'Humedad relativa del aire, %', 'Agua que queda en lo que está colgado aquí, kg', 'Agua que se mueve, kg por hora']);
  await bench.server.admin.query("update network set time_zone = 'Asia/Kolkata' where network_id = $1", [bench.network.networkId]);
  const there = await drawn();
  expect(there.words).toContain('Time on the clock in Asia/Kolkata');
  expect(there.desc).toContain('As of 10 May, 01:30');
});

function expectClose(drawnAt: readonly number[], wanted: readonly number[], within: number): void {
  expect(drawnAt).toHaveLength(wanted.length);
  for (const [i, value] of wanted.entries()) expect(Math.abs(drawnAt[i]! - value)).toBeLessThan(within);
}
