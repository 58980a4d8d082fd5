import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { RegisterIncident } from '#contracts';

/** The smallest document that stands. */
function smallest(): Record<string, unknown> {
  return { name: 'Flood', floodAt: '2026-05-08T18:00:00Z', sites: [{ code: 'A', name: 'Hall', zones: ['dirty'] }] };
}

function pointers(document: unknown): string[] {
  const result = RegisterIncident.safeParse(document);
  return result.success ? [] : result.error.issues.map((issue) => issue.path.join('/')).sort();
}

describe('the document that registers an incident', () => {
  test('the smallest one is filled with defaults', () => {
    expect(RegisterIncident.parse(smallest())).toMatchObject({ place: '', defaultWater: 'black', outdoorAirTempC: null, people: [], specialists: [], sites: [{ stations: [], holdingAreas: [], dryingRooms: [], freezers: [] }] });
  });

  test('codes may come again in another site, but not in the same one', () => {
    const freezer = { code: 'F1', name: 'Freezer', volumeL: 100, availableFrom: '2026-05-09T06:00:00Z' };
    const site = (code: string, freezers: object[]) => ({ code, name: code, zones: ['cold'], freezers });
    expect(pointers({ ...smallest(), sites: [site('A', [freezer]), site('B', [freezer])] })).toEqual([]);
    expect(pointers({ ...smallest(), sites: [site('A', [freezer, freezer])] })).toEqual(['sites/0/freezers/1/code']);
    expect(pointers({ ...smallest(), sites: [site('A', []), site('A', [])] })).toEqual(['sites/1/code']);
  });

  test('a zone, a skill or a step named twice is a fault at its second place', () => {
    const station = { code: 'S', name: 'S', zone: 'dirty', capacity: 1, steps: ['rinse', 'rinse'] };
    expect(pointers({ ...smallest(), sites: [{ code: 'A', name: 'A', zones: ['dirty', 'dirty'], stations: [station] }], people: [{ code: 'P', displayName: 'P', site: 'A', skills: ['lead', 'lead'] }] })).toEqual(['people/0/skills/1', 'sites/0/stations/0/steps/1', 'sites/0/zones/1']);
  });

  test('an opening without length is a fault, a shift without length says that nobody came', () => {
    const at = '2026-05-09T06:00:00Z';
    const station = { code: 'S', name: 'S', zone: 'dirty', capacity: 1, steps: ['rinse'], openings: [{ opensAt: at, closesAt: at }] };
    expect(pointers({ ...smallest(), sites: [{ code: 'A', name: 'A', zones: ['dirty'], stations: [station] }], people: [{ code: 'P', displayName: 'P', site: 'A', shifts: [{ startsAt: at, endsAt: at }] }] })).toEqual(['sites/0/stations/0/openings/0/closesAt']);
  });

  test('times are compared as moments, whatever their offset', () => {
    const openings = [{ opensAt: '2026-05-09T08:00:00+02:00', closesAt: '2026-05-09T07:00:00Z' }];
    expect(pointers({ ...smallest(), sites: [{ code: 'A', name: 'A', zones: ['dirty'], stations: [{ code: 'S', name: 'S', zone: 'dirty', capacity: 1, steps: ['rinse'], openings }] }] })).toEqual([]);
  });

  test('whatever is sent, it is answered and never breaks the check', () => {
    const names = fc.constantFrom('name', 'sites', 'people', 'specialists', 'code', 'zones', 'stations', 'openings', 'holdingAreas', 'dryingRooms', 'dehumidifiers', 'steps', 'site', 'shifts', 'opensAt', 'zone');
    const { tree } = fc.letrec((tie) => ({
      tree: fc.oneof({ maxDepth: 6 }, fc.constantFrom<unknown>(null, true, 0, 'A', 'dirty', '2026-05-09T06:00:00Z'), fc.array(tie('tree'), { maxLength: 3 }), fc.dictionary(names, tie('tree'), { maxKeys: 5 })),
    }));
    fc.assert(fc.property(tree, (anything) => {
      expect(typeof RegisterIncident.safeParse(anything).success).toBe('boolean');
      expect(RegisterIncident.safeParse({ ...smallest(), sites: anything, people: anything }).success).toBe(false);
    }), { numRuns: 500 });
  });
});
