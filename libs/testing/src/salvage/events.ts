/** What goes otherwise than planned: seeded scripts, and their effect on work that is under way. */
import type { Dice, Interval, PlanItem, PlanPerson, PlanProblem } from '#planning';
import { streamsOf } from './streams.js';
import { workOff, type WorkState } from './work-off.js';

/** Something that happens at a slot, counted from the start of the work. `pick` chooses among what is there then. */
export type IncidentEvent = { atSlot: number } & (
  | { kind: 'items-arrive'; items: PlanItem[] }
  | { kind: 'item-worse'; itemId: string; keepsPct: number }
  | { kind: 'item-withdrawn'; itemId: string }
  | { kind: 'overrun'; pick: number; factorPct: number }
  | { kind: 'volunteer-absent'; personId: string; forSlots: number }
  | { kind: 'volunteer-arrives'; personId: string; likeId: string; forSlots: number }
  | { kind: 'station-closed'; stationId: string; forSlots: number }
  | { kind: 'dehumidifier-fails' | 'dehumidifier-returns'; roomId: string }
  | { kind: 'freezer-volume'; freezerId: string; volumeCl: number }
);
export type IncidentEventKind = IncidentEvent['kind'];

export interface ScriptWanted {
  seed: number;
  /** How many events; fewer when the horizon ends before. */
  length: number;
  problem: PlanProblem;
}

const GAP_MINUTES = [10, 40] as const;
/** A machine that fails takes this part of the room's drying with it. Ours, as are all ranges below. */
const MACHINE_SHARE = 0.4;
const KINDS = ['items-arrive', 'item-worse', 'item-withdrawn', 'overrun', 'volunteer-absent', 'volunteer-arrives', 'station-closed', 'dehumidifier-fails', 'dehumidifier-returns', 'freezer-volume'] as const;
const PICKS = 2 ** 20;

/** One event every 10 to 40 minutes, of all kinds alike, as far as the problem has what they concern. */
export function eventScript({ seed, length, problem }: ScriptWanted): IncidentEvent[] {
  const streams = streamsOf(`events/${seed}`);
  const [gaps, kinds, details] = [streams('gaps'), streams('kinds'), streams('details')];
  const events: IncidentEvent[] = [];
  let minutes = 0;
  for (let turn = 0; turn < length; turn += 1) {
    minutes += gaps.between(...GAP_MINUTES);
    const atSlot = Math.floor(minutes / problem.slotMinutes);
    if (atSlot >= problem.horizonSlots) break;
    const possible = KINDS.filter((kind) => concerned(problem, kind) > 0);
    if (possible.length > 0) events.push(eventOf(possible[kinds.below(possible.length)]!, atSlot, events.length + 1, details, problem));
  }
  return events;
}

function concerned({ items, people, stations, rooms, freezers }: PlanProblem, kind: IncidentEventKind): number {
  if (kind.startsWith('item')) return items.length;
  if (kind.startsWith('volunteer')) return people.length;
  if (kind.startsWith('dehumidifier')) return rooms.length;
  return kind === 'station-closed' ? stations.length : kind === 'freezer-volume' ? freezers.length : 1;
}

function eventOf(kind: IncidentEventKind, atSlot: number, number: number, dice: Dice, problem: PlanProblem): IncidentEvent {
  const one = <T>(list: readonly T[]): T => list[dice.below(list.length)]!;
  const slots = (leastHours: number, mostHours: number): number => Math.ceil((60 * dice.between(leastHours, mostHours)) / problem.slotMinutes);
  switch (kind) {
    case 'items-arrive': return { atSlot, kind, items: Array.from({ length: dice.between(1, 10) }, (_, i) => arriving(one(problem.items), `late-${String(number).padStart(4, '0')}-${i + 1}`, atSlot)) };
    case 'item-worse': return { atSlot, kind, itemId: one(problem.items).id, keepsPct: dice.between(20, 80) };
    case 'item-withdrawn': return { atSlot, kind, itemId: one(problem.items).id };
    case 'overrun': return { atSlot, kind, pick: dice.below(PICKS), factorPct: dice.between(150, 300) };
    case 'volunteer-absent': return { atSlot, kind, personId: one(problem.people).id, forSlots: slots(2, 24) };
    case 'volunteer-arrives': return { atSlot, kind, personId: `helper-${String(number).padStart(4, '0')}`, likeId: one(problem.people).id, forSlots: slots(4, 24) };
    case 'station-closed': return { atSlot, kind, stationId: one(problem.stations).id, forSlots: slots(1, 6) };
    case 'freezer-volume': {
      const freezer = one(problem.freezers);
      return { atSlot, kind, freezerId: freezer.id, volumeCl: Math.floor((freezer.volumeCl * dice.between(50, 120)) / 100) };
    }
    default: return { atSlot, kind, roomId: one(problem.rooms).id };
  }
}

/** Something like what is there, that comes now. */
function arriving(like: PlanItem, id: string, atSlot: number): PlanItem {
  return { ...like, id, releaseSlot: atSlot, deadlineSlot: atSlot + like.deadlineSlot - like.releaseSlot };
}

/** The work at the moment of the event and with it: `problem` of the answer is what is to be planned then. Pure. */
export function applyEvent(before: WorkState, event: IncidentEvent): WorkState {
  const state = workOff(before, event.atSlot - before.passedSlots);
  const { problem } = state;
  const change = (changed: Partial<PlanProblem>): WorkState => ({ ...state, problem: { ...problem, ...changed } });
  switch (event.kind) {
    case 'items-arrive': return change({ items: [...problem.items, ...event.items.map((item) => ({ ...item, releaseSlot: Math.max(0, item.releaseSlot - state.passedSlots), deadlineSlot: item.deadlineSlot - state.passedSlots }))] });
    case 'item-worse': return change({ items: problem.items.map((item) => (item.id === event.itemId ? worse(item, event.keepsPct) : item)) });
    case 'item-withdrawn': return withdrawn(state, event.itemId);
    case 'overrun': return overrun(state, event.pick, event.factorPct);
    case 'volunteer-absent': return change({ people: problem.people.map((person) => (person.id === event.personId ? { ...person, shifts: without(person.shifts, event.forSlots) } : person)) });
    case 'volunteer-arrives': return change({ people: [...problem.people, ...helper(problem, event.personId, event.likeId, event.forSlots)] });
    case 'station-closed': return change({ stations: problem.stations.map((station) => (station.id === event.stationId ? { ...station, open: without(station.open, event.forSlots) } : station)) });
    case 'freezer-volume': return change({ freezers: problem.freezers.map((freezer) => (freezer.id === event.freezerId ? { ...freezer, volumeCl: event.volumeCl } : freezer)) });
    default: return machines(state, event.roomId, event.kind === 'dehumidifier-fails' ? 1 : -1);
  }
}

/** What is left of its clock shrinks. */
function worse(item: PlanItem, keepsPct: number): PlanItem {
  return item.deadlineSlot <= 0 ? item : { ...item, deadlineSlot: Math.floor((item.deadlineSlot * keepsPct) / 100) };
}

/** What is under way with it ends as begun. */
function withdrawn(state: WorkState, itemId: string): WorkState {
  const { problem, plan } = state;
  const previous = problem.previous && { ...problem.previous, steps: problem.previous.steps.filter((step) => step.itemId !== itemId) };
  return { ...state, plan: plan.filter((step) => step.itemId !== itemId), problem: { ...problem, items: problem.items.filter(({ id }) => id !== itemId), previous } };
}

/** One of the hands-on steps under way takes longer, and its item waits for it; with a batch, all of its things. */
function overrun(state: WorkState, pick: number, factorPct: number): WorkState {
  const { problem } = state;
  const running = problem.fixed.filter(({ stationId, interval }) => stationId !== null && interval.from < 0);
  const chosen = running[pick % Math.max(1, running.length)];
  if (chosen === undefined) return state;
  const { from, to } = chosen.interval;
  const end = from + Math.ceil(((to - from) * factorPct) / 100);
  const isOfIt = ({ step, interval }: { step: string; interval: Interval }): boolean => step === chosen.step && interval.from === from && interval.to === to;
  const held = new Set(problem.fixed.filter((use) => use === chosen || (use.stationId === null && use.dryingPlaceId === null && use.freezerId === null && isOfIt(use))).map(({ itemId }) => itemId));
  return {
    ...state,
    problem: {
      ...problem,
      fixed: problem.fixed.map((use) => (held.has(use.itemId) && isOfIt(use) ? { ...use, interval: { from, to: end } } : use)),
      items: problem.items.map((item) => (held.has(item.id) ? { ...item, releaseSlot: Math.max(item.releaseSlot, end) } : item)),
    },
  };
}

/** Somebody with the skills of another, while the house is open. */
function helper({ people, stations }: PlanProblem, id: string, likeId: string, forSlots: number): PlanPerson[] {
  const like = people.find((person) => person.id === likeId);
  if (like === undefined) return [];
  const hours = stations.map(({ open }) => open).reduce((a, b) => (b.length > a.length ? b : a), []);
  const shifts = hours.filter(({ from }) => from < forSlots).map(({ from, to }) => ({ from, to: Math.min(to, forSlots) }));
  return [{ ...like, id, shifts }];
}

function machines(state: WorkState, roomId: string, change: 1 | -1): WorkState {
  const failed = Math.max(0, (state.failedMachines[roomId] ?? 0) + change);
  const part = (1 - MACHINE_SHARE) ** failed;
  const full = state.dryRooms.find(({ id }) => id === roomId);
  const rooms = state.problem.rooms.map((room) => (room.id === roomId && full ? { ...room, removalGPerSlot: full.removalGPerSlot.map((one) => ({ ...one, limit: Math.floor(one.limit * part) })) } : room));
  return { ...state, failedMachines: { ...state.failedMachines, [roomId]: failed }, problem: { ...state.problem, rooms } };
}

/** Intervals from a slot on. */
function without(intervals: readonly Interval[], until: number): Interval[] {
  return intervals.filter(({ to }) => to > until).map(({ from, to }) => ({ from: Math.max(from, until), to }));
}
