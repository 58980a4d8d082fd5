/** A pin against what is left to do: the same place, people and beginning, for as long as it takes now. */
import { say, WAY_WORDS, type Message } from '#care';
import type { PlanAssignment, PlanItem, PlanOption, PlanProblem, PlanStep } from '#planning';
import type { PlannedStep } from '../ports/plan-input.js';
import type { SlotGrid } from './slots.js';

type Resources = Pick<PlanProblem, 'stations' | 'places' | 'freezers' | 'people'>;

const NOT_THERE = {
  station: say('the station that was pinned is not there any more'),
  place: say('the drying place that was pinned is not there any more'),
  freezer: say('the freezer that was pinned is not there any more'),
  person: say('a person who was pinned is not there any more'),
  specialist: say('the specialist who was pinned cannot take it any more'),
} as const;

/** The assignments of an item that is done just so, or why it cannot be any more. */
export function pinnedIn(pinned: readonly PlannedStep[], item: PlanItem, grid: SlotGrid, resources: Resources): { assignments: PlanAssignment[] } | { why: Message } {
  const way = pinned[0]?.disposition;
  const index = routeOf(pinned, item);
  const option = item.options[index];
  if (option === undefined) return { why: way === undefined ? DONE : say('the way “{way}” is not open to it any more', { way: WAY_WORDS[way] }) };
  const left = option.steps.map(({ step }) => pinned.find((one) => one.step === step));
  if (left.every((one) => one === undefined)) return { why: DONE };
  const steps = left.filter((one) => one !== undefined);
  if (steps.length < left.length) return { why: say('the steps that are left are not those that were pinned') };
  if (option.steps.some((step, i) => serviceOf(step) !== (steps[i]?.serviceId ?? null))) return { why: NOT_THERE.specialist };
  const assignments = steps.map((one, position) => assignmentOf(one, { item, option, index, position }, grid));
  return faultOf(assignments, item, option, grid) ?? goneOf(assignments, option, resources) ?? { assignments };
}

/** The way that was pinned: of several to specialists the one to the same; -1 where there is none. */
function routeOf(pinned: readonly PlannedStep[], { options }: PlanItem): number {
  const way = pinned[0]?.disposition;
  const agrees = ({ steps }: PlanOption) => steps.every((step) => serviceOf(step) === (pinned.find((one) => one.step === step.step)?.serviceId ?? null));
  // What was to be carried goes the way with a journey, as long as there is one; once it is there, none is left.
  const journeys = pinned.filter(({ step }) => step === 'carry').length;
  const rides = ({ steps }: PlanOption) => steps.filter(({ step }) => step === 'carry').length === journeys;
  const riding = options.findIndex((option) => option.disposition === way && agrees(option) && rides(option));
  const same = riding >= 0 ? riding : options.findIndex((option) => option.disposition === way && agrees(option));
  return same >= 0 ? same : options.findIndex(({ disposition }) => disposition === way);
}

function serviceOf({ services }: PlanStep): string | null {
  return services?.[0]?.serviceId ?? null;
}

const DONE = say('what was pinned is done');

function assignmentOf(one: PlannedStep, { item, option, index, position }: { item: PlanItem; option: PlanOption; index: number; position: number }, grid: SlotGrid): PlanAssignment {
  const startSlot = grid.floor(one.startsAtMs);
  return {
    itemId: item.id, option: index, position, step: one.step, disposition: one.disposition, batchId: null, stationId: one.stationId, personIds: [...one.personIds].sort(), dryingPlaceId: one.dryingPlaceId, freezerId: one.freezerId,
    startSlot, endSlot: startSlot + (option.steps[position]?.durationSlots ?? 0),
  };
}

function faultOf(assignments: readonly PlanAssignment[], item: PlanItem, { steps }: PlanOption, grid: SlotGrid): { why: Message } | null {
  const [first] = assignments;
  if (first === undefined || first.startSlot < 0) return { why: say('the moment that was pinned passed before it was begun') };
  if (first.startSlot < item.releaseSlot) return { why: say('it is not free yet at the moment that was pinned') };
  if (assignments.some(({ startSlot }, i) => startSlot < (assignments[i - 1]?.endSlot ?? 0))) return { why: say('its steps take longer now than was pinned') };
  if ((assignments.at(-1)?.endSlot ?? 0) > grid.horizonSlots) return { why: say('its steps take longer now than was pinned') };
  if (assignments.some(({ personIds }, i) => personIds.length !== steps[i]?.crew)) return { why: say('it takes another number of people now than was pinned') };
  return null;
}

function goneOf(assignments: readonly PlanAssignment[], { steps }: PlanOption, resources: Resources): { why: Message } | null {
  const there = (list: readonly { id: string }[]) => {
    const ids = new Set(list.map(({ id }) => id));
    return (id: string | null) => id === null || ids.has(id);
  };
  const [station, place, freezer, person] = [there(resources.stations), there(resources.places), there(resources.freezers), there(resources.people)];
  if (!assignments.every(({ stationId }) => station(stationId))) return { why: NOT_THERE.station };
  if (!assignments.every(({ dryingPlaceId }) => place(dryingPlaceId))) return { why: NOT_THERE.place };
  if (!assignments.every(({ freezerId }) => freezer(freezerId))) return { why: NOT_THERE.freezer };
  if (!assignments.every(({ personIds }) => personIds.every(person))) return { why: NOT_THERE.person };
  if (assignments.some(({ stationId }, i) => stationId !== null && steps[i]?.barredStationIds?.includes(stationId))) return { why: say('the station that was pinned has been ruled out for it') };
  return null;
}
