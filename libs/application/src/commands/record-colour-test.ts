import type { Assessment, ColourTest } from '#care';
import type { UseCaseCall } from '../call.js';
import { momentOf, personOf } from '../care/claims.js';
import { AT_THE_TOP, broughtIn, contradictionErrors, refuseContradictions } from '../care/contradicted.js';
import { takeLook } from '../care/look.js';
import { triageContextOf } from '../care/retriage.js';
import { lockOpenItem, standingOf } from '../care/standing.js';
import type { SuitabilityOverride } from '../care/suited.js';
import type { TriageView } from '../care/triage-view.js';
import type { Stores } from '../ports/work.js';

export interface RecordColourTestInput {
  itemId: string;
  personId: string;
  tests: ColourTest[];
  allColoursTested: boolean;
  testedAtMs: number | null;
  /** A lead who answers for a test by somebody who should not have tested; without need it changes nothing. */
  override: SuitabilityOverride | null;
}

/** What a colour test speaks of. */
const SAID: ReadonlySet<string> = new Set<keyof Assessment>(['colourTests', 'allColoursTested']);

/** Records readings of the colour test and triages anew; the step `colour-test` is done when every colour is tested. */
export async function recordColourTest(stores: Stores, call: UseCaseCall, input: RecordColourTestInput): Promise<TriageView> {
  const item = await lockOpenItem(stores, input.itemId);
  await personOf(stores, item.incidentId, input.personId);
  const testedAtMs = momentOf(call, input.testedAtMs, '#/testedAt');
  const standing = await standingOf(stores, item);
  const known = standing.assessment.observed;
  const observed: Assessment = { ...known, colourTests: [...known.colourTests, ...input.tests], allColoursTested: input.allColoursTested };
  const contradictions = broughtIn(known, observed, await triageContextOf(stores, call, item.incidentId, standing.done), SAID);
  refuseContradictions(contradictionErrors(contradictions, { ...AT_THE_TOP, names: { colourTests: 'tests' } }, SAID));
  for (const test of input.tests) {
    await stores.assessments.insertColourTest({ id: call.env.newId(), incidentId: item.incidentId, itemId: item.id, test, testedBy: input.personId, testedAtMs, recordedAtMs: call.env.nowMs });
  }
  return takeLook(stores, call, item, standing, { step: 'colour-test', personId: input.personId, override: input.override, atMs: testedAtMs, observed, complete: input.allColoursTested });
}
