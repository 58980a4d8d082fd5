/** The largest question about an acceptance that the contract lets through: everything fits, so every kind is tried up to its end. */
const MACHINE = { ratedLitresPerDay: 60, ratedAtTempC: 26.7, ratedAtRelativeHumidityPct: 60, count: 20 };
const FIBRES = ['cotton', 'wool', 'linen', 'silk'];
const goods = (kinds: number, name: string, count: number) =>
  Array.from({ length: kinds }, (_, i) => ({
    name: `${name} ${i}`, material: FIBRES[i % FIBRES.length], dryMassKg: 0.3 + 0.1 * (i % 9), faceAreaM2: 0.6 + 0.2 * (i % 7), placement: 'hung-single', build: i % 3 === 0 ? 'thick' : 'thin',
    moistureX: 0.6 + 0.01 * i, airReach: 'open-rack', count,
  }));

export const LARGEST_ACCEPTANCE = {
  room: { volumeM3: 20_000, airTempC: 20, relativeHumidityPct: 40, airChangesPerH: 0.5, outdoorTempC: 12, outdoorRelativeHumidityPct: 60, dehumidifiers: Array.from({ length: 10 }, () => MACHINE) },
  hanging: goods(40, 'hanging', 1), waiting: goods(12, 'waiting', 2_000), withinH: 120,
};
