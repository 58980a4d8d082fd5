import { z } from 'zod';
import { optionalText, PageQuery, uuid } from '../primitives.js';

const id = '0198b7a0-0000-7000-8000-000000000001';

export const ALARM_KIND_WORDS = [
  'room-over-cap', 'room-mould-possible', 'clock-amber', 'clock-red', 'dehumidifier-stopped', 'dehumidifier-short', 'freezer-warm', 'freezer-thawing', 'sensor-silent', 'things-unseen',
] as const;

export const AlarmParams = z.strictObject({ alarmId: uuid });

export const AlarmListQuery = PageQuery.extend({
  state: z.enum(['open', 'cleared', 'all']).default('open'),
  kind: z.enum(ALARM_KIND_WORDS).optional(),
  /** A drying room, dehumidifier or freezer, or the incident. */
  subjectId: uuid.optional(),
});

export const AcknowledgeAlarm = z
  .strictObject({
    /** Who has seen it. */
    personId: uuid,
    note: optionalText(2000),
  })
  .meta({ id: 'AcknowledgeAlarm', examples: [{ personId: id, note: 'The electrician is on the way; the quilts go to the other hall.' }] });
export type AcknowledgeAlarm = z.output<typeof AcknowledgeAlarm>;

const NamedItem = z.strictObject({ itemId: z.string(), tag: z.string() });

const alarm = {
  id, incidentId: id, version: 2, kind: 'room-over-cap' as const, severity: 'warning' as const, subject: { kind: 'drying-room' as const, id, code: 'ROOM', name: 'Upper hall' },
  raisedAt: '2026-05-09T14:20:00.000Z', seenAt: '2026-05-09T15:10:00.000Z', what: 'Upper hall: the air is at 84 %, above its cap of 75 %.', doNow: ['Hang nothing more there.'], cautions: ['Electricity near water kills.'],
  numbers: { relativeHumidityPct: 84, capPct: 75, airTempC: 22.5, measuredAt: '2026-05-09T15:05:00.000Z' }, numbersAtRaising: { relativeHumidityPct: 77.5, capPct: 75, airTempC: 22.5, measuredAt: '2026-05-09T14:20:00.000Z' },
  items: [], acknowledged: { at: '2026-05-09T14:31:00.000Z', by: id, byName: 'Lead one', note: 'The electrician is on the way.', grownSince: false }, clearedAt: null, clearedBy: null, standing: 'Advice.',
};

/** Numbers by name; moments as RFC 3339. */
const Numbers = z.record(z.string(), z.union([z.number(), z.string(), z.null()]));

export const AlarmBody = z
  .strictObject({
    id: z.string(),
    incidentId: z.string(),
    version: z.int(),
    kind: z.enum(ALARM_KIND_WORDS),
    /** `danger`: harm is being done or has been; `warning`: it comes if nobody acts. */
    severity: z.enum(['warning', 'danger']),
    subject: z.strictObject({ kind: z.enum(['drying-room', 'dehumidifier', 'freezer', 'incident']), id: z.string(), code: z.string(), name: z.string() }),
    raisedAt: z.string(),
    /** When the data said so last. */
    seenAt: z.string(),
    what: z.string(),
    doNow: z.array(z.string()),
    /** For people, before anything else is done. */
    cautions: z.array(z.string()),
    /** Behind the sentence, as last seen; and at raising. */
    numbers: Numbers,
    numbersAtRaising: Numbers,
    /** The first of the things it is about, by their clocks; `numbers.items` counts them all. */
    items: z.array(NamedItem),
    acknowledged: z
      .strictObject({
        at: z.string(), by: z.string(), byName: z.string().nullable(), note: z.string(),
        /** More things are concerned now than when somebody saw it. */
        grownSince: z.boolean(),
      })
      .nullable(),
    /** Null while it is open. Cleared by what is measured, never by a word. */
    clearedAt: z.string().nullable(),
    /** The numbers that cleared it. */
    clearedBy: Numbers.nullable(),
    standing: z.string(),
  })
  .meta({
    id: 'Alarm',
    description: 'Something about a drying room, a dehumidifier, a freezer or the things of an incident that a person should see to. At most one of a kind is open about a thing: it is raised once, acknowledged by somebody, and cleared by what is measured; what comes back after that is a new alarm.',
    examples: [alarm],
  });
