import { type ChangeSpecialist, Problem, specialistFaults } from '#contracts';
import type { UseCaseCall } from '../call.js';
import { LAYOUT_REASONS } from '../planning/plan-reasons.js';
import { requestPlan } from '../planning/request-plan.js';
import type { ConfigStores } from '../ports/config-work.js';
import type { LayoutChanges, SpecialistRecord } from '../ports/layout-store.js';
import { definedMembers, findUnchanged, saveUnchanged, type VersionedTarget } from './change-versioned.js';
import { spanOf } from './register-incident.layout.js';

/** What a plan reckons with. */
const PLANNED_BY = ['piecesAtOnce', 'hoursPerPiece', 'materialClasses', 'openings'] as const satisfies readonly (keyof SpecialistRecord)[];

/**
 * Changes what a specialist is called, or can take. Nothing that is with them is called back: only what a plan sends next is
 * reckoned anew.
 * @throws Problem not_found, incident_closed, version_stale, validation_failed
 */
export async function changeSpecialist(stores: ConfigStores, call: UseCaseCall, input: ChangeSpecialist & VersionedTarget): Promise<SpecialistRecord> {
  const found = await findUnchanged(stores.layout, 'specialist', input);
  const changed = changesOf(input);
  refuseHalf({ ...found, ...definedMembers(changed) });
  const specialist = await saveUnchanged(stores.layout, 'specialist', input, found, changed);
  if (PLANNED_BY.some((member) => JSON.stringify(specialist[member]) !== JSON.stringify(found[member]))) await requestPlan(stores, call, input.incidentId, LAYOUT_REASONS.specialistChanged(specialist.code));
  return specialist;
}

/** A null list of a merge patch says what an empty one says. */
function changesOf({ name, field, piecesAtOnce, hoursPerPiece, materialClasses, openings }: ChangeSpecialist): LayoutChanges['specialist'] {
  return {
    name, field, piecesAtOnce, hoursPerPiece,
    materialClasses: materialClasses === undefined ? undefined : (materialClasses ?? []),
    openings: openings === undefined ? undefined : (openings ?? []).map(spanOf),
  };
}

/** Of the pair that would be on record afterwards; all other faults show in the body alone. */
function refuseHalf({ piecesAtOnce, hoursPerPiece }: Pick<SpecialistRecord, 'piecesAtOnce' | 'hoursPerPiece'>): void {
  const faults = specialistFaults({ piecesAtOnce, hoursPerPiece });
  if (faults.length === 0) return;
  throw new Problem('validation_failed', 'What the specialist can take would be half known; see errors. Nothing was changed.', {
    errors: faults.map(({ path, message }) => ({ detail: message, code: 'custom', pointer: `#/${path.join('/')}` })),
  });
}
