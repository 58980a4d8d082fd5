import { z } from 'zod';
import { code, IncidentParams, PageQuery, text, uuid } from '../primitives.js';

const id = '0198b7a0-0000-7000-8000-000000000001';

/** Where air is measured. */
export const climatePlaceKind = z.enum(['drying-room', 'freezer', 'zone', 'outdoors']);
const placeId = uuid.describe('Id of the drying room, freezer or zone as the layout shows it; for `outdoors` that of the site.');
export const sensorState = z.enum(['in-service', 'withdrawn']);

const expectedEveryMinutes = z
  .int()
  .min(1)
  .max(10_080)
  .nullable()
  .describe('How often it is expected to report, in minutes: a logger every 10, a thermometer that somebody reads every 480. The alarm of silence about a drying room or freezer goes by the shortest of the sensors in service there. Null: by the numbers of our own calibration (`alarms/silentAfterH`, longer for a freezer that is read by hand).');

export const SensorParams = IncidentParams.extend({ sensorId: uuid });

export const RegisterSensor = z
  .strictObject({ code: code.describe('What its logger or the partner calls it; unique in the incident.'), name: text(200), placeKind: climatePlaceKind, placeId, expectedEveryMinutes: expectedEveryMinutes.default(null) })
  .meta({ id: 'RegisterSensor', examples: [{ code: 'T-07', name: 'Logger by the stage', placeKind: 'drying-room', placeId: id, expectedEveryMinutes: 10 }] });
export type RegisterSensor = z.output<typeof RegisterSensor>;

export const ChangeSensor = z.strictObject({ name: text(200).optional(), state: sensorState.optional(), expectedEveryMinutes: expectedEveryMinutes.optional() }).meta({ id: 'ChangeSensor', examples: [{ state: 'withdrawn' }] });
export type ChangeSensor = z.output<typeof ChangeSensor>;

export const SensorListQuery = PageQuery.extend({ placeKind: climatePlaceKind.optional(), placeId: uuid.optional(), state: sensorState.optional() }).refine((query) => (query.placeKind === undefined) === (query.placeId === undefined), {
  message: 'give the kind and the id of the place together, or neither',
  path: ['placeId'],
});

export const SensorBody = z
  .strictObject({ id: uuid, incidentId: uuid, code: z.string(), name: z.string(), placeKind: climatePlaceKind, placeId: uuid, state: sensorState, withdrawnAt: z.string().nullable(), expectedEveryMinutes, version: z.int(), createdAt: z.string() })
  .meta({
    id: 'Sensor',
    description: 'A sensor and the one place that it measures. What it measured before `withdrawnAt` still counts; one that is moved is registered anew.',
    examples: [{ id, incidentId: id, code: 'T-07', name: 'Logger by the stage', placeKind: 'drying-room', placeId: id, state: 'in-service', withdrawnAt: null, expectedEveryMinutes: 10, version: 1, createdAt: '2026-05-09T07:00:00.000Z' }],
  });
