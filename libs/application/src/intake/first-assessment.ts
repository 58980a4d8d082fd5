import type { Assessment, Consents, MaterialClass, Significance, WaterKind } from '#care';

export interface FirstSight {
  materialClass: MaterialClass;
  count: number;
  significance: Significance;
  wettedAtMs: number | null;
  water: WaterKind;
  consents: Consents;
}

/** What is known at the doorway; everything else is unknown, which the rule book takes on the cautious side. */
export function firstAssessment(sight: FirstSight): Assessment {
  return {
    materialClass: sight.materialClass,
    fibre: 'unknown',
    count: sight.count,
    wetState: 'unknown',
    wettedAtMs: sight.wettedAtMs,
    water: sight.water,
    mould: 'unknown',
    fragility: 'unknown',
    colourTests: [],
    allColoursTested: false,
    alreadyBled: null,
    hazards: [],
    significance: sight.significance,
    onlyCopy: null,
    highMarketValue: null,
    consents: sight.consents,
  };
}
