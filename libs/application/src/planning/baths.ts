/** Which small things may lie in one rinse bath together. */
import type { StandardItemKind } from '#climate';
import type { PlanBatch } from '#planning';
import type { InputItem } from '../ports/plan-input.js';

/**
 * Room in a bath that a thing of each small size takes. Own calibration: in proportion to the size of a small print, with room to
 * turn it over. Larger things are rinsed alone.
 */
const BATH_UNITS: Partial<Record<StandardItemKind, number>> = { 'print-10x15': 1, 'a4-sheet': 4, garment: 12 };

/**
 * The bath that a lot may share, or null for alone. Who may share is the rule book's word: what may bleed has no group. Things are
 * not carried to another site for it.
 */
export function bathOf(item: InputItem, mostUnits: number): PlanBatch | null {
  const each = BATH_UNITS[item.sizeClass as StandardItemKind];
  if (item.bathGroup == null || each === undefined) return null;
  const units = each * item.count;
  return units > mostUnits ? null : { group: `${item.siteId} ${item.bathGroup}`, units, mostUnits };
}
