import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { doubtsOf } from '#climate';
import { type IncidentOnTest, startTestServer, type TestNetwork, type TestServer } from '#testing';
import { roomAir, send, sensor, type SentReading, stored } from '../api/support/climate.js';

let server: TestServer;
let network: TestNetwork;
beforeAll(async () => {
  server = await startTestServer();
  server.clock.set(Date.parse('2026-05-09T12:00:00Z'));
  network = await server.network();
});
afterAll(() => server.close());

const START = Date.parse('2026-05-08T20:00:00Z');
const MINUTE = 60_000;

/** What is kept of an incident, whatever the order in which it came. */
async function state(incident: IncidentOnTest, sensors: Record<string, string>) {
  const names = new Map(Object.entries(sensors).map(([code, id]) => [id, code]));
  const rows = await stored(server, incident);
  const { air_temp_c: airTempC, relative_humidity_pct: relativeHumidityPct, measured_at: measuredAt } = await roomAir(server, incident);
  const { rows: sequences } = await server.admin.query<{ gapless: boolean }>(
    `select bool_and(sequence = place_in_order) as gapless from (select sequence, row_number() over (partition by place_kind, place_id order by sequence) as place_in_order from climate_reading where incident_id = $1) s`, [incident.id]);
  return {
    readings: rows.map((row) => [names.get(row.sensor_id ?? '') ?? 'hand', row.measured_at.toISOString(), row.air_temp_c, row.relative_humidity_pct, row.doubt]).sort(),
    air: [airTempC, relativeHumidityPct, measuredAt.toISOString()],
    gapless: sequences[0]?.gapless,
  };
}

async function incidentWithSensors() {
  const incident = await network.incident();
  return { incident, sensors: { A: await sensor(network, incident, 'A'), B: await sensor(network, incident, 'B') } };
}

/** Readings of two sensors and of people that contradict nobody: no sensor has two values at a moment. */
const readings = fc
  .uniqueArray(fc.record({ by: fc.constantFrom('A', 'B', 'hand'), minute: fc.oneof(fc.integer({ min: 0, max: 900 }), fc.constant(900)), airTempC: fc.constantFrom(18, 18.5, 20, 21, 33, 46), relativeHumidityPct: fc.constantFrom(55, 60, 60, 92, 100) }), { selector: ({ by, minute }) => `${by}@${minute}`, minLength: 2, maxLength: 25 })
  .map((rows) => rows.map(({ by, minute, ...air }): SentReading => ({ ...(by === 'hand' ? { placeKind: 'drying-room', place: 'ROOM' } : { sensor: by }), measuredAt: new Date(START + minute * MINUTE).toISOString(), ...air })));

/** The same readings in another order, some of them again, cut into requests. */
const deliveries = readings.chain((rows) =>
  fc.record({
    rows: fc.constant(rows),
    order: fc.shuffledSubarray(rows, { minLength: rows.length }),
    again: fc.shuffledSubarray(rows),
    cuts: fc.array(fc.nat({ max: 40 }), { maxLength: 5 }),
  }),
);

function requests(order: readonly SentReading[], cuts: readonly number[]): SentReading[][] {
  const ends = [...new Set([...cuts.map((cut) => cut % (order.length + 1)), order.length])].sort((a, b) => a - b);
  return ends.map((end, at) => order.slice(ends[at - 1] ?? 0, end)).filter((part) => part.length > 0);
}

describe('readings', () => {
  test('leave the same rows, doubts and air of the room in any order, repeated and in any parts', async () => {
    await fc.assert(fc.asyncProperty(deliveries, async ({ rows, order, again, cuts }) => {
      const [inOrder, mixed] = [await incidentWithSensors(), await incidentWithSensors()];
      await send(network, inOrder.incident, [...rows].sort((a, b) => String(a.measuredAt).localeCompare(String(b.measuredAt)))).expect(200);
      for (const part of requests([...order, ...again], cuts)) await send(network, mixed.incident, part).expect(200);
      const expected = await state(inOrder.incident, inOrder.sensors);
      expect(await state(mixed.incident, mixed.sensors)).toEqual(expected);
      expect(expected).toMatchObject({ gapless: true });
      expect(expected.readings).toHaveLength(rows.length);
      // Shrinking a failure asks the server anew each time; it ends in time to be told.
    }), { numRuns: 25, interruptAfterTimeLimit: 150_000 });
  }, 240_000);

  test('sent by many at once leave what they leave one after the other, and none is kept twice', async () => {
    const { incident, sensors } = await incidentWithSensors();
    const all = Array.from({ length: 120 }, (_, at): SentReading => ({ sensor: at % 2 === 0 ? 'A' : 'B', measuredAt: new Date(START + at * 4 * MINUTE).toISOString(), airTempC: at % 17 === 0 ? 40 : 20 + (at % 5) / 10, relativeHumidityPct: 60 + (at % 7) }));
    const batches = Array.from({ length: 8 }, (_, lane) => all.filter((_, at) => at % 4 === lane % 4));
    const answers = await Promise.all(batches.map((batch) => send(network, incident, batch)));
    expect(answers.map(({ status }) => status)).toEqual(batches.map(() => 200));
    const sums = answers.map(({ body }) => body.accepted + body.doubtful).reduce((sum, count) => sum + count, 0);
    expect(sums).toBe(all.length);
    const found = await state(incident, sensors);
    expect(found.gapless).toBe(true);
    expect(found.readings).toHaveLength(all.length);
    for (const code of ['A', 'B']) {
      const own = all.filter((reading) => reading.sensor === code).map((reading) => ({ measuredAtMs: Date.parse(String(reading.measuredAt)), airTempC: Number(reading.airTempC), relativeHumidityPct: Number(reading.relativeHumidityPct) }));
      expect(found.readings.filter(([by]) => by === code).map(([, , , , doubt]) => doubt)).toEqual(doubtsOf(own, { place: 'drying-room', machineRuns: true }));
    }
  });

  test('of two batches that contradict each other at the same moment one value is kept and the other is told', async () => {
    const { incident } = await incidentWithSensors();
    const answers = await Promise.all([21, 22, 23, 24].map((airTempC) => send(network, incident, [{ sensor: 'A', measuredAt: '2026-05-09T10:00:00Z', airTempC, relativeHumidityPct: 60 }])));
    expect(answers.map(({ status }) => status).sort()).toEqual([200, 409, 409, 409]);
    expect(await stored(server, incident)).toHaveLength(1);
  });
});
