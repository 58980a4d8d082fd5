import type { Assessment } from '#care';
import { knownAssessment } from '../care/assessment.support.js';

export { anyAssessment, anyContext, contextAt, FLOOD_AT_MS, knownAssessment } from '../care/assessment.support.js';

/** Nobody has said anything but what it is: every question that can be asked is open. */
export function unknownAssessment(changes: Partial<Assessment> = {}): Assessment {
  return knownAssessment({
    fibre: 'unknown', wetState: 'unknown', wettedAtMs: null, water: 'unknown', mould: 'unknown', fragility: 'unknown', colourTests: [], allColoursTested: false, alreadyBled: null, onlyCopy: null, highMarketValue: null,
    consents: { treat: null, freeze: null, refer: null, release: null }, soil: 'unknown', detachedParts: null, oldRepairs: null, ...changes,
  });
}
