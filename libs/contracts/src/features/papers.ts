import { z } from 'zod';
import { LANGUAGES } from '#care';

/** Papers that come in two languages on two sizes of sheet. */
export const PaperQuery = z.strictObject({
  /** The language of the household when left out, or what `Accept-Language` asks for where no family reads it. */
  language: z.enum(LANGUAGES).optional(),
  paper: z.enum(['a4', 'letter']).default('a4'),
});
