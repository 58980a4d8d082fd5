import { z } from 'zod';
import { airTempC, instant, optionalText, PageQuery, relativeHumidityPct, text, uuid } from '../primitives.js';
import { incidentDocumentFaults } from './incident-document-faults.js';
import { PersonInput, SiteInput, SpecialistInput, waterKind } from './incident-document.js';

export const incidentState = z.enum(['open', 'closed']);
const planPublishing = z.enum(['automatic', 'by-hand']);

const REGISTER_EXAMPLE = {
  name: 'River Selm flood',
  place: 'Lower Selm valley',
  floodAt: '2026-05-08T18:00:00Z',
  defaultWater: 'black',
  outdoorAirTempC: 24,
  outdoorRelativeHumidityPct: 90,
  sites: [
    {
      code: 'HALL',
      name: 'Old dye works',
      place: 'Tenter Lane 4',
      zones: ['dirty', 'clean'],
      stations: [{ code: 'RINSE', name: 'Rinse baths', zone: 'dirty', steps: ['rinse'], capacity: 4, openings: [{ opensAt: '2026-05-09T07:00:00Z', closesAt: '2026-05-09T20:00:00Z' }] }],
      holdingAreas: [{ code: 'DOOR', name: 'Tables at the door', zone: 'dirty' }],
      dryingRooms: [
        {
          code: 'ROOM', name: 'Upper hall', volumeM3: 600, airChangesPerH: 0.5, humidityCapPct: 75, airTempC: 21, relativeHumidityPct: 62, measuredAt: '2026-05-09T06:45:00Z',
          dehumidifiers: [{ code: 'D1', name: 'Dehumidifier by the stage', ratedLPerDay: 70, ratedTempC: 26.7, ratedRelativeHumidityPct: 60, state: 'running' }],
          dryingPlaces: [{ code: 'R1', name: 'Rack 1', arrangement: 'rack', areaM2: 30 }],
        },
      ],
      freezers: [{ code: 'F1', name: 'Chest freezer', volumeL: 300, setPointC: -20, availableFrom: '2026-05-09T07:00:00Z' }],
    },
  ],
  people: [{ code: 'P1', displayName: 'Volunteer one', site: 'HALL', skills: ['rinsing'], restrictions: ['no-mould'], shifts: [{ startsAt: '2026-05-09T07:00:00Z', endsAt: '2026-05-09T13:00:00Z' }] }],
  specialists: [{ code: 'SP1', name: 'Paper studio', field: 'paper' }],
};

/** One document registers the whole incident; all its faults, of form and of reference, are answered together. */
export const RegisterIncident = z
  .strictObject({
    name: text(200),
    place: optionalText(300),
    floodAt: instant.describe('When the water came: the clock of every item whose own wetting time is not known.'),
    defaultWater: waterKind.default('black').describe('Water that is assumed until somebody knows better; `black` treats it as contaminated by sewage.'),
    outdoorAirTempC: airTempC.nullable().default(null),
    outdoorRelativeHumidityPct: relativeHumidityPct.nullable().default(null),
    sites: z.array(SiteInput).min(1).max(50),
    people: z.array(PersonInput).max(2_000).default([]),
    specialists: z.array(SpecialistInput).max(200).default([]),
  })
  .superRefine(
    (document, context) => {
      for (const fault of incidentDocumentFaults(document)) context.addIssue({ code: 'custom', path: fault.path, message: fault.message });
    },
    // Also when some values are of the wrong form: a person who types the document corrects it once, not twice.
    { when: () => true },
  )
  .meta({ id: 'RegisterIncident', description: 'An incident with its sites, stations, rooms, freezers, people and specialists, named by short codes.', examples: [REGISTER_EXAMPLE] });
/** The document as it was read: defaults filled in. */
export type RegisterIncident = z.output<typeof RegisterIncident>;
/** The document as a client writes it. */
export type RegisterIncidentInput = z.input<typeof RegisterIncident>;

/** Merge patch (RFC 7396) of an incident; a null of the outdoor air says that it is not known. */
export const ChangeIncident = z
  .strictObject({
    name: text(200).optional(),
    place: text(300, 0).optional(),
    state: incidentState.optional(),
    planPublishing: planPublishing.optional().describe('`by-hand`: a new plan is a proposal, and work follows the plan before until a coordinator publishes it.'),
    outdoorAirTempC: airTempC.nullable().optional(),
    outdoorRelativeHumidityPct: relativeHumidityPct.nullable().optional(),
  })
  .meta({ id: 'ChangeIncident', examples: [{ outdoorAirTempC: 18.5, outdoorRelativeHumidityPct: 84 }] });
export type ChangeIncident = z.output<typeof ChangeIncident>;

export const IncidentListQuery = PageQuery;

export const INCIDENT_EXAMPLE = {
  id: '01970c1e-5a40-7d31-9c52-6f1f0f5a7e21',
  name: 'River Selm flood',
  place: 'Lower Selm valley',
  floodAt: '2026-05-08T18:00:00.000Z',
  defaultWater: 'black' as const,
  outdoorAirTempC: 24,
  outdoorRelativeHumidityPct: 90,
  state: 'open' as const,
  planPublishing: 'automatic' as const,
  version: 1,
  createdAt: '2026-05-09T05:40:00.000Z',
  updatedAt: '2026-05-09T05:40:00.000Z',
};

export const IncidentBody = z
  .strictObject({
    id: uuid,
    name: z.string(),
    place: z.string(),
    floodAt: instant,
    defaultWater: waterKind,
    outdoorAirTempC: airTempC.nullable(),
    outdoorRelativeHumidityPct: relativeHumidityPct.nullable(),
    state: incidentState,
    /** How a new plan comes into force. */
    planPublishing,
    version: z.int(),
    createdAt: instant,
    updatedAt: instant,
  })
  .meta({ id: 'Incident', description: 'One disaster for one network. `version` is the number of its ETag.', examples: [INCIDENT_EXAMPLE] });
export type IncidentBody = z.output<typeof IncidentBody>;
