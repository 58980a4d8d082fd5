import { z } from 'zod';
import { code, IncidentParams, text, uuid } from '../primitives.js';
import { zoneKind } from './incident-document.js';

export const ShelfParams = IncidentParams.extend({ shelfId: uuid });
export const VehicleParams = IncidentParams.extend({ vehicleId: uuid });

/** Litres; null where nobody measured it, and then no limit is kept. */
const volumeL = z.int().min(1).max(1_000_000).nullable();
const maxLoadKg = z.int().min(1).max(100_000).nullable();
const version = z.int();

const SHELF = { id: '01970c1e-5a41-7100-8a11-1f2e3d4c5c01', siteId: '01970c1e-5a41-7100-8a11-1f2e3d4c5b02', code: 'A-3', name: 'Bay A, third shelf', zone: 'clean' as const, volumeL: 400, version: 1 };
const VEHICLE = { id: '01970c1e-5a41-7100-8a11-1f2e3d4c5c02', code: 'VAN1', name: 'White van of the school', volumeL: 6_000, maxLoadKg: 900, version: 1 };

export const ShelfBody = z
  .strictObject({ id: uuid, siteId: uuid, code: z.string(), name: z.string(), zone: zoneKind, volumeL, version })
  .meta({ id: 'Shelf', description: 'A numbered place of storage in a zone of a site. Where `volumeL` is null no limit is kept.', examples: [SHELF] });

export const VehicleBody = z
  .strictObject({ id: uuid, code: z.string(), name: z.string(), volumeL, maxLoadKg, version })
  .meta({ id: 'Vehicle', description: 'What carries things between sites, specialists and families. `maxLoadKg` is for whoever loads it: what wet things weigh is not known, so it is not reckoned against.', examples: [VEHICLE] });

export const AddShelf = z
  .strictObject({ siteId: uuid, code, name: text(200), zone: zoneKind, volumeL: volumeL.default(null) })
  .meta({ id: 'AddShelf', examples: [{ siteId: SHELF.siteId, code: 'A-3', name: 'Bay A, third shelf', zone: 'clean', volumeL: 400 }] });
export type AddShelf = z.output<typeof AddShelf>;

export const AddVehicle = z
  .strictObject({ code, name: text(200), volumeL: volumeL.default(null), maxLoadKg: maxLoadKg.default(null) })
  .meta({ id: 'AddVehicle', examples: [{ code: 'VAN1', name: 'White van of the school', volumeL: 6_000, maxLoadKg: 900 }] });
export type AddVehicle = z.output<typeof AddVehicle>;

export const ChangeShelf = z.strictObject({ name: text(200).optional(), volumeL: volumeL.optional() }).meta({ id: 'ChangeShelf', examples: [{ volumeL: 250 }] });
export type ChangeShelf = z.output<typeof ChangeShelf>;

export const ChangeVehicle = z.strictObject({ name: text(200).optional(), volumeL: volumeL.optional(), maxLoadKg: maxLoadKg.optional() }).meta({ id: 'ChangeVehicle', examples: [{ volumeL: 5_000 }] });
export type ChangeVehicle = z.output<typeof ChangeVehicle>;
