/** When a thing counts as safe for now, apart from what custody says by itself: hung, frozen, held wet, thawed (step-custody.ts). */
import type { DispositionOption, MouldState, StepKind } from '#care';
import type { UseCaseCall } from '../call.js';
import type { ItemRecord } from '../ports/item-store.js';
import type { RecordedOutcome } from '../ports/step-store.js';
import type { Stores } from '../ports/work.js';
import { isAlive } from './wet-again.js';

/** What came of a step or a look. */
export interface Outcome {
  found: readonly RecordedOutcome[];
  undoes: readonly StepKind[];
}

/** What counted as safe is at risk again when mould comes to light, it got wet again, or its drying counts no longer. What hangs or is held stays as it is held; mould goes on there, but for the freezer. */
export function endsSafety({ stage }: Pick<ItemRecord, 'stage'>, { found, undoes }: Outcome): boolean {
  if (stage === 'held-frozen') return false;
  if (found.includes('mould-found')) return true;
  const held = stage === 'drying' || stage === 'held-wet';
  return !held && (found.includes('wetted-again') || undoes.includes('dry'));
}

/** Lets the clock of the item run again where it must. Answers the item as it now is. */
export async function unsettle(stores: Stores, call: UseCaseCall, item: ItemRecord, outcome: Outcome): Promise<ItemRecord> {
  return item.stabilisedAtMs !== null && endsSafety(item, outcome) ? saveStabilised(stores, call, item, null) : item;
}

/** What a step that is done leaves behind. */
export interface Left {
  step: StepKind;
  way: DispositionOption;
  /** Steps that are done, that one included. */
  done: ReadonlySet<StepKind>;
  mould: MouldState;
  atMs: number;
}

/** A dried thing whose mould is off is safe again; so is one that was dry all along, once the check says so. */
export async function settle(stores: Stores, call: UseCaseCall, item: ItemRecord, { step, way, done, mould, atMs }: Left): Promise<ItemRecord> {
  if (item.stabilisedAtMs !== null || item.stage === 'referred-out' || isAlive(mould)) return item;
  const checked = step === 'check' && way.steps.some((care) => care.step === step && care.stabilises);
  return checked || done.has('dry') ? saveStabilised(stores, call, item, atMs) : item;
}

async function saveStabilised(stores: Stores, call: UseCaseCall, item: ItemRecord, stabilisedAtMs: number | null): Promise<ItemRecord> {
  return { ...item, stabilisedAtMs, version: await stores.items.saveWork(item.id, { stabilisedAtMs }, call.env.nowMs) };
}
