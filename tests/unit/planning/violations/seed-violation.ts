/** Ways to spoil a valid plan, each so that it breaks one rule for certain, whatever else it breaks. */
import type { Interval, Plan, PlanAssignment, PlanItem, PlanProblem, PlanStep } from '#planning';

/** A plan to spoil, and a source of choices. */
export interface Draft { problem: PlanProblem; plan: Plan; pick: <T>(list: readonly T[]) => T | undefined }

/** Says whether there was something to spoil. */
type Spoil = (draft: Draft) => boolean;

/** One kind of violation: the rule that must be reported, what is done to the plan, and how. */
export interface SeededViolation { rule: string; how: string; spoil: Spoil }

export const SEEDED_VIOLATIONS: readonly SeededViolation[] = [
  { rule: 'step-order', how: 'a step is moved before the end of the one before', spoil: moveBeforeTheOneBefore },
  { rule: 'option-not-followed', how: 'the last step of a route is left out', spoil: leaveOutTheLastStep },
  { rule: 'station-capacity', how: 'a station is given more at a time than it can do', spoil: crowdAStation },
  { rule: 'station-closed', how: 'a station works while it is closed', spoil: workWhileClosed },
  { rule: 'station-barred', how: 'a station is used that a lead has ruled out', spoil: useABarredStation },
  { rule: 'crew-size', how: 'one of a crew stays away', spoil: sendOneHome },
  { rule: 'crew-skill', how: 'somebody is sent who lacks the skill', spoil: sendSomebodyUnskilled },
  { rule: 'person-twice', how: 'one person is sent to two steps at a time', spoil: sendOnePersonTwice },
  { rule: 'other-site', how: 'a station or person of another site is used', spoil: useTheOtherSite },
  { rule: 'drying-area', how: 'more is hung in a place than its area holds', spoil: crowdAPlace },
  { rule: 'company', how: 'things that must not lie together are put into one place', spoil: mixCompanies },
  { rule: 'room-air', how: 'more dries in a room than its air can take', spoil: crowdTheAir },
  { rule: 'freezer-volume', how: 'more is frozen than a freezer holds', spoil: crowdAFreezer },
  { rule: 'freezer-short', how: 'a thing is thawed as soon as it is frozen', spoil: thawAtOnce },
  { rule: 'batch-groups', how: 'things of two groups share a bath', spoil: mixGroups },
  { rule: 'batch-overfull', how: 'more things share a bath than it may hold', spoil: overfillABatch },
  { rule: 'service-capacity', how: 'a courier or specialist is asked for more than they can do', spoil: crowdAService },
  { rule: 'not-after', how: 'a step begins after the courier has left', spoil: missTheCourier },
  { rule: 'late', how: 'an item is planned late although late ones are to be listed', spoil: planLate },
  { rule: 'pin', how: 'an item is done at another time than a coordinator asked for', spoil: movePinned },
  { rule: 'item-missing', how: 'an item is dropped without a word', spoil: dropSilently },
  { rule: 'objective', how: 'the objective is another than that of the plan', spoil: flatter },
];

function moveBeforeTheOneBefore({ problem, plan, pick }: Draft): boolean {
  const later = pick(plan.assignments.filter(({ position }) => position > 0));
  if (later === undefined) return false;
  const before = plan.assignments.find(({ itemId, position }) => itemId === later.itemId && position === later.position - 1)!;
  move(problem, later, before.endSlot - 1);
  return true;
}

function leaveOutTheLastStep({ problem, plan, pick }: Draft): boolean {
  const last = pick(plan.assignments.filter((one) => one.position > 0 && one.position === routeOf(problem, one).length - 1));
  if (last !== undefined) plan.assignments = plan.assignments.filter((one) => one !== last);
  return last !== undefined;
}

function crowdAStation({ problem, plan, pick }: Draft): boolean {
  const busy = plan.assignments.filter(({ stationId }) => stationId !== null);
  const at = pick(busy);
  if (at === undefined) return false;
  const { capacity } = problem.stations.find(({ id }) => id === at.stationId)!;
  if (busy.length <= capacity) return false;
  for (const one of busy) {
    Object.assign(one, { stationId: at.stationId, batchId: null });
    move(problem, one, at.startSlot);
  }
  return true;
}

function workWhileClosed({ problem, plan, pick }: Draft): boolean {
  const choices = plan.assignments.flatMap((one) => {
    const station = problem.stations.find(({ id }) => id === one.stationId);
    return station === undefined ? [] : closedStarts(problem, station.open, one.endSlot - one.startSlot).map((slot) => ({ one, slot }));
  });
  const choice = pick(choices);
  if (choice !== undefined) move(problem, choice.one, choice.slot);
  return choice !== undefined;
}

function useABarredStation({ problem, plan, pick }: Draft): boolean {
  const choice = pick(plan.assignments.filter(({ stationId }) => stationId !== null).flatMap((one) => {
    const barred = (stepOf(problem, one).barredStationIds ?? []).filter((barredId) => problem.stations.some(({ id }) => id === barredId));
    return barred.map((stationId) => ({ one, stationId }));
  }));
  if (choice !== undefined) choice.one.stationId = choice.stationId;
  return choice !== undefined;
}

function sendOneHome({ plan, pick }: Draft): boolean {
  const crewed = pick(plan.assignments.filter(({ personIds }) => personIds.length > 0));
  if (crewed !== undefined) crewed.personIds = crewed.personIds.slice(1);
  return crewed !== undefined;
}

function sendSomebodyUnskilled({ problem, plan, pick }: Draft): boolean {
  const choice = pick(plan.assignments.filter(({ personIds }) => personIds.length > 0).flatMap((one) => {
    const { skill } = stepOf(problem, one);
    return problem.people.filter(({ skills }) => skill !== null && !skills.includes(skill)).map(({ id }) => ({ one, id }));
  }));
  if (choice !== undefined) choice.one.personIds = [choice.id, ...choice.one.personIds.slice(1)];
  return choice !== undefined;
}

function sendOnePersonTwice({ problem, plan, pick }: Draft): boolean {
  const crewed = plan.assignments.filter(({ personIds }) => personIds.length > 0);
  const first = pick(crewed);
  const second = pick(crewed.filter((one) => one !== first));
  if (first === undefined || second === undefined) return false;
  Object.assign(second, { personIds: [first.personIds[0]!, ...second.personIds.slice(1)], batchId: null });
  move(problem, second, first.startSlot);
  return true;
}

function useTheOtherSite({ problem, plan, pick }: Draft): boolean {
  const choice = pick(plan.assignments.flatMap((one) => {
    const siteId = siteOf(problem, one);
    const elsewhere = (list: readonly { id: string; siteId: string }[]): string[] => list.filter((other) => other.siteId !== siteId).map(({ id }) => id);
    const stations = one.stationId === null ? [] : elsewhere(problem.stations).map((stationId) => ({ one, change: { stationId } }));
    const people = one.personIds.length === 0 ? [] : elsewhere(problem.people).map((id) => ({ one, change: { personIds: [id, ...one.personIds.slice(1)] } }));
    return [...stations, ...people];
  }));
  if (choice !== undefined) Object.assign(choice.one, choice.change);
  return choice !== undefined;
}

function crowdAPlace({ problem, plan, pick }: Draft): boolean {
  const drying = plan.assignments.filter(({ dryingPlaceId }) => dryingPlaceId !== null);
  const areaDm2 = sum(drying, (one) => stepOf(problem, one).drying!.areaDm2);
  const place = pick(problem.places.filter((one) => one.areaDm2 < areaDm2));
  if (place === undefined) return false;
  for (const one of drying) {
    one.dryingPlaceId = place.id;
    move(problem, one, drying[0]!.startSlot);
  }
  return true;
}

/** A thing is brought to the drying place of another, planned or there already, at a time when that lies there. */
function mixCompanies({ problem, plan, pick }: Draft): boolean {
  const drying = plan.assignments.filter((one) => one.dryingPlaceId !== null && stepOf(problem, one).company !== undefined);
  const lying = [
    ...drying.map((one) => ({ one: one as PlanAssignment | null, placeId: one.dryingPlaceId, company: stepOf(problem, one).company!, from: one.startSlot })),
    ...problem.fixed.filter(({ interval }) => interval.to > 0).map(({ dryingPlaceId, company, interval }) => ({ one: null, placeId: dryingPlaceId, company, from: Math.max(0, interval.from) })),
  ];
  const areApart = (company: string, other: (typeof lying)[number]): boolean => {
    const { closeness = 'side-by-side' } = problem.places.find(({ id }) => id === other.placeId)!;
    const lists = (a: string, b: string): boolean => problem.companies?.find(({ id }) => id === a)?.notWith[closeness]?.includes(b) === true;
    return other.company !== undefined && (lists(company, other.company) || lists(other.company, company));
  };
  const pair = pick(drying.flatMap((one) => lying.filter((other) => other.one !== one && other.placeId !== null && areApart(stepOf(problem, one).company!, other)).map((other) => [one, other] as const)));
  if (pair === undefined) return false;
  pair[0].dryingPlaceId = pair[1].placeId;
  move(problem, pair[0], pair[1].from);
  return true;
}

function crowdTheAir({ problem, plan, pick }: Draft): boolean {
  const drying = plan.assignments.filter(({ dryingPlaceId }) => dryingPlaceId !== null);
  const loadG = sum(drying, (one) => stepOf(problem, one).drying!.loadGPerSlot);
  const choice = pick(problem.places.flatMap((place) => {
    const { removalGPerSlot } = problem.rooms.find(({ id }) => id === place.roomId)!;
    return removalGPerSlot.filter(({ limit }) => limit < loadG).map(({ from }) => ({ place, from }));
  }));
  if (choice === undefined) return false;
  for (const one of drying) {
    one.dryingPlaceId = choice.place.id;
    move(problem, one, choice.from);
  }
  return true;
}

/** Only what stays frozen to the end of the plan, as such stays overlap. */
function crowdAFreezer({ problem, plan, pick }: Draft): boolean {
  const frozen = plan.assignments.filter((one) => one.freezerId !== null && one.position === routeOf(problem, one).length - 1);
  const volumeCl = sum(frozen, (one) => stepOf(problem, one).freezer!.volumeCl);
  const freezer = pick(problem.freezers.filter((one) => one.volumeCl < volumeCl));
  if (freezer !== undefined) for (const one of frozen) one.freezerId = freezer.id;
  return freezer !== undefined;
}

function thawAtOnce({ problem, plan, pick }: Draft): boolean {
  const frozen = pick(plan.assignments.filter((one) => one.freezerId !== null && one.position < routeOf(problem, one).length - 1));
  if (frozen === undefined) return false;
  const next = plan.assignments.find(({ itemId, position }) => itemId === frozen.itemId && position === frozen.position + 1)!;
  move(problem, frozen, next.startSlot - stepOf(problem, frozen).durationSlots);
  return true;
}

function mixGroups(draft: Draft): boolean {
  return join(draft, (a, b) => a.batch!.group !== b.batch!.group);
}

function overfillABatch(draft: Draft): boolean {
  return join(draft, (a, b) => a.step === b.step && a.crew === b.crew && a.durationSlots === b.durationSlots && a.batch!.group === b.batch!.group &&
    a.batch!.units + b.batch!.units > Math.min(a.batch!.mostUnits, b.batch!.mostUnits));
}

/** Puts two steps that may be shared into one bath, wherever they were before. */
function join({ problem, plan, pick }: Draft, fits: (a: PlanStep, b: PlanStep) => boolean): boolean {
  const shareable = plan.assignments.filter((one) => stepOf(problem, one).batch !== undefined);
  const pair = pick(shareable.flatMap((a) => shareable.filter((b) => b !== a && fits(stepOf(problem, a), stepOf(problem, b))).map((b) => [a, b] as const)));
  if (pair === undefined) return false;
  const [{ stationId, personIds, startSlot }, second] = pair;
  Object.assign(pair[0], { batchId: 'seeded' });
  Object.assign(second, { batchId: 'seeded', stationId, personIds: [...personIds] });
  move(problem, second, startSlot);
  return true;
}

function crowdAService({ problem, plan, pick }: Draft): boolean {
  const choice = pick((problem.services ?? []).flatMap(({ id, capacity }) => {
    const units = (one: PlanAssignment): number => stepOf(problem, one).services?.find(({ serviceId }) => serviceId === id)?.units ?? 0;
    const served = plan.assignments.filter((one) => units(one) > 0);
    return sum(served, units) > capacity ? [served] : [];
  }));
  if (choice === undefined) return false;
  for (const one of choice) move(problem, one, choice[0]!.startSlot);
  return true;
}

function missTheCourier({ problem, plan, pick }: Draft): boolean {
  const hurried = pick(plan.assignments.filter((one) => stepOf(problem, one).notAfterSlot !== undefined));
  if (hurried !== undefined) move(problem, hurried, stepOf(problem, hurried).notAfterSlot! + 1);
  return hurried !== undefined;
}

/** All steps of the item move together, so that it lies frozen no longer than before. */
function planLate({ problem, plan, pick }: Draft): boolean {
  if (problem.late === 'plan') return false;
  const item = pick(problem.items.filter(({ id, stabilised }) => !stabilised && plan.assignments.some(({ itemId }) => itemId === id)));
  if (item === undefined) return false;
  for (const one of plan.assignments) if (one.itemId === item.id) move(problem, one, one.startSlot + 2 * problem.horizonSlots);
  return true;
}

function movePinned({ problem, plan, pick }: Draft): boolean {
  const pinned = pick(plan.assignments.filter(({ itemId }) => itemOf(problem, itemId).pinned !== undefined));
  if (pinned !== undefined) move(problem, pinned, pinned.startSlot + 1);
  return pinned !== undefined;
}

function dropSilently({ problem, plan, pick }: Draft): boolean {
  const item = pick(problem.items);
  if (item === undefined) return false;
  plan.assignments = plan.assignments.filter(({ itemId }) => itemId !== item.id);
  plan.unplanned = plan.unplanned.filter(({ itemId }) => itemId !== item.id);
  return true;
}

function flatter({ plan, pick }: Draft): boolean {
  const part = pick([0, 1, 2, 3])!;
  plan.objective = [0, 1, 2, 3].map((i) => plan.objective[i]! - (i === part ? 1 : 0)) as unknown as Plan['objective'];
  return true;
}

function itemOf(problem: PlanProblem, itemId: string): PlanItem {
  return problem.items.find(({ id }) => id === itemId)!;
}

function routeOf(problem: PlanProblem, { itemId, option }: PlanAssignment): PlanStep[] {
  return itemOf(problem, itemId).options[option]!.steps;
}

function stepOf(problem: PlanProblem, one: PlanAssignment): PlanStep {
  return routeOf(problem, one)[one.position]!;
}

function siteOf(problem: PlanProblem, one: PlanAssignment): string {
  return stepOf(problem, one).siteId ?? itemOf(problem, one.itemId).siteId;
}

/** To another start, as long as before. */
function move(problem: PlanProblem, one: PlanAssignment, startSlot: number): void {
  one.startSlot = startSlot;
  one.endSlot = startSlot + stepOf(problem, one).durationSlots;
}

/** Starts inside the horizon from which something so long runs into a closed slot. */
function closedStarts(problem: PlanProblem, open: readonly Interval[], slots: number): number[] {
  const isOpen = (slot: number): boolean => open.some(({ from, to }) => from <= slot && slot < to);
  return Array.from({ length: problem.horizonSlots - slots + 1 }, (_, start) => start)
    .filter((start) => Array.from({ length: slots }, (_, k) => start + k).some((slot) => !isOpen(slot)));
}

function sum<T>(list: readonly T[], amount: (one: T) => number): number {
  return list.reduce((total, one) => total + amount(one), 0);
}
