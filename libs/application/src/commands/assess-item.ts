import type { Assessment } from '#care';
import type { UseCaseCall } from '../call.js';
import { momentOf, personOf } from '../care/claims.js';
import { AT_THE_TOP, broughtIn, contradictionErrors, refuseContradictions } from '../care/contradicted.js';
import { againstEarlierLook, SEEN_AGAIN_ADVICE, wasLookedAt } from '../care/earlier-look.js';
import { takeLook } from '../care/look.js';
import { consentsNow } from '../care/owner-word.js';
import { triageContextOf } from '../care/retriage.js';
import { lockOpenItem, standingOf, type Standing } from '../care/standing.js';
import type { SuitabilityOverride } from '../care/suited.js';
import type { TriageView } from '../care/triage-view.js';
import { wetAgain as wetAgainBy, type Earlier, type WetAgain } from '../care/wet-again.js';
import type { ItemRecord } from '../ports/item-store.js';
import type { Stores } from '../ports/work.js';

/** What a person saw. A member that is left out stays as it was known; `unknown` and null say that nobody knows. */
export type Observations = Partial<Omit<Assessment, 'consents' | 'count' | 'colourTests' | 'allColoursTested'>>;

export interface AssessItemInput {
  itemId: string;
  personId: string;
  assessedAtMs: number | null;
  observations: Observations;
  /** Why this look says something else than an earlier one about what cannot change by itself. */
  seenAgain: { reason: string } | null;
  /** A lead who answers for a look by somebody who should not have looked; without need it changes nothing. */
  override: SuitabilityOverride | null;
}

/** Records what a person observed of an item and triages it anew; the step `assess` is done with it. */
export async function assessItem(stores: Stores, call: UseCaseCall, input: AssessItemInput): Promise<TriageView> {
  const item = await lockOpenItem(stores, input.itemId);
  await personOf(stores, item.incidentId, input.personId);
  const assessedAtMs = momentOf(call, input.assessedAtMs, '#/assessedAt');
  const standing = await standingOf(stores, item);
  const earlier: Earlier = { stage: item.stage, known: standing.assessment.observed, results: standing.results };
  const wetAgain = wetAgainBy(earlier, input.observations);
  const observed: Assessment = { ...merged(earlier.known, input.observations), ...wetAgain.follows, count: item.count, consents: await consentsNow(stores, item, standing) };
  await refuseUntrue(stores, call, item, standing, { earlier, observed, wetAgain }, input);
  return takeLook(stores, call, item, standing, { step: 'assess', personId: input.personId, override: input.override, atMs: assessedAtMs, observed, complete: true, seenAgain: input.seenAgain?.reason ?? null, wetAgain });
}

interface Judged {
  earlier: Earlier;
  observed: Assessment;
  wetAgain: WetAgain;
}

/** What cannot all be true, and what an earlier look recorded otherwise unless somebody says why: all of it at once. @throws Problem observations_contradict */
async function refuseUntrue(stores: Stores, call: UseCaseCall, item: ItemRecord, { done }: Standing, { earlier, observed, wetAgain }: Judged, { observations, seenAgain }: AssessItemInput): Promise<void> {
  const { known, results } = earlier;
  const said = new Set(Object.entries(observations).flatMap(([member, value]) => (value === undefined ? [] : [member])));
  // What is wet again is no longer a dried thing that drips; whether it can be wet again is asked of the earlier look.
  const stillDone = [...done].filter((step) => !wetAgain.undoes.includes(step));
  const contradictions = broughtIn(known, observed, await triageContextOf(stores, call, item.incidentId, stillDone), said);
  const otherwise = seenAgain === null && wasLookedAt(results) ? againstEarlierLook(earlier, observations) : [];
  refuseContradictions([...contradictionErrors(contradictions, AT_THE_TOP, said), ...otherwise], otherwise.length > 0 ? SEEN_AGAIN_ADVICE : null);
}

/** What was found is not unfound by a look that did not see it: dye that has run and mould stay until somebody says otherwise. */
function merged(known: Assessment, seen: Observations): Assessment {
  const told = { ...known, ...Object.fromEntries(Object.entries(seen).filter(([, value]) => value !== undefined)) };
  const alreadyBled = told.alreadyBled ?? (known.alreadyBled === true ? true : null);
  const mould = told.mould === 'unknown' && known.mould !== 'none' ? known.mould : told.mould;
  return { ...told, alreadyBled, mould };
}
