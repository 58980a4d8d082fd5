import fc from 'fast-check';
import type { AirReach, Material, SimulatedRoom, WetGroup } from '#climate';

export const number = (min: number, max: number): fc.Arbitrary<number> => fc.double({ min, max, noNaN: true });

/** Air of a drying hall. */
export const hallAir = fc.record({ airTempC: number(1, 45), relativeHumidityPct: number(5, 98) });

export const fibre = fc.constantFrom<Material>('cotton', 'linen', 'wool', 'silk', 'viscose', 'acetate', 'nylon', 'acrylic', 'polyester', 'paper', 'leather', 'unknown');

const machine = fc.record({
  kind: fc.constantFrom('refrigerant' as const, 'desiccant' as const),
  ratedLitresPerDay: number(0, 100),
  ratedAtTempC: number(18, 30),
  ratedAtRelativeHumidityPct: number(55, 80),
  makerStatesConstantRemoval: fc.boolean(),
});

export const room: fc.Arbitrary<SimulatedRoom> = fc.record({
  volumeM3: number(20, 2000),
  airTempC: number(2, 40),
  startRelativeHumidityPct: number(0, 100),
  airChangesPerH: number(0, 10),
  outdoorTempC: number(-20, 40),
  outdoorRelativeHumidityPct: number(0, 100),
  dehumidifiers: fc.array(machine, { maxLength: 4 }),
  airSpeedMPerS: number(0, 2),
});

export const wetGroup: fc.Arbitrary<WetGroup> = fc.record({
  count: fc.integer({ min: 0, max: 200 }),
  dryMassKg: number(0.01, 5),
  exposedAreaM2: number(0.01, 12),
  material: fibre,
  startX: number(0, 3),
  airReach: fc.constantFrom<AirReach>('packed-rack', 'open-rack', 'fan-across'),
});
