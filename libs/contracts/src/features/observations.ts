import { z } from 'zod';
import { COLOUR_TEST_READINGS, FIBRES, FRAGILITIES, HAZARDS, MATERIAL_CLASSES, MOULD_STATES, SIGNIFICANCES, SOILS, WATER_KINDS, WET_STATES } from '#care';
import { instant, text } from '../primitives.js';

/** One reading of the colour test. */
export const ColourTestEntry = z.strictObject({
  /** The colour or thread in words. */
  colour: text(120),
  solution: z.enum(['water', 'detergent']).default('water'),
  method: z.enum(['swab', 'blotter', 'lab']).default('swab'),
  /** Grey scale for staining (ISO 105-A03), or what a swab shows. */
  reading: z.enum(COLOUR_TEST_READINGS),
});

/** Most materials, colours and tests that one thing is described with. */
const MOST = { parts: 12, colours: 40, tests: 40 } as const;
export const ColourTests = z.array(ColourTestEntry).max(MOST.tests);

const yesNoOrUnknown = z.boolean().nullable();

/** What a person can see of a thing or be told of it, member by member; `unknown` and null say that nobody knows. */
export const OBSERVATIONS = {
  materialClass: z.enum(MATERIAL_CLASSES),
  /** Further materials of a mixed object; what any part forbids holds for the whole. */
  parts: z.array(z.enum(MATERIAL_CLASSES)).max(MOST.parts),
  fibre: z.enum(FIBRES),
  wetState: z.enum(WET_STATES),
  wettedAt: instant.nullable(),
  /** Where it stood when it got wet, in somebody's words. */
  wettedPlace: text(300).nullable(),
  water: z.enum(WATER_KINDS),
  /** Beside the water: `heavy-mud` is what a finger sinks into. */
  soil: z.enum(SOILS),
  mould: z.enum(MOULD_STATES),
  fragility: z.enum(FRAGILITIES),
  /** Every colour and thread by name; a colour test then grades one of these. */
  colours: z.array(text(120)).max(MOST.colours),
  alreadyBled: yesNoOrUnknown,
  detachedParts: yesNoOrUnknown,
  oldRepairs: yesNoOrUnknown,
  hazards: z.array(z.enum(HAZARDS)).max(HAZARDS.length),
  significance: z.enum(SIGNIFICANCES),
  onlyCopy: yesNoOrUnknown,
  highMarketValue: yesNoOrUnknown,
} as const;

/** What the owner agreed to; null: not asked. */
export const ConsentsEntry = z.strictObject({ treat: yesNoOrUnknown.default(null), freeze: yesNoOrUnknown.default(null), refer: yesNoOrUnknown.default(null), release: yesNoOrUnknown.default(null) });
