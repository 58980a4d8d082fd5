/** What may be malformed about the items of a planning problem and their care routes. */
import type { FallingLoad, PlanAssignment, PlanItem, PlanOption, PlanStep } from './types.js';
import { type Faults, MOST, MOST_SLOTS, type Where } from './problem-faults.js';

/** Ids of the problem that steps may name. */
export interface Named { services: ReadonlySet<string>; companies: ReadonlySet<string> }

export function checkItem(faults: Faults, where: Where, item: PlanItem, named: Named): void {
  faults.whole(where, 'releaseSlot', item.releaseSlot, 0, MOST);
  faults.whole(where, 'deadlineSlot', item.deadlineSlot, -MOST, MOST);
  faults.amount(where, 'weight', item.weight);
  item.options.forEach((option, i) => { checkOption(faults, where.in('options', i), item, option, named); });
  if (item.pinned !== undefined) checkPinned(faults, where.in('pinned'), item, item.pinned);
}

function checkOption(faults: Faults, where: Where, item: PlanItem, { steps }: PlanOption, named: Named): void {
  if (steps.length === 0) faults.add(where.in('steps'), 'must hold at least one step; leave the item out when nothing is left to do');
  let freezes = 0;
  let siteId = item.siteId;
  let carried = false;
  for (let i = 0; i < steps.length; i += 1) {
    const step = steps[i]!;
    const at = where.in('steps', i);
    checkStep(faults, at, step, named);
    if (step.freezer !== null) freezes += 1;
    const next = step.siteId ?? item.siteId;
    if (step.step !== 'carry' && next !== siteId && !carried) faults.add(at.in('siteId'), `is ${next}, but the item is at ${siteId} then; put a step "carry" before it`);
    carried = step.step === 'carry';
    if (!carried) siteId = next;
  }
  if (freezes > 1) faults.add(where.in('steps'), 'may freeze only once: a thing that has thawed is not frozen again');
}

function checkStep(faults: Faults, at: Where, step: PlanStep, { services, companies }: Named): void {
  faults.whole(at, 'durationSlots', step.durationSlots, 0, MOST_SLOTS);
  if (step.durationSlots === 0) checkPassing(faults, at, step);
  faults.whole(at, 'crew', step.crew, 0, 1000);
  if (step.coolFromSlot !== undefined) faults.amount(at, 'coolFromSlot', step.coolFromSlot);
  if (step.notAfterSlot !== undefined) faults.whole(at, 'notAfterSlot', step.notAfterSlot, -MOST, MOST);
  if (step.drying !== null) {
    faults.whole(at.in('drying'), 'areaDm2', step.drying.areaDm2, 1, MOST);
    faults.amount(at.in('drying'), 'loadGPerSlot', step.drying.loadGPerSlot);
    if (step.drying.falling !== undefined) checkFalling(faults, at.in('drying'), step.drying.loadGPerSlot, step.drying.falling);
    if (step.crew > 0) faults.add(at.in('crew'), 'must be 0 while drying; give the hands-on part a step of its own');
    if (step.freezer !== null) faults.add(at.in('freezer'), 'must be null on a drying step');
  }
  if (step.freezer !== null) {
    faults.whole(at.in('freezer'), 'volumeCl', step.freezer.volumeCl, 1, MOST);
    if (step.freezer.leastSlots !== undefined) faults.whole(at.in('freezer'), 'leastSlots', step.freezer.leastSlots, 1, MOST_SLOTS);
  }
  if (step.batch !== undefined) checkBatch(faults, at, step, step.batch);
  if (step.services !== undefined) checkServices(faults, at, step.services, services);
  if (step.company !== undefined) faults.known(at.in('company'), step.company, companies, 'company');
}

/** A step that takes no time can hold nothing, so it may ask for nothing that has to be held. */
function checkPassing(faults: Faults, at: Where, { drying, noStation, crew, services = [], batch }: PlanStep): void {
  if (drying !== null || noStation !== true || crew > 0 || services.length > 0 || batch !== undefined) {
    faults.add(at.in('durationSlots'), 'must be at least 1, not 0, for a step that needs a station, people, a drying place, a service or a batch');
  }
}

/** Also for what has begun. Lists that are not in order would be read as a load that rises. */
export function checkFalling(faults: Faults, where: Where, loadGPerSlot: number, falling: readonly FallingLoad[]): void {
  falling.forEach((entry, i) => {
    const at = where.in('falling', i);
    faults.whole(at, 'fromSlot', entry.fromSlot, 0, MOST);
    faults.amount(at, 'loadGPerSlot', entry.loadGPerSlot);
    const before = falling[i - 1];
    if (before !== undefined && entry.fromSlot <= before.fromSlot) faults.add(at.in('fromSlot'), `must be later than that of the entry before, but ${entry.fromSlot} follows ${before.fromSlot}`);
    const load = before?.loadGPerSlot ?? loadGPerSlot;
    if (entry.loadGPerSlot > load) faults.add(at.in('loadGPerSlot'), `must not rise, as what dries gives off less and less, but ${entry.loadGPerSlot} follows ${load}`);
  });
}

function checkBatch(faults: Faults, at: Where, step: PlanStep, { group, units, mostUnits }: NonNullable<PlanStep['batch']>): void {
  const where = at.in('batch');
  if (group === '') faults.add(where.in('group'), 'must not be empty');
  faults.whole(where, 'units', units, 1, MOST);
  faults.whole(where, 'mostUnits', mostUnits, 1, MOST);
  if (units > mostUnits) faults.add(where.in('units'), `must be at most the ${mostUnits} that may share it, not ${units}; leave the batch out for what is done alone`);
  if (step.drying !== null || step.freezer !== null) faults.add(where, 'must be left out of a step that dries or freezes: places, air and freezers are counted thing by thing');
}

function checkServices(faults: Faults, at: Where, asked: readonly { serviceId: string; units: number }[], services: ReadonlySet<string>): void {
  asked.forEach(({ serviceId, units }, i) => {
    const where = at.in('services', i);
    faults.known(where.in('serviceId'), serviceId, services, 'service');
    faults.whole(where, 'units', units, 1, MOST);
    if (asked.findIndex((other) => other.serviceId === serviceId) < i) faults.add(where.in('serviceId'), `"${serviceId}" is already asked for by this step; add the units up`);
  });
}

/**
 * A pin that is about another item or route is malformed. One that cannot be kept any more, as a station has gone or a
 * step takes longer now, is not: the item is then listed with `pin`.
 */
function checkPinned(faults: Faults, where: Where, item: PlanItem, pinned: readonly PlanAssignment[]): void {
  const option = item.options[pinned[0]?.option ?? -1];
  if (option === undefined) {
    faults.add(where, pinned.length === 0 ? 'must hold every step of a route; leave it out for an item that is not pinned' : `names no option of this item: ${String(pinned[0]!.option)}`);
    return;
  }
  if (pinned.length !== option.steps.length) faults.add(where, `must hold each of the ${option.steps.length} steps of its route once, not ${pinned.length} steps`);
  const seen = new Set<number>();
  for (const { itemId, option: index, position, step, disposition, startSlot, endSlot } of pinned) {
    if (itemId !== item.id) faults.add(where, `belongs to item "${itemId}", not to "${item.id}"`);
    if (index !== pinned[0]!.option || disposition !== option.disposition || option.steps[position]?.step !== step) faults.add(where, `does not follow option ${String(pinned[0]!.option)} of the item at step ${String(position)}`);
    if (seen.has(position)) faults.add(where, `holds step ${position} twice`);
    seen.add(position);
    if (!Number.isSafeInteger(startSlot) || !Number.isSafeInteger(endSlot) || endSlot < startSlot) faults.add(where, `must run over whole slots, but step ${String(position)} runs from ${String(startSlot)} to ${String(endSlot)}`);
  }
}
