import type { Assessment, ColourTest, Consents } from '#care';
import type { DemoThing } from './types.js';

/** What a trained assessor writes down of a thing; colour tests come apart, by the testers. */
export function observedBy(thing: DemoThing, consents: Consents, tests: { colourTests: ColourTest[]; allColoursTested: boolean } = { colourTests: [], allColoursTested: false }): Assessment {
  return {
    materialClass: thing.materialClass,
    fibre: thing.materialClass === 'textile-silk' ? 'silk' : thing.materialClass === 'textile-wool' ? 'wool' : thing.materialClass.startsWith('textile') ? 'cotton' : 'unknown',
    count: thing.count,
    wetState: thing.wetState,
    wettedAtMs: thing.wettedAtMs,
    water: 'black',
    mould: thing.mouldy ? 'active' : 'none',
    fragility: thing.fragility,
    ...tests,
    alreadyBled: null,
    hazards: [],
    significance: thing.significance,
    onlyCopy: thing.onlyCopy,
    highMarketValue: thing.highMarketValue,
    consents,
  };
}
