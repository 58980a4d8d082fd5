import { MATERIAL_CLASSES, RESTRICTIONS, SKILLS, STEP_KINDS, WATER_KINDS, ZONES } from '#care';
import { z } from 'zod';
import { airTempC, code, day, instant, optionalText, relativeHumidityPct, text } from '../primitives.js';

/** The parts of the document that registers an incident. Everything is named by a short `code`; ids are made by us. */

export const zoneKind = z.enum(ZONES);
export const stepKind = z.enum(STEP_KINDS);
export const skill = z.enum(SKILLS);
export const restriction = z.enum(RESTRICTIONS);
export const waterKind = z.enum(WATER_KINDS);
export const dryingArrangement = z.enum(['rack', 'line', 'screen', 'table']);
export const dehumidifierState = z.enum(['running', 'tripped', 'off']);

export const stationCapacity = z.int().min(1).max(500).describe('Items in work at once.');
export const freezerVolumeL = z.int().min(1).max(1_000_000);
export const placeAreaM2 = z.number().min(0.01).max(10_000).describe('Square metres; kept to the square decimetre.');

export const OpeningInput = z.strictObject({ opensAt: instant, closesAt: instant });
export const ShiftInput = z.strictObject({ startsAt: instant, endsAt: instant });

export const StationInput = z.strictObject({
  code,
  name: text(200),
  zone: zoneKind,
  steps: z.array(stepKind).min(1).max(STEP_KINDS.length),
  capacity: stationCapacity,
  openings: z.array(OpeningInput).max(60).default([]),
});

export const HoldingAreaInput = z.strictObject({ code, name: text(200), zone: zoneKind });

export const DehumidifierInput = z.strictObject({
  code,
  name: text(200),
  ratedLPerDay: z.number().min(0).max(5_000),
  ratedTempC: airTempC.describe('The air in which the label was rated; without it the label means nothing.'),
  ratedRelativeHumidityPct: relativeHumidityPct,
  state: dehumidifierState.default('running'),
});

export const DryingPlaceInput = z.strictObject({ code, name: text(200), arrangement: dryingArrangement, areaM2: placeAreaM2 });

export const DryingRoomInput = z.strictObject({
  code,
  name: text(200),
  volumeM3: z.number().positive().max(100_000),
  airChangesPerH: z.number().min(0).max(60),
  humidityCapPct: z.number().min(30).max(100).default(75).describe('Relative humidity that drying may not push the room above.'),
  airTempC,
  relativeHumidityPct,
  measuredAt: instant.describe('When the air was measured: old air says little.'),
  dehumidifiers: z.array(DehumidifierInput).max(50).default([]),
  dryingPlaces: z.array(DryingPlaceInput).max(300).default([]),
});

export const FreezerInput = z.strictObject({
  code,
  name: text(200),
  volumeL: freezerVolumeL,
  setPointC: z.number().min(-60).max(0).default(-18),
  availableFrom: instant,
});

export const SiteInput = z.strictObject({
  code,
  name: text(200),
  place: optionalText(300),
  zones: z.array(zoneKind).min(1).max(ZONES.length),
  stations: z.array(StationInput).max(200).default([]),
  holdingAreas: z.array(HoldingAreaInput).max(100).default([]),
  dryingRooms: z.array(DryingRoomInput).max(50).default([]),
  freezers: z.array(FreezerInput).max(100).default([]),
});

export const PersonInput = z.strictObject({
  code,
  displayName: text(100),
  site: code.describe('Code of a site of this document.'),
  skills: z.array(skill).max(SKILLS.length).default([]),
  restrictions: z.array(restriction).max(RESTRICTIONS.length).default([]),
  respiratorFitUntil: day.nullable().default(null).describe('Last day on which medical fitness and fit test for a tight respirator are valid; a date and never a finding.'),
  shifts: z.array(ShiftInput).max(60).default([]),
});

/** What a specialist can take; not known where nobody has said. Our planner reckons with it, and promises nothing in their name. */
export const specialistTakes = {
  piecesAtOnce: z.int().min(1).max(500).nullable().describe('Things that are on the bench at once; null for not known.'),
  hoursPerPiece: z.number().min(0.05).max(720).nullable().describe('Hours of work that a thing takes on the bench until the next can have its place; null for not known.'),
  materialClasses: z.array(z.enum(MATERIAL_CLASSES)).max(MATERIAL_CLASSES.length).nullable().describe('What they take; null or empty for every material.'),
  openings: z.array(OpeningInput).max(60).nullable().describe('When a thing can be on the bench; null or empty for whenever.'),
};

export const SpecialistInput = z.strictObject({
  code, name: text(200), field: text(200),
  piecesAtOnce: specialistTakes.piecesAtOnce.default(null), hoursPerPiece: specialistTakes.hoursPerPiece.default(null),
  materialClasses: specialistTakes.materialClasses.default(null), openings: specialistTakes.openings.default(null),
});
