import type { Table } from '../row.js';

const everybodysOwn = { otherNetwork: 'own rows', otherIncident: 'own rows' } as const;

export const calibrationRows: Table = {
  getCalibration: { request: () => ({}), unbound: everybodysOwn },
  listCalibrationDecisions: { request: () => ({}), unbound: everybodysOwn },
  setCalibration: {
    request: async (incident) => ({
      params: { library: 'people', key: 'restHours' }, body: { value: 9, reason: 'Longer nights.', personId: incident.places.person('P1') }, ifMatch: await incident.etagOf('/v1/calibration'),
    }),
    references: { '#/personId': { values: (incident) => [incident.places.person('P1')], ofNetwork: true } },
    // Both networks have decided as often when the stranger asks; the lead is none of theirs.
    unbound: { otherNetwork: 'reference_unknown', otherIncident: 'scope_missing' },
    limitedKeyRefused: 'scope_missing',
  },
};
