import type { DispositionOption, StepKind } from '#care';
import { Problem } from '#contracts';
import type { ItemRecord } from '../ports/item-store.js';
import type { StepOutcome } from '../ports/step-store.js';
import type { Stores } from '../ports/work.js';
import { wasUnderWay, type Standing } from './standing.js';

/** Steps that touch the thing with water, towel or brush; looking, testing, wrapping and packing do not. */
const TREATS: ReadonlySet<StepKind> = new Set(['rinse', 'blot', 'dry', 'surface-clean']);

/** True when the step that comes next touches the thing with water, towel or brush, or holds it wet. */
export function comesToTreatment(item: Pick<ItemRecord, 'nextStep' | 'disposition'>): boolean {
  const holdsOrTreats = item.nextStep === 'stabilise' && (item.disposition === 'treat' || item.disposition === 'hold-wet');
  return item.nextStep !== null && (TREATS.has(item.nextStep) || holdsOrTreats);
}

/**
 * An owner's no binds: no treatment and no freezing against it. Silence does not stop first aid; triage asks for the word.
 * What hangs on a rack may always be taken down, and a step that was under way when the owner took back the yes is on record as it ended.
 * @throws Problem consent_missing
 */
export async function refuseUnconsented(stores: Stores, item: ItemRecord, standing: Standing, way: DispositionOption, reported: { step: StepKind; outcome: StepOutcome }): Promise<void> {
  const scope = consentFor(item, way, reported);
  if (scope === null) return;
  const { consents } = await stores.consents.inForce(item.householdId, item.id);
  if (consents[scope] !== false || wasUnderWay(standing, reported.step)) return;
  throw new Problem('consent_missing', `The owner has refused to let us ${scope} it, so this step is not recorded as done. Ask again and record the answer, or follow what triage offers instead.`, { members: { scope } });
}

function consentFor(item: ItemRecord, way: DispositionOption, { step, outcome }: { step: StepKind; outcome: StepOutcome }): 'treat' | 'freeze' | null {
  if (outcome !== 'done') return null;
  if (step === 'freeze') return item.stage === 'held-frozen' ? null : 'freeze';
  if (step === 'dry' && item.stage === 'drying') return null;
  const holdsOrTreats = step === 'stabilise' && (way.disposition === 'treat' || way.disposition === 'hold-wet');
  return TREATS.has(step) || holdsOrTreats ? 'treat' : null;
}
