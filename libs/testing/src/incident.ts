import type { RegisterIncidentInput } from '#contracts';

const OPEN = [{ opensAt: '2026-05-09T06:00:00Z', closesAt: '2026-05-09T20:00:00Z' }, { opensAt: '2026-05-10T06:00:00Z', closesAt: '2026-05-10T20:00:00Z' }];
const SHIFT = [{ startsAt: '2026-05-09T07:00:00Z', endsAt: '2026-05-09T19:00:00Z' }, { startsAt: '2026-05-10T07:00:00Z', endsAt: '2026-05-10T19:00:00Z' }];

/** A small incident: one site with every zone and kind of station, one drying room, one freezer, four people, one specialist. */
export function incidentDocument(): RegisterIncidentInput {
  const station = (code: string, zone: 'dirty' | 'clean' | 'quarantine' | 'cold', steps: RegisterIncidentInput['sites'][0]['stations'] extends (infer S)[] | undefined ? (S extends { steps: infer T } ? T : never) : never, capacity = 2) => ({ code, name: `Station ${code}`, zone, steps, capacity, openings: OPEN });
  return {
    name: 'High water at Elmsford Reach',
    place: 'Elmsford Reach (invented)',
    floodAt: '2026-05-08T18:00:00Z',
    outdoorAirTempC: 24,
    outdoorRelativeHumidityPct: 90,
    sites: [
      {
        code: 'HALL',
        name: 'Weir Lane hall',
        zones: ['dirty', 'clean', 'quarantine', 'cold'],
        stations: [
          station('TEST', 'dirty', ['assess', 'colour-test', 'photograph']),
          station('RINSE', 'dirty', ['rinse', 'stabilise']),
          station('BLOT', 'clean', ['blot', 'surface-clean']),
          station('WRAP', 'cold', ['wrap', 'freeze', 'thaw']),
          station('QUAR', 'quarantine', ['surface-clean', 'wrap', 'stabilise']),
          station('PACK', 'clean', ['check', 'pack', 'hand-back', 'refer', 'dry']),
        ],
        dryingRooms: [
          {
            code: 'ROOM', name: 'Drying room', volumeM3: 600, airChangesPerH: 0.5, airTempC: 20, relativeHumidityPct: 60, measuredAt: '2026-05-09T06:30:00Z',
            dehumidifiers: [{ code: 'D1', name: 'Dehumidifier 1', ratedLPerDay: 70, ratedTempC: 26.7, ratedRelativeHumidityPct: 60 }],
            dryingPlaces: [
              { code: 'R1', name: 'Rack 1', arrangement: 'rack', areaM2: 30 },
              { code: 'S1', name: 'Screen 1', arrangement: 'screen', areaM2: 12 },
            ],
          },
        ],
        freezers: [{ code: 'F1', name: 'Chest freezer 1', volumeL: 300, availableFrom: '2026-05-09T06:00:00Z' }],
      },
    ],
    people: [
      { code: 'P1', displayName: 'Lead one', site: 'HALL', skills: ['lead', 'assessment', 'colour-testing', 'rinsing', 'blotting', 'drying', 'paper', 'photographs', 'freezer-wrapping', 'mould-work'], respiratorFitUntil: '2027-04-30', shifts: SHIFT },
      { code: 'P2', displayName: 'Tester two', site: 'HALL', skills: ['intake', 'colour-testing', 'rinsing', 'blotting'], shifts: SHIFT },
      { code: 'P3', displayName: 'Helper three', site: 'HALL', skills: ['rinsing', 'blotting', 'drying', 'freezer-wrapping'], restrictions: ['no-mould'], shifts: SHIFT },
      { code: 'P4', displayName: 'Helper four', site: 'HALL', skills: ['paper', 'photographs', 'drying', 'freezer-wrapping', 'rinsing', 'blotting'], shifts: SHIFT },
    ],
    specialists: [{ code: 'SP1', name: 'Paintings and parchment studio', field: 'paintings, parchment' }],
  };
}

/** Ids of the registered incident by the codes of the document. */
export interface IncidentOnTest {
  id: string;
  site(code?: string): string;
  station(code: string): string;
  holding(zone: string): string;
  room(code: string): string;
  dehumidifier(code: string): string;
  place(code: string): string;
  freezer(code: string): string;
  person(code: string): string;
  specialist(code: string): string;
  layout: Layout;
}

interface Coded {
  id: string;
  code: string;
}

/** What `GET /v1/incidents/{id}/layout` answers, as far as the tests read it. */
export interface Layout {
  sites: (Coded & {
    stations: Coded[];
    holdingAreas: (Coded & { zone: string })[];
    dryingRooms: (Coded & { dehumidifiers: Coded[]; dryingPlaces: Coded[] })[];
    freezers: Coded[];
  })[];
  people: Coded[];
  specialists: Coded[];
}

export function indexLayout(incidentId: string, layout: Layout): IncidentOnTest {
  const pick = (list: Coded[], code: string): string => {
    const found = list.find((entry) => entry.code === code);
    if (!found) throw new Error(`the layout has no ${code}`);
    return found.id;
  };
  const { sites } = layout;
  return {
    id: incidentId,
    site: (code) => (code === undefined ? (sites[0]?.id ?? '') : pick(sites, code)),
    station: (code) => pick(sites.flatMap((site) => site.stations), code),
    holding: (zone) => {
      const area = sites.flatMap((site) => site.holdingAreas).find((entry) => entry.zone === zone);
      if (!area) throw new Error(`the layout has no holding area in zone ${zone}`);
      return area.id;
    },
    room: (code) => pick(sites.flatMap((site) => site.dryingRooms), code),
    dehumidifier: (code) => pick(sites.flatMap((site) => site.dryingRooms.flatMap((room) => room.dehumidifiers)), code),
    place: (code) => pick(sites.flatMap((site) => site.dryingRooms.flatMap((room) => room.dryingPlaces)), code),
    freezer: (code) => pick(sites.flatMap((site) => site.freezers), code),
    person: (code) => pick(layout.people, code),
    specialist: (code) => pick(layout.specialists, code),
    layout,
  };
}
