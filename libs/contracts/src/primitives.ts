import { z } from 'zod';

/** Text for people: no NUL (PostgreSQL cannot store it), no lone surrogate, trimmed, 1..max characters. */
export function text(max: number, min = 1) {
  return z
    .string()
    .trim()
    .min(min)
    .max(max)
    .refine((value) => !value.includes('\u0000') && value.isWellFormed(), { message: 'has a character that cannot be stored' });
}

/** Text that may be absent or empty. */
export function optionalText(max: number) {
  return text(max, 0).default('');
}

export const uuid = z.uuid().toLowerCase();
const YEARS = { first: Date.UTC(1990, 0), after: Date.UTC(2200, 0) };
/** RFC 3339 with an offset or Z. Bounded by years (our choice): a mistyped year helps nobody, and year 0 cannot be stored. */
export const instant = z.iso.datetime({ offset: true }).refine((value) => Date.parse(value) >= YEARS.first && Date.parse(value) < YEARS.after, { message: 'lies outside the years 1990 to 2199' });
/** A day of the calendar, `2027-04-30`; bounded like instants. */
export const day = z.iso.date().refine((value) => value >= '1990-01-01' && value < '2200-01-01', { message: 'lies outside the years 1990 to 2199' });
export const code = z.string().regex(/^[A-Za-z0-9][A-Za-z0-9._-]{0,39}$/, 'use 1 to 40 letters, digits, dots, hyphens or underscores');
export const airTempC = z.number().min(-30).max(60);
export const relativeHumidityPct = z.number().min(0).max(100);

export const IncidentParams = z.strictObject({ incidentId: uuid });
export const PageQuery = z.strictObject({
  limit: z.coerce.number().int().min(1).max(200).default(50),
  cursor: z.string().max(600).optional(),
});

/** `{ items, nextCursor }`; the same `next` stands in the Link header. */
export function pageOf<T extends z.ZodType>(item: T) {
  return z.strictObject({ items: z.array(item), nextCursor: z.string().nullable() });
}

/** Every answer of 400 and above. */
export const ProblemBody = z
  .object({
    type: z.string(),
    title: z.string(),
    status: z.int(),
    detail: z.string(),
    instance: z.string(),
    code: z.string(),
    traceId: z.string(),
    errors: z.array(z.object({ detail: z.string(), code: z.string(), pointer: z.string().optional(), parameter: z.string().optional() })).optional(),
  })
  .meta({ id: 'Problem', description: 'A problem document (RFC 9457). `code` is stable; `detail` says what to fix.' });
