import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { type ConfigStores, type LayoutRecords, registerIncident, type UseCaseCall } from '#application';
import { RegisterIncident } from '#contracts';

/** Runs the use case against stores that only remember: the rows are what is looked at here. */
async function rowsOf(document: unknown): Promise<LayoutRecords> {
  let kept: LayoutRecords | undefined;
  const layout = { insertIncident: async () => undefined, insertLayout: async (rows: LayoutRecords) => void (kept = rows) };
  let next = 0;
  const call: UseCaseCall = { context: { networkId: 'n', incidentLimit: null, principalId: 'p', requestId: 'r', traceparent: '' }, env: { nowMs: 1, newId: () => `id-${(next += 1)}` } };
  await registerIncident({ layout } as unknown as ConfigStores, call, RegisterIncident.parse(document));
  if (!kept) throw new Error('nothing was inserted');
  return kept;
}

const zones = fc.uniqueArray(fc.constantFrom('dirty', 'clean', 'quarantine', 'cold'), { minLength: 1 });
const site = fc.record({ zones, own: fc.array(fc.nat(3), { maxLength: 4 }), places: fc.array(fc.integer({ min: 1, max: 5_000 }), { maxLength: 4 }) });

describe('the rows of a registered incident', () => {
  test('every zone has a waiting area, every id is its own, and every parent is there', async () => {
    await fc.assert(
      fc.asyncProperty(fc.array(site, { minLength: 1, maxLength: 4 }), async (sites) => {
        const rows = await rowsOf({
          name: 'Flood', floodAt: '2026-05-08T18:00:00Z',
          sites: sites.map((entry, index) => ({
            code: `S${index}`, name: 'Hall', zones: entry.zones,
            holdingAreas: entry.own.map((pick, n) => ({ code: `H${n}`, name: 'Yard', zone: entry.zones[pick % entry.zones.length] })),
            dryingRooms: [{ code: 'R', name: 'Room', volumeM3: 1, airChangesPerH: 0, airTempC: 20, relativeHumidityPct: 50, measuredAt: '2026-05-09T06:00:00Z', dryingPlaces: entry.places.map((dm2, n) => ({ code: `P${n}`, name: 'Rack', arrangement: 'rack', areaM2: dm2 / 100 })) }],
          })),
          people: sites.map((_, index) => ({ code: `P${index}`, displayName: 'Somebody', site: `S${index}` })),
        });
        for (const zone of rows.zones) expect(rows.holdingAreas.some((area) => area.zoneId === zone.id && area.siteId === zone.siteId)).toBe(true);
        const ids = Object.values(rows).flat().map((row) => row.id);
        expect(new Set(ids).size).toBe(ids.length);
        const siteIds = rows.sites.map((row) => row.id);
        expect(rows.people.map((person) => person.siteId)).toEqual(siteIds);
        expect(rows.dryingPlaces.map((place) => place.areaDm2)).toEqual(sites.flatMap((entry) => entry.places));
      }),
      { numRuns: 100 },
    );
  });
});
