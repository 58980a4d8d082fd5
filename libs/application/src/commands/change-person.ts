import type { ChangePerson } from '#contracts';
import type { UseCaseCall } from '../call.js';
import { LAYOUT_REASONS } from '../planning/plan-reasons.js';
import { requestPlan } from '../planning/request-plan.js';
import type { ConfigStores } from '../ports/config-work.js';
import type { PersonView } from './add-to-layout.js';
import { findUnchanged, saveUnchanged, type VersionedTarget } from './change-versioned.js';

/** Records what somebody has learned, what they declare, or until when their respirator fit is valid. */
export async function changePerson(stores: ConfigStores, call: UseCaseCall, input: ChangePerson & VersionedTarget): Promise<PersonView> {
  const found = await findUnchanged(stores.layout, 'person', input);
  const { skills, restrictions, respiratorFitUntil } = input;
  const person = await saveUnchanged(stores.layout, 'person', input, found, {
    ...(skills === undefined ? {} : { skills }), ...(restrictions === undefined ? {} : { restrictions }), ...(respiratorFitUntil === undefined ? {} : { respiratorFitUntil }),
  });
  const mayDoOther = !sameWords(person.skills, found.skills) || !sameWords(person.restrictions, found.restrictions) || person.respiratorFitUntil !== found.respiratorFitUntil;
  if (mayDoOther) await requestPlan(stores, call, input.incidentId, LAYOUT_REASONS.personChanged(person.code));
  return { person, shifts: await stores.layout.shifts(person.id) };
}

function sameWords(a: readonly string[], b: readonly string[]): boolean {
  return a.length === b.length && a.every((word) => b.includes(word));
}
