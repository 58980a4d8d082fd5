import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import { networkDigest, startTestServer, type TestServer } from '#testing';
import { at, send, sensor } from '../support/climate.js';

let server: TestServer;
beforeAll(async () => {
  server = await startTestServer();
  server.clock.set(Date.parse('2026-05-09T12:00:00Z'));
});
afterAll(() => server.close());

const GOOD = { measuredAt: at('10:30'), airTempC: 21.5, relativeHumidityPct: 64 };

describe('recordReadings answers 404', () => {
  test("another network's incident takes no reading", async () => {
    const [ours, theirs] = [await server.network(), await server.network()];
    const incident = await ours.incident();
    await sensor(ours, incident);
    await send(theirs, incident, [{ ...GOOD, sensor: 'T-1' }]).expect(404);
  });

  test("a sensor and a place of another network or incident are answered like ones that never were, and take nothing", async () => {
    const [ours, theirs] = [await server.network(), await server.network()];
    const [foreign, sibling, own] = [await theirs.incident(), await ours.incident(), await ours.incident()];
    const sensors = [await sensor(theirs, foreign, 'THEIRS'), await sensor(ours, sibling, 'SIBLING')];
    const digest = async () => [await networkDigest(server.admin, theirs.networkId), await networkDigest(server.admin, ours.networkId, ['idempotency_record'])];
    const before = await digest();
    const textOf = async (reading: object, sent: string) => {
      const { body } = await send(ours, own, [{ ...GOOD, ...reading }]).expect(422);
      return JSON.stringify([body.errors, body.rows]).replaceAll(sent.slice(0, 39), 'what was sent');
    };
    for (const name of [...sensors, 'THEIRS', 'SIBLING']) {
      const random = name.length > 20 ? randomUUID() : 'NOBODY';
      expect(await textOf({ sensor: name }, name)).toBe(await textOf({ sensor: random }, random));
    }
    for (const id of [foreign.room('ROOM'), sibling.room('ROOM')]) {
      const random = randomUUID();
      expect(await textOf({ placeKind: 'drying-room', place: id }, id)).toBe(await textOf({ placeKind: 'drying-room', place: random }, random));
    }
    expect(await digest()).toEqual(before);
  });
});
