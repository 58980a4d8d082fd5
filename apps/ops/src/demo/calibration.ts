/**
 * Every number of the demo day that is ours. The day itself (hours, queue, mishaps) follows the project's own scenario;
 * rates without a source are guesses of the same size as the care guidance's working assumptions, and none is a finding.
 */
const MINUTE_MS = 60_000;
const HOUR_MS = 60 * MINUTE_MS;

/** The evening the river came over its banks; all other moments hang on it. */
export const FLOOD_AT_MS = Date.parse('2026-05-08T18:00:00Z');
/** 00:00 of the day after the flood. */
const DAY_ONE_MS = Date.parse('2026-05-09T00:00:00Z');

/** A moment of day 1 or 2 after the flood as epoch milliseconds. */
export function momentMs(day: 1 | 2, hour: number, minute = 0): number {
  return DAY_ONE_MS + (day - 1) * 24 * HOUR_MS + hour * HOUR_MS + minute * MINUTE_MS;
}

/** The scenario's moments. */
export const DAY = {
  wettedFromMs: FLOOD_AT_MS + 2 * HOUR_MS,
  wettedToMs: FLOOD_AT_MS + 9 * HOUR_MS,
  preparedAtMs: momentMs(1, 6),
  opensAtMs: momentMs(1, 7),
  queueEndsAtMs: momentMs(1, 10),
  powerFailsAtMs: momentMs(1, 9, 20),
  powerBackAtMs: momentMs(1, 10),
  slipsKeyedByMs: momentMs(1, 12),
  testersLeaveAtMs: momentMs(1, 12),
  dehumidifierTripsAtMs: momentMs(1, 14),
  dehumidifierMendedAtMs: momentMs(1, 18),
  trailerFromMs: momentMs(1, 16),
  grandmotherAsksAtMs: momentMs(1, 17),
  reportAtMs: momentMs(1, 20),
  lateLotAtMs: FLOOD_AT_MS + 30 * HOUR_MS,
  endsAtMs: momentMs(2, 15, 30),
} as const;

/** Size of the whole scenario; `--scale` shrinks what is counted here together with the hands and places. */
export const SIZE = { households: 140, things: 2_600, firstColourTests: 400, thatBleed: 31 } as const;

/** Shares by count of things: a working assumption of the care guidance (section 8, scenario sizes). */
export const MIX = { photograph: 45, 'paper-or-book': 20, textile: 20, other: 15 } as const;

/** How the day is played. */
export const PLAY = {
  /** Minutes of the played day in one step while people work, and while only the night watch is there. */
  stepMinutes: 15,
  nightStepMinutes: 60,
  /** Requests under way at once. */
  parallel: 12,
  /** A new plan is asked for this often, and at once after a mishap; findings at the tables ask for one by themselves. */
  planEveryMinutes: 60,
  /** A plan that is no older than this counts as new. */
  planIsFreshMinutes: 30,
  /** Longest wait for a plan, in real seconds. */
  planWaitS: 90,
  /** Rounds of improvement of each plan of the day; the program's own default is meant for a machine of its own. */
  planIterations: 40,
  /** How often rooms and freezers are looked at, and how long that waits for company, in real milliseconds: the day passes a good deal faster than the program's own periods are meant for. */
  climateTickMs: 30_000,
  climateGatherMs: 500,
  /** A command is sent again, with the same key, for at most this many real seconds. */
  persistS: 120,
} as const;

/** How often a step ends otherwise than done. */
export const OUTCOME_RATES = { dyeMoved: 0.01, mouldFound: 0.004, failed: 0.005, ownerMustDecide: 0.003 } as const;

/** What goes wrong in an intake file, per row. */
export const MESS_RATES = {
  duplicate: 0.025, wrongDate: 0.02, formula: 0.012, wrongTagCharacter: 0.02, missingHousehold: 0.015, harmless: 0.12,
} as const;

/** The weather of both days. All of it is ours; it begins with the scenario's 24 C and 90 % on the evening of the flood. */
export const WEATHER = {
  meanTempC: 21.5, swingC: 3.5, warmestAtH: 15, gustTempC: 0.5,
  dewPointAtFloodC: 22.2, dewPointFallsCPerH: 0.14, gustDewC: 0.4, leastSpreadC: 0.2,
  /** How far ahead the invented weather office looks, how often, and how wrong it is after one hour; the error grows with the root of the hours. */
  forecastH: 48, forecastEveryH: 6, forecastErrorC: 0.3, forecastErrorPct: 1.2,
} as const;

/**
 * How drying rooms truly are in the played world, beside what is registered of them. The same published relations as the
 * service's (`#climate`) move this air, so agreement with it shows that hundreds of things, events and gaps are reckoned
 * rightly, not that the relations fit a real hall; what the service cannot know is drawn here, each number a guess of ours.
 */
export const ROOM_TRUTH = {
  /** Against what is registered: air changes, and what machines take against their labels. */
  airChangesPct: [80, 115], machinesPct: [88, 104],
  /** Without its machines a hall is a little cooler. */
  tempSwingC: 0.6,
  /** Each thing against its class, percent: dry mass, water at hanging, speed of drying. */
  dryMassPct: [85, 115], waterPct: [75, 125], speedPct: [78, 138],
  /** Things with batting or pages give their water off from inside, slower by this, percent of the speed of thin ones. */
  thickSpeedPct: [45, 90], closedSpeedPct: [35, 85],
  /** Hands and scales tell no finer: taken down with so much more water than the target, kg per kg dry. */
  touchDryX: 0.01,
} as const;

/** Loggers, scales and thermometers. Errors are of the size of ordinary instruments (our guess). */
export const MEASURING = {
  loggerEveryMinutes: 10,
  tempNoiseC: 0.1, humidityNoisePct: 0.5, humidityBiasPct: 1,
  /** Batches that come late, and readings that are sent twice, percent. */
  latePct: 6, twicePct: 3,
  /** One thing in ten goes on the scale; in a small day more, so that there is something to compare. */
  weighedShare: 1 / 10, weighAgainAfterH: 5,
} as const;
