import { z } from 'zod';
import { code, instant, IncidentParams, text, uuid } from '../primitives.js';
import { zoneKind } from './incident-document.js';

export const ShelfParams = IncidentParams.extend({ shelfId: uuid });
export const VehicleParams = IncidentParams.extend({ vehicleId: uuid });

/** Litres; null where nobody measured it, and then no limit is kept. */
const volumeL = z.int().min(1).max(1_000_000).nullable();
const maxLoadKg = z.int().min(1).max(100_000).nullable();
const version = z.int();

const rideMinutes = z.int().min(1).max(1_440).describe('From leaving to being there, with the time that loading and unloading take.');
const Ride = z.strictObject({ fromSiteId: uuid, toSiteId: uuid, minutes: rideMinutes });
const ridesInput = z
  .array(Ride)
  .max(50)
  .superRefine((rides, context) => {
    rides.forEach(({ fromSiteId, toSiteId }, index) => {
      if (fromSiteId === toSiteId) context.addIssue({ code: 'custom', path: [index, 'toSiteId'], message: 'is the site that the ride begins at' });
      if (rides.findIndex((other) => other.fromSiteId === fromSiteId && other.toSiteId === toSiteId) < index) context.addIssue({ code: 'custom', path: [index], message: 'is a ride between sites that another ride of this list makes already' });
    });
  })
  .nullable()
  .describe('Rides between sites, one direction each, in the order in which they are made; the list is given whole. Null: not known, and no plan reckons with them.');
const runsInput = z
  .array(z.strictObject({ startsAt: instant, endsAt: instant }))
  .max(60)
  .superRefine((runs, context) => {
    runs.forEach(({ startsAt, endsAt }, index) => {
      if (Date.parse(endsAt) <= Date.parse(startsAt)) context.addIssue({ code: 'custom', path: [index, 'endsAt'], message: 'is not after the beginning' });
    });
  })
  .describe('When it runs; the list is given whole. None: whenever people work.');

const SHELF = { id: '01970c1e-5a41-7100-8a11-1f2e3d4c5c01', siteId: '01970c1e-5a41-7100-8a11-1f2e3d4c5b02', code: 'A-3', name: 'Bay A, third shelf', zone: 'clean' as const, volumeL: 400, version: 1 };
const VEHICLE = { id: '01970c1e-5a41-7100-8a11-1f2e3d4c5c02', code: 'VAN1', name: 'White van of the school', volumeL: 6_000, maxLoadKg: 900, rides: null, runs: [], version: 1 };
const RIDE = { fromSiteId: SHELF.siteId, toSiteId: '01970c1e-5a41-7100-8a11-1f2e3d4c5b0e', minutes: 25 };

export const ShelfBody = z
  .strictObject({ id: uuid, siteId: uuid, code: z.string(), name: z.string(), zone: zoneKind, volumeL, version })
  .meta({ id: 'Shelf', description: 'A numbered place of storage in a zone of a site. Where `volumeL` is null no limit is kept.', examples: [SHELF] });

export const VehicleBody = z
  .strictObject({
    id: uuid, code: z.string(), name: z.string(), volumeL, maxLoadKg,
    /** Null: not known. */
    rides: z.array(Ride.extend({ id: uuid })).nullable(),
    runs: z.array(z.strictObject({ startsAt: z.string(), endsAt: z.string() })),
    version,
  })
  .meta({ id: 'Vehicle', description: 'What carries things between sites, specialists and families. A plan reckons with it when its rides and its `maxLoadKg` are known, by what wet things are reckoned to weigh; nobody has weighed them, so whoever loads it looks at the load.', examples: [VEHICLE] });

export const AddShelf = z
  .strictObject({ siteId: uuid, code, name: text(200), zone: zoneKind, volumeL: volumeL.default(null) })
  .meta({ id: 'AddShelf', examples: [{ siteId: SHELF.siteId, code: 'A-3', name: 'Bay A, third shelf', zone: 'clean', volumeL: 400 }] });
export type AddShelf = z.output<typeof AddShelf>;

export const AddVehicle = z
  .strictObject({ code, name: text(200), volumeL: volumeL.default(null), maxLoadKg: maxLoadKg.default(null), rides: ridesInput.default(null), runs: runsInput.default([]) })
  .meta({ id: 'AddVehicle', examples: [{ code: 'VAN1', name: 'White van of the school', volumeL: 6_000, maxLoadKg: 900, rides: [RIDE], runs: [{ startsAt: '2026-05-09T08:00:00Z', endsAt: '2026-05-09T18:00:00Z' }] }] });
export type AddVehicle = z.output<typeof AddVehicle>;

export const ChangeShelf = z.strictObject({ name: text(200).optional(), volumeL: volumeL.optional() }).meta({ id: 'ChangeShelf', examples: [{ volumeL: 250 }] });
export type ChangeShelf = z.output<typeof ChangeShelf>;

export const ChangeVehicle = z.strictObject({ name: text(200).optional(), volumeL: volumeL.optional(), maxLoadKg: maxLoadKg.optional(), rides: ridesInput.optional(), runs: runsInput.optional() }).meta({ id: 'ChangeVehicle', examples: [{ volumeL: 5_000, rides: [RIDE] }] });
export type ChangeVehicle = z.output<typeof ChangeVehicle>;
