/** Synthetic salvage incidents as planning problems: seeded, of any size, in every regime of our planning study. */
import type { PlanItem, PlanProblem } from '#planning';
import { Alone } from './alone.js';
import { arrivalsOf } from './arrivals.js';
import { ORIGIN_MS } from './calendar.js';
import { digestOf } from './digest.js';
import { drawItems } from './drafts.js';
import { loadOf } from './load.js';
import { resourcesOf, SITE, targetsOf } from './resources.js';
import { StepMaker } from './routes.js';
import { LOADED, settingsOf, slotsOf, type Loaded, type PresetName, type Settings } from './settings.js';
import { streamsOf, type Streams } from './streams.js';

/** Changes whenever the same call makes other bytes. */
export const GENERATOR_VERSION = 1;

const HEAVY_SHARE = 0.3;

export interface IncidentWanted {
  preset: PresetName;
  /** How many items, 0 to 100,000. */
  items: number;
  seed: number;
  overrides?: Partial<Settings>;
}

export interface IncidentMeta extends Required<IncidentWanted> {
  generatorVersion: number;
  /** SHA-256 of the canonical JSON of the problem (`digestOf`). */
  sha256: string;
  /** Load of each resource: what was aimed at, and what came out (null: work, but nothing to do it). */
  load: Record<Loaded, { target: number; realised: number | null }>;
  /** Items that no route stabilises in time even alone in the house. */
  lateAlone: { ids: string[]; itemShare: number; weightShare: number };
  /** Household of each item, for things that are best kept together; the planning model has no word for it. */
  households: number[];
}

/**
 * An incident of a preset. Equal arguments give equal bytes. Every concern (arrivals, classes, durations, clocks, weights, calendars,
 * weather ...) has a chance of its own, so that an override changes what it names and, through the load targets, capacities; no more.
 * @throws RangeError when items or an override is out of range
 */
export function generateIncident({ preset, items: asked, seed, overrides = {} }: IncidentWanted): { problem: PlanProblem; meta: IncidentMeta } {
  if (!Number.isInteger(asked) || asked < 0 || asked > 100_000) throw new RangeError(`items is a whole number from 0 to 100000, not ${asked}`);
  const settings = settingsOf(preset, overrides);
  const streams = streamsOf(seed);
  const count = Math.min(asked, settings.mostItems);
  const { items, households } = itemsOf(streams, settings, count);
  const targets = targetsOf(streams, settings);
  const problem: PlanProblem = {
    originMs: ORIGIN_MS, slotMinutes: settings.slotMinutes, horizonSlots: settings.days * slotsOf(settings).day,
    ...resourcesOf(streams, settings, items, targets), items,
  };
  const alone = new Alone(problem);
  takeSlack(streams, settings, problem.items, alone);
  const late = problem.items.filter((item) => alone.isLate(item));
  const realised = loadOf(problem);
  return {
    problem,
    meta: {
      preset, items: asked, seed, overrides, generatorVersion: GENERATOR_VERSION, sha256: digestOf(problem), households,
      load: Object.fromEntries(LOADED.map((name) => [name, { target: targets[name], realised: realised[name] }])) as IncidentMeta['load'],
      lateAlone: { ids: late.map(({ id }) => id), itemShare: share(late.length, count), weightShare: share(weightOf(late), weightOf(problem.items)) },
    },
  };
}

function itemsOf(streams: Streams, settings: Settings, count: number): { items: PlanItem[]; households: number[] } {
  const drawn = drawItems(streams, settings, count);
  const { releaseSlots, households } = arrivalsOf(streams, settings, count);
  const after = streams('after-horizon');
  const { day } = slotsOf(settings);
  const maker = new StepMaker(settings);
  const items = drawn.map((one, i): PlanItem => {
    const source = settings.allAlike ? 0 : i;
    const { clockSlots, weight, ...draft } = drawn[source]!;
    const isAfter = after.unit() < settings.afterHorizonShare;
    const releaseSlot = releaseSlots[source]! + (isAfter ? settings.days * day : 0);
    return { id: `item-${String(i + 1).padStart(6, '0')}`, siteId: SITE, releaseSlot, deadlineSlot: releaseSlot + clockSlots, weight, stabilised: false, options: maker.optionsOf(draft) };
  });
  if (settings.weights === 'one-heavy' && count > 1) items[streams('heavy').below(count)]!.weight = Math.round((HEAVY_SHARE / (1 - HEAVY_SHARE)) * (count - 1));
  return { items, households };
}

/** Takes all slack from some items: their clock ends when their preferred route alone would have drying begun. */
function takeSlack(streams: Streams, { noSlackShare }: Settings, items: PlanItem[], alone: Alone): void {
  const dice = streams('no-slack');
  for (const item of items) {
    if (dice.unit() >= noSlackShare) continue;
    const moment = alone.earliest(item, item.options[0]!);
    if (Number.isFinite(moment)) item.deadlineSlot = moment;
  }
}

function weightOf(items: readonly PlanItem[]): number {
  return items.reduce((sum, { weight }) => sum + weight, 0);
}

function share(part: number, whole: number): number {
  return whole === 0 ? 0 : part / whole;
}
