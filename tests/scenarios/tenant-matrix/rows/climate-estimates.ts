import type { Table } from '../row.js';

const everybodysOwn = { otherNetwork: 'own rows', otherIncident: 'own rows' } as const;
const start = '2026-05-08T18:00:00Z';

/** Estimates of what is only described: they hold nothing of anybody. */
const goods = { kind: 'garment', moistureX: 1, airReach: 'open-rack' };
const room = { volumeM3: 60, airTempC: 20, relativeHumidityPct: 60, outdoorTempC: 12, outdoorRelativeHumidityPct: 80 };

export const climateEstimateRows: Table = {
  estimateDrying: { request: () => ({ body: { air: { airTempC: 20, relativeHumidityPct: 50 }, goods } }), unbound: everybodysOwn },
  estimateRoom: { request: () => ({ body: { room, goods: [goods] } }), unbound: everybodysOwn },
  estimateAcceptance: { request: () => ({ body: { room, waiting: [goods] } }), unbound: everybodysOwn },
  estimateClock: { request: () => ({ body: { start, until: '2026-05-09T06:00:00Z' } }), unbound: everybodysOwn },
  estimateLift: { request: () => ({ body: { loadKg: 8 } }), unbound: everybodysOwn },
  estimateHeat: { request: () => ({ body: { heat: { from: 'meter', wbgtC: 24 } } }), unbound: everybodysOwn },
};
