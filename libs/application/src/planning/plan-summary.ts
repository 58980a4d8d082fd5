/** What a coordinator must know of a plan at a glance: what is in time, what is not and why, and what is short. */
import { say, type Disposition, type Message } from '#care';
import { bindingResources, describeBlocker, resourceInWords, type Plan, type ResourceUse } from '#planning';
import type { PlanInput } from '../ports/plan-input.js';
import type { NotPlanned } from '../ports/plan-store.js';
import type { BuiltProblem } from './build-problem.js';
import type { AirNow } from './drying-outlook.js';

/** Items and their planning weight. */
export interface Tally {
  items: number;
  weight: number;
}

/** Items that one thing keeps out of the plan. */
export interface BlockedTally extends Tally {
  siteId: string | null;
  kind: NotPlanned['blockedBy']['kind'];
  /** Step of the station, skill, or name of the room, freezer or specialist; empty for the other kinds. */
  what: string;
}

/** A resource in its tightest operational period. */
export interface TightResource {
  siteId: string;
  siteName: string;
  kind: ResourceUse['kind'];
  what: string;
  fromMs: number;
  toMs: number;
  /** Used per thousand available. */
  permille: number;
}

export interface PlanSummary {
  fromMs: number;
  toMs: number;
  /** Not safe yet and planned to be, before the next deadline that can still be met. */
  inTime: Tally;
  notInTime: Tally;
  /** Of `notInTime`: planned all the same, after every deadline has passed. */
  late: Tally;
  /** Of `notInTime`: waits for the owner and is only looked at. */
  lookOnly: Tally;
  /** Planned further steps of what is safe already, or on its way out. */
  followUp: Tally;
  inTimeBy: (Tally & { disposition: Disposition })[];
  /** The greatest weight first; only what is not safe. */
  blocked: BlockedTally[];
  /** The tightest first. */
  tight: TightResource[];
  /** The air that drying was reckoned in: a reading that differs much asks for a new plan. */
  rooms: (AirNow & { id: string })[];
  /** The same outdoors; null when nobody had said any. */
  outdoor: AirNow | null;
}

/** Used per thousand from which a resource counts as tight. Own calibration. */
const TIGHT_PERMILLE = 800;
const TIGHT_AT_MOST = 12;

/** Words for what keeps an item out of the plan besides resources. */
const PEOPLE_WORDS = {
  owner: say('it waits for the decision of its owner'),
  appointment: say('it is ready and waits for its appointment (courier, specialist or family)'),
  assessment: say('nobody has assessed it yet'),
  wish: say('every way that is open to it has been ruled out by somebody'),
} as const;

/** What keeps an item out of the plan, in words; `what` may be a name instead of an id. */
export function blockerInWords({ kind, what }: NotPlanned['blockedBy']): Message {
  switch (kind) {
    case 'owner':
    case 'appointment':
    case 'assessment':
    case 'wish':
      return PEOPLE_WORDS[kind];
    default:
      return describeBlocker({ kind, what });
  }
}

/** What there would have to be more of, in words. */
export function shortageInWords({ kind, what }: Pick<TightResource, 'kind' | 'what'>): Message {
  return resourceInWords({ kind, what });
}

/** Sums up a plan of a built problem. */
export function summarise(input: PlanInput, built: BuiltProblem, plan: Plan): PlanSummary {
  const { problem, windowSlots } = built;
  const momentOf = (slot: number) => problem.originMs + slot * problem.slotMinutes * 60_000;
  const names = new Map([...input.rooms, ...input.freezers, ...(input.specialists ?? []), ...ridesNamed(input)].map(({ id, name }) => [id, name]));
  return {
    fromMs: problem.originMs,
    toMs: momentOf(windowSlots),
    ...tallies(built, plan),
    blocked: blockedTallies(input, built, plan, names),
    tight: tightResources(input, built, plan, names).map(({ from, to, ...rest }) => ({ ...rest, fromMs: momentOf(from), toMs: momentOf(to) })),
    rooms: input.rooms.map(({ id, airTempC, relativeHumidityPct }) => ({ id, airTempC, relativeHumidityPct })),
    outdoor: input.outdoorAirTempC === null || input.outdoorRelativeHumidityPct === null ? null : { airTempC: input.outdoorAirTempC, relativeHumidityPct: input.outdoorRelativeHumidityPct },
  };
}

/** A ride is called by its vehicle and the sites that it joins. */
function ridesNamed({ vehicles = [], siteNames }: PlanInput): { id: string; name: string }[] {
  return vehicles.flatMap(({ name, rides }) => rides.map(({ id, fromSiteId, toSiteId }) => ({ id, name: `${name} ${siteNames[fromSiteId] ?? ''}–${siteNames[toSiteId] ?? ''}` })));
}

function tallies({ problem, late, lookOnly, leftOut }: BuiltProblem, plan: Plan): Pick<PlanSummary, 'inTime' | 'notInTime' | 'late' | 'lookOnly' | 'followUp' | 'inTimeBy'> {
  const chosen = new Map(plan.assignments.map(({ itemId, disposition }) => [itemId, disposition]));
  const sums = { inTime: none(), notInTime: none(), late: none(), lookOnly: none(), followUp: none() };
  const by = new Map<Disposition, Tally>();
  for (const { id, weight, stabilised } of problem.items) {
    const disposition = chosen.get(id);
    if (late.has(id) || lookOnly.has(id)) {
      add(sums.notInTime, weight);
      if (disposition !== undefined) add(late.has(id) ? sums.late : sums.lookOnly, weight);
    } else if (stabilised) {
      if (disposition !== undefined) add(sums.followUp, weight);
    } else if (disposition === undefined) add(sums.notInTime, weight);
    else {
      add(sums.inTime, weight);
      by.set(disposition, add(by.get(disposition) ?? none(), weight));
    }
  }
  for (const { weight } of leftOut) add(sums.notInTime, weight);
  return { ...sums, inTimeBy: [...by].sort(([a], [b]) => (a < b ? -1 : 1)).map(([disposition, tally]) => ({ disposition, ...tally })) };
}

/** Unplanned items that are not safe, by what stands in their way. */
function blockedTallies(input: PlanInput, { problem, late, leftOut }: BuiltProblem, plan: Plan, names: ReadonlyMap<string, string>): BlockedTally[] {
  const siteOf = new Map(input.items.map(({ id, siteId }) => [id, siteId]));
  const safe = new Set(problem.items.filter(({ id, stabilised }) => stabilised && !late.has(id)).map(({ id }) => id));
  const groups = new Map<string, BlockedTally>();
  for (const { itemId, weight, blockedBy } of [...plan.unplanned, ...leftOut]) {
    if (safe.has(itemId)) continue;
    const siteId = siteOf.get(itemId) ?? null;
    const named = { kind: blockedBy.kind, what: names.get(blockedBy.what) ?? blockedBy.what };
    const key = JSON.stringify([siteId, blockedBy.kind, blockedBy.what]);
    const group = groups.get(key) ?? { siteId, ...named, ...none() };
    add(group, weight);
    groups.set(key, group);
  }
  return [...groups].sort(([ka, a], [kb, b]) => b.weight - a.weight || b.items - a.items || (ka < kb ? -1 : 1)).map(([, group]) => group);
}

function tightResources(input: PlanInput, { problem, windowSlots }: BuiltProblem, plan: Plan, names: ReadonlyMap<string, string>): (Omit<TightResource, 'fromMs' | 'toMs'> & { from: number; to: number })[] {
  return bindingResources(problem, plan).use
    .flatMap(({ siteId, kind, what, periods }) => {
      const inWindow = periods.filter(({ from }) => from < windowSlots);
      const [tightest] = [...inWindow].sort((a, b) => b.permille - a.permille || a.from - b.from);
      if (tightest === undefined || tightest.permille < TIGHT_PERMILLE) return [];
      return [{ siteId, siteName: input.siteNames[siteId] ?? '', kind, what: names.get(what) ?? what, from: tightest.from, to: tightest.to, permille: tightest.permille }];
    })
    .sort((a, b) => b.permille - a.permille)
    .slice(0, TIGHT_AT_MOST);
}

function none(): Tally {
  return { items: 0, weight: 0 };
}

function add<T extends Tally>(tally: T, weight: number): T {
  tally.items += 1;
  tally.weight += weight;
  return tally;
}
