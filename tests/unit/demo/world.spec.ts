import { describe, expect, test } from '@jest/globals';
import { RegisterIncident } from '#contracts';
import { DAY, MIX, SIZE } from '../../../apps/ops/src/demo/calibration.js';
import { generateWorld } from '../../../apps/ops/src/demo/world/generator.js';
import { incidentDocument } from '../../../apps/ops/src/demo/world/incident-document.js';
import { handHours, workHours } from '../../../apps/ops/src/demo/world/workload.js';
import type { DemoThing } from '../../../apps/ops/src/demo/world/types.js';

const world = generateWorld(7);
const share = (test: (thing: DemoThing) => boolean) => (100 * world.things.filter(test).length) / world.things.length;

describe('the invented flood', () => {
  test('the same seed gives the same world, another seed another one', () => {
    expect(generateWorld(7)).toEqual(world);
    expect(generateWorld(8).things.slice(0, 50)).not.toEqual(world.things.slice(0, 50));
  });

  test('140 households bring 2,600 things between seven and a little after ten', () => {
    expect(world.households).toHaveLength(SIZE.households);
    expect(world.things).toHaveLength(SIZE.things);
    const arrivals = world.things.map((thing) => thing.arrivedAtMs);
    expect(Math.min(...arrivals)).toBeGreaterThanOrEqual(DAY.opensAtMs);
    expect(Math.max(...arrivals)).toBeLessThanOrEqual(DAY.queueEndsAtMs + 15 * 60_000);
  });

  // Mix by count: care guidance, section 8, "Scenario sizes" (a working assumption, no published survey).
  test('the mix by count is the one of the care guidance within three points', () => {
    for (const [family, percent] of Object.entries(MIX)) expect(Math.abs(share((thing) => thing.family === family) - percent)).toBeLessThan(3);
  });

  test('everything got wet in river water between 20:00 and 03:00, before it came', () => {
    for (const thing of world.things) {
      expect(thing.wettedAtMs).toBeGreaterThanOrEqual(DAY.wettedFromMs);
      expect(thing.wettedAtMs).toBeLessThanOrEqual(DAY.wettedToMs);
      expect(thing.wettedAtMs).toBeLessThan(thing.arrivedAtMs);
    }
  });

  test('what comes to the main site while the power is off is written on slips', () => {
    const inTheDark = world.things.filter((thing) => thing.site === 'DYEWORKS' && thing.arrivedAtMs >= DAY.powerFailsAtMs && thing.arrivedAtMs < DAY.powerBackAtMs);
    expect(inTheDark.length).toBeGreaterThan(50);
    expect(inTheDark.every((thing) => thing.way === 'slip')).toBe(true);
  });

  test('families refuse and allow: every consent is given, refused and not asked by somebody', () => {
    for (const scope of ['treat', 'freeze', 'refer', 'release'] as const) {
      expect(new Set(world.households.map((household) => household.consents[scope]))).toEqual(new Set([true, false, null]));
    }
  });

  test('about three times as much work as hands until two days after the flood', () => {
    const documents = (['valley', 'bank'] as const).map((network) => incidentDocument(network, 7, 1));
    const times = workHours(world.things) / handHours(documents);
    expect(times).toBeGreaterThan(2.7);
    expect(times).toBeLessThan(3.3);
  });

  test.each([1, 0.1, 0.03])('at scale %d the documents of both incidents are accepted by the contract', (scale) => {
    for (const network of ['valley', 'bank'] as const) {
      const read = RegisterIncident.safeParse(incidentDocument(network, 7, scale));
      expect(read.error?.issues ?? []).toEqual([]);
    }
    expect(new Set(generateWorld(7, scale).things.map((thing) => thing.site)).size).toBe(3);
  });

  test('every site has hands that only the dry side can use, so that what is dry goes home while others are needed at the baths', () => {
    for (const scale of [1, 0.03]) {
      const people = (['valley', 'bank'] as const).flatMap((network) => incidentDocument(network, 7, scale).people ?? []);
      const dryOnly = people.filter((person) => person.restrictions?.includes('no-wet-work') && person.skills?.includes('drying') && person.skills.includes('photographs') && person.skills.includes('paper'));
      expect(new Set(dryOnly.map((person) => person.site)).size).toBe(3);
    }
  });

  test('the main site has five colour testers at any scale', () => {
    for (const scale of [1, 0.03]) {
      const testers = incidentDocument('valley', 7, scale).people?.filter((person) => person.site === 'DYEWORKS' && person.skills?.includes('colour-testing'));
      expect(testers).toHaveLength(5);
    }
  });
});
