/**
 * Water that a drying thing gives the air of its room, slot by slot: as much as the air takes while it is wet through, less and
 * less below its critical moisture. The law is that of the climate library; few steps of it are enough for a plan.
 */
import { dryingTimeH, moistureAfter, type DryingLaw } from '#climate';
import type { FixedUse } from '#planning';
import { amount, type SlotGrid } from './slots.js';

/** The drying law is asked for no longer time. */
const LONGEST_H = 1_000_000;

/** Load from the first slot on, and what it falls to; absent where it stays the same. */
export type DryingLoad = Pick<FixedUse, 'loadGPerSlot' | 'falling'>;

/** A way from some water to less, in kg per kg dry. */
export interface DryingPath {
  law: DryingLaw;
  startX: number;
  targetX: number;
  dryMassG: number;
}

/**
 * The loads of a thing whose water is out after `hours`; null for at the speed of the law, as far as that goes. They hold all of
 * its water, rounded up to whole grams a slot.
 */
export function dryingLoad(path: DryingPath, hours: number | null, grid: SlotGrid): DryingLoad {
  const slotH = grid.slotMinutes / 60;
  const slots = Math.max(1, Math.min(grid.horizonSlots, Math.ceil((hours ?? Infinity) / slotH - 1e-9)));
  const xAt = moistureOver(path, hours);
  const cuts = cutsOf(path, slots, (slot) => xAt(slot * slotH));
  const loads: { fromSlot: number; loadGPerSlot: number }[] = [];
  for (const [index, fromSlot] of cuts.slice(0, -1).entries()) {
    const toSlot = cuts[index + 1] ?? slots;
    const before = loads.at(-1)?.loadGPerSlot ?? Infinity;
    // A thing that takes water up gives none; and rounding must not make a load rise.
    const loadGPerSlot = Math.min(before, amount((path.dryMassG * (xAt(fromSlot * slotH) - xAt(toSlot * slotH))) / (toSlot - fromSlot)));
    if (loadGPerSlot !== before) loads.push({ fromSlot, loadGPerSlot });
  }
  const [first = { loadGPerSlot: 0 }, ...falling] = loads;
  if ((loads.at(-1)?.loadGPerSlot ?? 0) > 0) falling.push({ fromSlot: slots, loadGPerSlot: 0 });
  return { loadGPerSlot: first.loadGPerSlot, falling };
}

/** The same from some slots of it on and for some slots, as the planner takes it: without what lies outside. */
export function loadWithin({ loadGPerSlot, falling = [] }: DryingLoad, fromSlot: number, slots: number): DryingLoad {
  const now = falling.findLast((step) => step.fromSlot <= fromSlot)?.loadGPerSlot ?? loadGPerSlot;
  const later = falling.map((step) => ({ ...step, fromSlot: step.fromSlot - fromSlot })).filter((step) => step.fromSlot > 0 && step.fromSlot < slots);
  return { loadGPerSlot: now, ...(later.length === 0 ? {} : { falling: later }) };
}

/** Moisture after some hours, down to what counts as dry; stretched or pressed so that it is there after `hours`. */
function moistureOver({ law, startX, targetX }: DryingPath, hours: number | null): (afterH: number) => number {
  const modelH = hours === null ? null : dryingTimeH(law, startX, targetX);
  const pace = modelH === null || hours === null || !Number.isFinite(modelH / hours) ? 1 : modelH / hours;
  const floor = Math.min(startX, targetX);
  return (afterH) => (hours !== null && afterH >= hours ? floor : Math.max(floor, moistureAfter(law, startX, Math.min(LONGEST_H, afterH * pace))));
}

/** Where the load steps down: at the critical moisture, or halfway of what is below it already. */
function cutsOf({ law, startX }: DryingPath, slots: number, xAfter: (slot: number) => number): number[] {
  const critical = Math.max(law.criticalX, law.equilibriumX);
  if (slots < 2) return [0, slots];
  if (startX <= critical) return [0, Math.ceil(slots / 2), slots];
  // The law goes down, so the first slot below is found by halving.
  let [above, below] = [0, slots];
  while (below - above > 1) {
    const middle = Math.floor((above + below) / 2);
    if (xAfter(middle) > critical) above = middle;
    else below = middle;
  }
  return below < slots ? [0, below, slots] : [0, slots];
}
