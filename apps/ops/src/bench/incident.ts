import type { RegisterIncidentInput } from '#contracts';

/** The smallest incident that work can be measured on. */
export function incidentForBench(): RegisterIncidentInput {
  const day = { opensAt: '2026-05-09T06:00:00Z', closesAt: '2026-05-09T20:00:00Z' };
  return {
    name: 'Bench incident',
    floodAt: '2026-05-08T18:00:00Z',
    sites: [
      {
        code: 'HALL', name: 'Bench hall', zones: ['dirty', 'clean', 'quarantine', 'cold'],
        stations: [{ code: 'RINSE', name: 'Rinse', zone: 'dirty', steps: ['rinse'], capacity: 4, openings: [day] }],
        dryingRooms: [{ code: 'ROOM', name: 'Room', volumeM3: 600, airChangesPerH: 0.5, airTempC: 20, relativeHumidityPct: 60, measuredAt: '2026-05-09T06:00:00Z', dryingPlaces: [{ code: 'R1', name: 'Rack', arrangement: 'rack', areaM2: 100 }] }],
      },
    ],
  };
}
