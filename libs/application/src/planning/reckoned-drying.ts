/** What hangs, as its drying room reckons it: how long it keeps its place, and what it gives the air until then. */
import { moistureAfter } from '#climate';
import type { InputItem, ReckonedDrying } from '../ports/plan-input.js';
import { dryingLoad, loadWithin, type DryingLoad } from './drying-load.js';
import type { Reckoning } from './plan-steps.js';

const HOUR_MS = 3_600_000;

/** Slots from the present one on, and the load in them. */
export function reckonedUse(item: Pick<InputItem, 'dryMassG'>, reckoned: ReckonedDrying, nowMs: number, { grid, outlooks }: Pick<Reckoning, 'grid' | 'outlooks'>): { slots: number } & DryingLoad {
  const freeMs = freeAtMs(reckoned, nowMs, outlooks.planning.thickFactor);
  const slots = freeMs === null ? grid.horizonSlots : Math.min(grid.horizonSlots, Math.max(1, grid.ceil(freeMs)));
  const { law, targetX, dry, modelDryMs } = reckoned;
  if (dry || law === null || (modelDryMs !== null && modelDryMs <= nowMs)) return { slots, loadGPerSlot: 0 };
  const startX = moistureAfter(law, reckoned.moistureX, Math.max(0, nowMs - reckoned.asOfMs) / HOUR_MS);
  const load = dryingLoad({ law, startX, targetX, dryMassG: item.dryMassG }, modelDryMs === null ? null : (modelDryMs - nowMs) / HOUR_MS, grid);
  return { slots, ...loadWithin(load, 0, slots) };
}

/**
 * When its place is free, as far as that is foreseen. Nobody takes down what is not called dry, and that is at the late end of its
 * band. Of thick things that end is far away and the scale tells sooner, so they count by the figure that new ones are planned
 * with, until that has passed.
 */
function freeAtMs({ dry, build, knownAtMs, modelDryMs, dryLatestMs }: ReckonedDrying, nowMs: number, thickFactor: number): number | null {
  if (dry) return nowMs;
  if (build === 'thin') return dryLatestMs;
  if (modelDryMs === null) return null;
  const plannedMs = knownAtMs + (modelDryMs - knownAtMs) * (build === 'thick' ? thickFactor : 1);
  return plannedMs > nowMs ? plannedMs : dryLatestMs;
}
