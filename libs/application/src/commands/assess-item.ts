import type { Assessment } from '#care';
import { Problem } from '#contracts';
import type { UseCaseCall } from '../call.js';
import { momentOf, personOf } from '../care/claims.js';
import { takeLook } from '../care/look.js';
import { consentsNow } from '../care/owner-word.js';
import { lockOpenItem, standingOf } from '../care/standing.js';
import type { TriageView } from '../care/triage-view.js';
import type { Stores } from '../ports/work.js';

/** What a person saw. A member that is left out stays as it was known; `unknown` and null say that nobody knows. */
export type Observations = Partial<Omit<Assessment, 'consents' | 'count' | 'colourTests' | 'allColoursTested'>>;

export interface AssessItemInput {
  itemId: string;
  personId: string;
  assessedAtMs: number | null;
  observations: Observations;
}

/** Records what a person observed of an item and triages it anew; the step `assess` is done with it. */
export async function assessItem(stores: Stores, call: UseCaseCall, input: AssessItemInput): Promise<TriageView> {
  const item = await lockOpenItem(stores, input.itemId);
  await personOf(stores, item.incidentId, input.personId);
  const assessedAtMs = momentOf(call, input.assessedAtMs, '#/assessedAt');
  refuseWetTomorrow(call, input.observations.wettedAtMs ?? null);
  const standing = await standingOf(stores, item);
  const known = standing.assessment.observed;
  const observed: Assessment = { ...merged(known, input.observations), count: item.count, consents: await consentsNow(stores, item, standing) };
  return takeLook(stores, call, item, standing, { step: 'assess', personId: input.personId, atMs: assessedAtMs, observed, complete: true });
}

/** What was found is not unfound by a look that did not see it: dye that has run and mould stay until somebody says otherwise. */
function merged(known: Assessment, seen: Observations): Assessment {
  const told = { ...known, ...Object.fromEntries(Object.entries(seen).filter(([, value]) => value !== undefined)) };
  const alreadyBled = told.alreadyBled ?? (known.alreadyBled === true ? true : null);
  const mould = told.mould === 'unknown' && known.mould !== 'none' ? known.mould : told.mould;
  return { ...told, alreadyBled, mould };
}

function refuseWetTomorrow(call: UseCaseCall, wettedAtMs: number | null): void {
  if (wettedAtMs === null || wettedAtMs <= call.env.nowMs) return;
  const detail = 'lies ahead; leave it out when nobody knows it';
  throw new Problem('command_refused', 'The time of wetting lies ahead. Leave it out when nobody knows it.', { errors: [{ detail, code: 'time_ahead', pointer: '#/wettedAt' }] });
}
