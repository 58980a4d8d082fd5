import { MATERIAL_CLASSES, RESTRICTIONS, SKILLS } from '#care';
import { z } from 'zod';
import { airTempC, code, day, instant, IncidentParams, relativeHumidityPct, text, uuid } from '../primitives.js';
import {
  dehumidifierState, DryingPlaceInput, dryingArrangement, FreezerInput, freezerVolumeL, PersonInput, placeAreaM2, restriction, skill, specialistTakes, stationCapacity, stepKind, zoneKind,
} from './incident-document.js';
import { specialistFaults } from './incident-document-faults.js';
import { INCIDENT_EXAMPLE, IncidentBody } from './incidents.js';
import { ShelfBody, VehicleBody } from './storage.js';

export const stationState = z.enum(['open', 'closed']);

export const StationParams = IncidentParams.extend({ stationId: uuid });
export const DryingRoomParams = IncidentParams.extend({ dryingRoomId: uuid });
export const DehumidifierParams = IncidentParams.extend({ dehumidifierId: uuid });
export const ShiftParams = IncidentParams.extend({ shiftId: uuid });
export const PersonParams = IncidentParams.extend({ personId: uuid });
export const FreezerParams = IncidentParams.extend({ freezerId: uuid });
export const SpecialistParams = IncidentParams.extend({ specialistId: uuid });

const FREEZER = { id: '01970c1e-5a41-7100-8a11-1f2e3d4c5b01', siteId: '01970c1e-5a41-7100-8a11-1f2e3d4c5b02', code: 'F2', name: 'Trailer of a partner', volumeL: 6000, setPointC: -20, availableFrom: '2026-05-09T16:00:00.000Z', version: 1 };
const PLACE = { id: '01970c1e-5a41-7100-8a11-1f2e3d4c5b03', dryingRoomId: '01970c1e-5a41-7100-8a11-1f2e3d4c5b04', code: 'R7', name: 'Rack 7', arrangement: 'rack' as const, areaM2: 12, version: 1 };
const SHIFT = { id: '01970c1e-5a41-7100-8a11-1f2e3d4c5b05', startsAt: '2026-05-09T07:00:00.000Z', endsAt: '2026-05-09T13:00:00.000Z', version: 1 };
const PERSON = { id: '01970c1e-5a41-7100-8a11-1f2e3d4c5b06', siteId: FREEZER.siteId, code: 'P9', displayName: 'Volunteer nine', skills: ['colour-testing' as const], restrictions: ['no-mould' as const], respiratorFitUntil: '2027-04-30', version: 1, shifts: [SHIFT] };
const STATION = { id: '01970c1e-5a41-7100-8a11-1f2e3d4c5b07', code: 'RINSE', name: 'Rinse baths', zone: 'dirty' as const, steps: ['rinse' as const], capacity: 4, state: 'open' as const, version: 1, openings: [{ id: '01970c1e-5a41-7100-8a11-1f2e3d4c5b08', opensAt: '2026-05-09T07:00:00.000Z', closesAt: '2026-05-09T20:00:00.000Z' }] };
const DEHUMIDIFIER = { id: '01970c1e-5a41-7100-8a11-1f2e3d4c5b09', code: 'D1', name: 'Dehumidifier by the stage', ratedLPerDay: 70, ratedTempC: 26.7, ratedRelativeHumidityPct: 60, state: 'running' as const, version: 1 };
const ROOM_AIR = { airTempC: 21, relativeHumidityPct: 62, measuredAt: '2026-05-09T06:45:00.000Z' };
const ROOM = { id: PLACE.dryingRoomId, code: 'ROOM', name: 'Upper hall', volumeM3: 600, airChangesPerH: 0.5, humidityCapPct: 75, ...ROOM_AIR, version: 1 };
const READING = { id: '01970c1e-5a41-7100-8a11-1f2e3d4c5b0a', dryingRoomId: PLACE.dryingRoomId, airTempC: 22.5, relativeHumidityPct: 84, measuredAt: '2026-05-09T14:05:00.000Z', recordedAt: '2026-05-09T14:06:10.000Z' };

const coded = { id: uuid, code: z.string(), name: z.string() };
const version = z.int();

/** Words of a vocabulary, each once. */
function words<T extends z.ZodEnum>(word: T, all: readonly string[]) {
  return z.array(word).max(all.length).refine((given) => new Set(given).size === given.length, { message: 'names a word twice' });
}

export const OpeningBody = z.strictObject({ id: uuid, opensAt: instant, closesAt: instant });

export const StationBody = z
  .strictObject({ ...coded, zone: zoneKind, steps: z.array(stepKind), capacity: stationCapacity, state: stationState, version, openings: z.array(OpeningBody) })
  .meta({ id: 'Station', description: 'One place that does certain steps, on so many items at once.', examples: [STATION] });

export const HoldingAreaBody = z.strictObject({ ...coded, zone: zoneKind }).meta({ id: 'HoldingArea', description: 'Where items of a zone wait.', examples: [{ id: '01970c1e-5a41-7100-8a11-1f2e3d4c5b0b', code: 'HOLD-dirty', name: 'Waiting area, dirty zone', zone: 'dirty' }] });

export const DehumidifierBody = z
  .strictObject({ ...coded, ratedLPerDay: z.number(), ratedTempC: z.number(), ratedRelativeHumidityPct: z.number(), state: dehumidifierState, version })
  .meta({ id: 'Dehumidifier', description: 'A dehumidifier with its label; what it takes out of this air is another figure.', examples: [DEHUMIDIFIER] });

export const DryingPlaceBody = z
  .strictObject({ ...coded, dryingRoomId: uuid, arrangement: dryingArrangement, areaM2: placeAreaM2, version })
  .meta({ id: 'DryingPlace', description: 'A rack, line, screen or table.', examples: [PLACE] });

export const DryingRoomBody = z
  .strictObject({
    ...coded, volumeM3: z.number(), airChangesPerH: z.number(), humidityCapPct: z.number(), airTempC, relativeHumidityPct, measuredAt: instant, version,
    dehumidifiers: z.array(DehumidifierBody), dryingPlaces: z.array(DryingPlaceBody),
  })
  .meta({ id: 'DryingRoom', description: 'A room with its air as it was last measured; the air limits how much can dry at once.', examples: [{ ...ROOM, dehumidifiers: [DEHUMIDIFIER], dryingPlaces: [PLACE] }] });

export const FreezerBody = z
  .strictObject({ ...coded, siteId: uuid, volumeL: z.int(), setPointC: z.number(), availableFrom: instant, version })
  .meta({ id: 'Freezer', description: 'A freezer with its whole volume; freezing stops the clocks and improves nothing.', examples: [FREEZER] });

export const ShiftBody = z.strictObject({ id: uuid, startsAt: instant, endsAt: instant, version }).meta({ id: 'Shift', description: 'When somebody is here.', examples: [SHIFT] });

export const PersonBody = z
  .strictObject({ id: uuid, siteId: uuid, code: z.string(), displayName: z.string(), skills: z.array(skill), restrictions: z.array(restriction), respiratorFitUntil: z.string().nullable(), version, shifts: z.array(ShiftBody) })
  .meta({ id: 'Person', description: 'Somebody who works at a site. Restrictions are declared by the person and never a diagnosis; `respiratorFitUntil` is the last day on which medical fitness and fit test for a tight respirator are valid.', examples: [PERSON] });

const SPECIALIST = {
  id: '01970c1e-5a41-7100-8a11-1f2e3d4c5b0c', code: 'SP1', name: 'Paper studio', field: 'paper', piecesAtOnce: 2, hoursPerPiece: 6, materialClasses: ['parchment' as const],
  openings: [{ opensAt: '2026-05-11T08:00:00.000Z', closesAt: '2026-05-11T18:00:00.000Z' }], version: 2,
};
export const SpecialistBody = z
  .strictObject({
    ...coded, field: z.string(), piecesAtOnce: specialistTakes.piecesAtOnce, hoursPerPiece: specialistTakes.hoursPerPiece, materialClasses: z.array(z.enum(MATERIAL_CLASSES)).describe('Empty for every material.'),
    openings: z.array(z.strictObject({ opensAt: instant, closesAt: instant })).describe('Empty for whenever.'), version,
  })
  .meta({ id: 'Specialist', description: 'A conservator elsewhere, with what they said they can take. Plans reckon with those of whom it is known; whether and when they take a thing is theirs to say.', examples: [SPECIALIST] });

export const SiteBody = z
  .strictObject({
    ...coded, place: z.string(), version, zones: z.array(z.strictObject({ id: uuid, kind: zoneKind })),
    stations: z.array(StationBody), holdingAreas: z.array(HoldingAreaBody), dryingRooms: z.array(DryingRoomBody), freezers: z.array(FreezerBody), shelves: z.array(ShelfBody),
  })
  .meta({ id: 'Site', description: 'One building or yard with its zones.', examples: [{ id: FREEZER.siteId, code: 'HALL', name: 'Old dye works', place: 'Tenter Lane 4', version: 1, zones: [{ id: '01970c1e-5a41-7100-8a11-1f2e3d4c5b0d', kind: 'dirty' }], stations: [STATION], holdingAreas: [], dryingRooms: [], freezers: [FREEZER], shelves: [] }] });

export const LayoutBody = z
  .strictObject({ incident: IncidentBody, sites: z.array(SiteBody), people: z.array(PersonBody), specialists: z.array(SpecialistBody), vehicles: z.array(VehicleBody) })
  .meta({ id: 'Layout', description: 'The whole layout of an incident with ids and versions; lists are in the order of their codes.', examples: [{ incident: INCIDENT_EXAMPLE, sites: [], people: [PERSON], specialists: [], vehicles: [] }] });

export const AddFreezer = FreezerInput.extend({ siteId: uuid }).meta({ id: 'AddFreezer', examples: [{ siteId: FREEZER.siteId, code: 'F2', name: 'Trailer of a partner', volumeL: 6000, setPointC: -20, availableFrom: '2026-05-09T16:00:00Z' }] });
export type AddFreezer = z.output<typeof AddFreezer>;

export const AddDryingPlace = DryingPlaceInput.extend({ dryingRoomId: uuid }).meta({ id: 'AddDryingPlace', examples: [{ dryingRoomId: PLACE.dryingRoomId, code: 'R7', name: 'Rack 7', arrangement: 'rack', areaM2: 12 }] });
export type AddDryingPlace = z.output<typeof AddDryingPlace>;

export const AddPerson = PersonInput.omit({ site: true })
  .extend({ siteId: uuid, code })
  .superRefine((person, context) => {
    person.shifts.forEach((shift, index) => {
      if (Date.parse(shift.endsAt) < Date.parse(shift.startsAt)) context.addIssue({ code: 'custom', path: ['shifts', index, 'endsAt'], message: 'the shift ends before it starts' });
    });
  })
  .meta({ id: 'AddPerson', examples: [{ siteId: FREEZER.siteId, code: 'P9', displayName: 'Volunteer nine', skills: ['colour-testing'], restrictions: ['no-mould'], respiratorFitUntil: '2027-04-30', shifts: [{ startsAt: '2026-05-09T07:00:00Z', endsAt: '2026-05-09T13:00:00Z' }] }] });
export type AddPerson = z.output<typeof AddPerson>;

export const ChangeStation = z.strictObject({ name: text(200).optional(), state: stationState.optional(), capacity: stationCapacity.optional() }).meta({ id: 'ChangeStation', examples: [{ state: 'closed' }] });
export type ChangeStation = z.output<typeof ChangeStation>;

export const ChangeDehumidifier = z.strictObject({ state: dehumidifierState.optional() }).meta({ id: 'ChangeDehumidifier', examples: [{ state: 'tripped' }] });
export type ChangeDehumidifier = z.output<typeof ChangeDehumidifier>;

export const ChangeShift = z.strictObject({ endsAt: instant.optional() }).meta({ id: 'ChangeShift', examples: [{ endsAt: '2026-05-09T12:00:00Z' }] });
export type ChangeShift = z.output<typeof ChangeShift>;

export const ChangePerson = z
  .strictObject({ skills: words(skill, SKILLS).optional(), restrictions: words(restriction, RESTRICTIONS).optional(), respiratorFitUntil: day.nullable().optional() })
  .meta({ id: 'ChangePerson', examples: [{ skills: ['rinsing', 'mould-work'], respiratorFitUntil: '2027-04-30' }] });
export type ChangePerson = z.output<typeof ChangePerson>;

export const ChangeFreezer = z.strictObject({ volumeL: freezerVolumeL.optional(), availableFrom: instant.optional() }).meta({ id: 'ChangeFreezer', examples: [{ availableFrom: '2026-05-09T15:30:00Z' }] });
export type ChangeFreezer = z.output<typeof ChangeFreezer>;

export const ChangeSpecialist = z
  .strictObject({
    name: text(200).optional(), field: text(200).optional(), piecesAtOnce: specialistTakes.piecesAtOnce.optional(), hoursPerPiece: specialistTakes.hoursPerPiece.optional(),
    materialClasses: specialistTakes.materialClasses.optional(), openings: specialistTakes.openings.optional(),
  })
  .superRefine((body, context) => {
    // Whether the pair is whole shows only beside what is on record.
    for (const { path, message } of specialistFaults({ materialClasses: body.materialClasses, openings: body.openings })) context.addIssue({ code: 'custom', path, message });
  })
  .meta({ id: 'ChangeSpecialist', examples: [{ piecesAtOnce: 2, hoursPerPiece: 6, materialClasses: ['parchment'], openings: [{ opensAt: '2026-05-11T08:00:00Z', closesAt: '2026-05-11T18:00:00Z' }] }] });
export type ChangeSpecialist = z.output<typeof ChangeSpecialist>;

export const RecordRoomReading = z.strictObject({ airTempC, relativeHumidityPct, measuredAt: instant }).meta({ id: 'RecordRoomReading', examples: [{ airTempC: 22.5, relativeHumidityPct: 84, measuredAt: '2026-05-09T14:05:00Z' }] });
export type RecordRoomReading = z.output<typeof RecordRoomReading>;

export const RoomReadingBody = z
  .strictObject({
    id: uuid, dryingRoomId: uuid, airTempC, relativeHumidityPct, measuredAt: instant, recordedAt: instant,
    becameCurrent: z.boolean().describe("False when newer air was known already: the reading is kept, the room's air stays."),
  })
  .meta({ id: 'RoomReading', description: 'A reading of the air of a drying room.', examples: [{ ...READING, becameCurrent: true }] });
