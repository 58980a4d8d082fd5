/**
 * What a synthetic incident is made of. All numbers are assumptions for tests of planning, after our own planning study (section 5);
 * where the study is silent they are our own, and said so. None of them is advice on care.
 */

/** Resources with a load target: a station by the step it does, a crew by its skill, the drying area and the room's air. */
export const LOADED = [
  'station/assess', 'station/photograph', 'station/colour-test', 'station/rinse', 'station/blot', 'station/check', 'station/pack', 'station/freeze',
  'crew/assessment', 'crew/colour-testing', 'crew/rinsing', 'crew/drying', 'crew/freezer-wrapping', 'drying/area', 'drying/air',
] as const;
export type Loaded = (typeof LOADED)[number];

/** From hour to hour of a day. */
export type Hours = readonly (readonly [from: number, to: number])[];

export interface Settings {
  /** Length of a slot; the study's durations are quarter hours, in slots of 5 minutes they are three slots each. */
  slotMinutes: 5 | 15;
  /** Horizon, 14 to 28 days; slot 0 is the midnight before the first shift. */
  days: number;
  /** Multiplies every load target. */
  overload: number;
  /** Load target, before `overload`, of resources that are not drawn: one of the usual bottlenecks 0.9, all others 0.4 to 0.8. */
  loads: Partial<Record<Loaded, number>>;
  /** Load of every resource that `loads` does not name; drawn when null. */
  otherLoads: number | null;
  /** Hours of a resource that keeps its own, in place of 8-12, 13-17 and some evenings. */
  hours: Partial<Record<Loaded, Hours>>;
  /** Resources that are there on every other day only. */
  alternateDays: readonly Loaded[];
  /** Resources that are never there at all. */
  neverOpen: readonly Loaded[];
  /** One of everything, whatever the load. */
  unitCapacity: boolean;
  /** Mean hours until arrival of what does not come by truck, over the first 8 days. */
  arrivalMeanHours: number;
  /** Trucks: how many, the share of all items on each, and the hours within which they arrive; drawn when null (2 to 4, 5-15 %, 1 h). */
  bursts: { count: number; share: number; hours: number } | null;
  /** Multiplies the time from arrival to the end of the clock. */
  clockFactor: number;
  weights: 'drawn' | 'equal' | 'one-heavy';
  /** Freezer volume as a share of the litres that may be frozen; 1 is as good as unlimited. The study names 5 % (full) and unlimited; 1 % is ours: with it the late weight under overload is about what the study expects, which its figures without a freezer are. */
  freezerShare: number;
  /** Part of the freezer that lies full at first, with thaw dates spread over the horizon. */
  prefilled: number;
  /** What freezing is: a stop of the clock, thawed and treated later; the end of the route here; or not offered. */
  freezing: 'thaw-later' | 'hold' | 'none';
  /** The room's machines are down to 30 % for 48 hours from some hour between 30 and 60. */
  humidSpell: boolean;
  /** Share of the items with ten times the drying time and ten times the area. */
  longTailShare: number;
  /** Share of the items whose clock ends just when their preferred route, alone in the house, has drying begun. */
  noSlackShare: number;
  secondRouteShare: number;
  /** Small paper and photographs may share a bath with their like. */
  batches: boolean;
  /** Drying things load the air with half as much after half the time. */
  falling: boolean;
  /** Every item is a copy of the first, with an id of its own. */
  allAlike: boolean;
  /** Share of the items that arrive only after the horizon. */
  afterHorizonShare: number;
  /** At most so many items, whatever was asked for. */
  mostItems: number;
}

const BASE: Settings = {
  slotMinutes: 15, days: 21, overload: 1, loads: {}, otherLoads: null, hours: {}, alternateDays: [], neverOpen: [], unitCapacity: false,
  arrivalMeanHours: 36, bursts: null, clockFactor: 1, weights: 'drawn', freezerShare: 0.01, prefilled: 0, freezing: 'thaw-later', humidSpell: false,
  longTailShare: 0, noSlackShare: 0, secondRouteShare: 0.1, batches: false, falling: false, allAlike: false, afterHorizonShare: 0, mostItems: Number.POSITIVE_INFINITY,
};

/** The regimes of the study; each changes the base in few places. */
export const PRESETS = {
  base: {},
  'overload-1.5': { overload: 1.5 },
  'overload-3': { overload: 3 },
  'bottleneck-colour': { loads: { 'crew/colour-testing': 2.5 }, otherLoads: 0.6, alternateDays: ['crew/colour-testing'] },
  'bottleneck-bath': { loads: { 'station/rinse': 2, 'crew/rinsing': 2 }, hours: { 'station/rinse': [[6, 14]], 'crew/rinsing': [[10, 18]] } },
  'freezer-full': { freezerShare: 0.05, prefilled: 0.6, clockFactor: 0.5 },
  'freezer-free': { freezerShare: 1, days: 28 },
  'humid-spell': { humidSpell: true },
  'drying-area': { loads: { 'drying/area': 2.2, 'drying/air': 0.5 } },
  burst: { bursts: { count: 1, share: 0.6, hours: 6 } },
  'long-tail': { longTailShare: 0.01, days: 28 },
  'equal-weights': { weights: 'equal' },
  'one-heavy': { weights: 'one-heavy' },
  'no-slack': { noSlackShare: 0.2 },
  'degenerate-zero-items': { mostItems: 0 },
  'degenerate-one-item': { mostItems: 1 },
  'degenerate-capacity-one': { unitCapacity: true },
  'degenerate-station-never-open': { neverOpen: ['station/blot'] },
  'degenerate-duplicates': { allAlike: true },
  'degenerate-release-after-horizon': { afterHorizonShare: 0.5 },
  'adversarial-tie': { allAlike: true, weights: 'equal', bursts: { count: 1, share: 1, hours: 0 }, secondRouteShare: 0 },
} as const satisfies Record<string, Partial<Settings>>;
export type PresetName = keyof typeof PRESETS;
export const PRESET_NAMES = Object.keys(PRESETS) as PresetName[];

/** @throws RangeError when a setting is outside what it may be */
export function settingsOf(preset: PresetName, overrides: Partial<Settings>): Settings {
  const settings: Settings = { ...BASE, ...PRESETS[preset], ...overrides };
  const shares = ['freezerShare', 'prefilled', 'longTailShare', 'noSlackShare', 'secondRouteShare', 'afterHorizonShare'] as const;
  for (const name of shares) if (!(settings[name] >= 0 && settings[name] <= 1)) throw new RangeError(`${name} is a share from 0 to 1, not ${settings[name]}`);
  if (!Number.isInteger(settings.days) || settings.days < 14 || settings.days > 28) throw new RangeError(`days is a whole number from 14 to 28, not ${settings.days}`);
  const factors = [settings.overload, settings.clockFactor, settings.arrivalMeanHours, ...Object.values(settings.loads)];
  if (factors.some((factor) => !(factor > 0))) throw new RangeError('overload, loads, clockFactor and arrivalMeanHours are above 0');
  return settings;
}

/** Slots of a quarter of an hour, of an hour and of a day. */
export function slotsOf({ slotMinutes }: Pick<Settings, 'slotMinutes'>): { quarter: number; hour: number; day: number } {
  return { quarter: 15 / slotMinutes, hour: 60 / slotMinutes, day: 1440 / slotMinutes };
}
