/** Care steps: order, zone, hands, protection and cautions of each step in a route. */
import type { CareCalibration, Handling } from './calibration.js';
import { statements } from './conclusions.js';
import type { Findings } from './conclusions.js';
import type { Facts } from './facts.js';
import type { Family } from './materials.js';
import type { Scope } from './rule-book/rule.js';
import type { CareStep, Disposition, Skill, StepKind, Zone } from './types.js';

/** The order steps take in any route, whatever rule asked for them. */
const STEP_ORDER: readonly StepKind[] = [
  'tag', 'photograph', 'assess', 'colour-test', 'stabilise', 'rinse', 'blot', 'dry', 'surface-clean', 'check', 'wrap', 'freeze', 'thaw', 'pack', 'refer', 'release', 'hand-back',
];

const DRYING_SKILL: Readonly<Record<Family, Skill>> = { textile: 'drying', paper: 'paper', book: 'paper', photo: 'photographs', film: 'photographs', 'audio-visual': 'drying', painting: 'drying', wood: 'drying', leather: 'drying', organic: 'drying', inorganic: 'drying', unknown: 'drying' };

/** Steps of a route, once each and in working order. */
export function inWorkingOrder(steps: Iterable<StepKind>): StepKind[] {
  const wanted = new Set(steps);
  return STEP_ORDER.filter((step) => wanted.has(step));
}

/** The last step that still belongs to the dirty side; -1 when the whole route is clean. */
function lastDirtyIndex(route: readonly StepKind[], disposition: Disposition, facts: Facts): number {
  if (disposition !== 'treat') return route.length - 1;
  if (facts.household) return route.length - 1;
  const contaminated = facts.water !== 'clean';
  const boundary: StepKind[] = facts.mould === 'active' ? ['check'] : ['surface-clean', 'rinse', ...(contaminated ? (['check'] as const) : (['stabilise', 'colour-test', 'assess'] as const))];
  const found = boundary.find((step) => route.includes(step));
  return found === undefined ? -1 : route.indexOf(found);
}

/**
 * Zones run from dirty (or quarantine, with active mould) to clean and never back; the freezer is cold. A bench that the book
 * places elsewhere takes a step out of the dirty zone, never out of quarantine.
 */
export function zonesOf(route: readonly StepKind[], disposition: Disposition, facts: Facts, benches: Findings['drawn']['bench'] = []): Zone[] {
  const lastDirty = lastDirtyIndex(route, disposition, facts);
  const side: Zone = facts.mould === 'active' ? 'quarantine' : 'dirty';
  const zoneOf = (step: StepKind, index: number): Zone => {
    if (step === 'freeze' || step === 'thaw') return 'cold';
    if (index > lastDirty) return 'clean';
    return (side === 'dirty' ? benches.find((bench) => bench.disposition === disposition && bench.step === step)?.zone : undefined) ?? side;
  };
  return route.map(zoneOf);
}

/** The zone whose protection, cautions and restrictions hold for a step: what is wrapped at the freezer is still as it came in. */
export const protectedAsIn = (step: StepKind, zone: Zone): Zone => (step === 'wrap' && zone === 'cold' ? 'dirty' : zone);

/** The step at which the thing counts as stabilised; every route has exactly one. */
export function stabilisingStep(route: readonly StepKind[], disposition: Disposition): StepKind {
  switch (disposition) {
    case 'hold-frozen':
      return 'freeze';
    case 'hold-wet':
      return 'stabilise';
    case 'refer':
      return 'refer';
    case 'release':
      return 'release';
    default:
      if (route.includes('dry')) return 'dry';
      return route.includes('check') ? 'check' : 'hand-back';
  }
}

/** Skills that do not depend on the thing; a step without one is anybody's. */
const SKILL_OF_STEP: Readonly<Partial<Record<StepKind, Skill>>> = {
  tag: 'intake', photograph: 'intake', 'hand-back': 'intake', assess: 'assessment', 'colour-test': 'colour-testing', blot: 'blotting',
  freeze: 'freezer-wrapping', thaw: 'freezer-wrapping', refer: 'lead', release: 'lead',
};

function skillFor(step: StepKind, disposition: Disposition, facts: Facts): Skill | null {
  switch (step) {
    case 'surface-clean':
      return facts.mould === 'active' || facts.mould === 'dry' ? 'mould-work' : DRYING_SKILL[facts.family];
    case 'stabilise':
    case 'dry':
    case 'check':
      return facts.mould === 'active' ? 'mould-work' : DRYING_SKILL[facts.family];
    case 'rinse':
      return facts.family === 'photo' || facts.family === 'film' ? 'photographs' : 'rinsing';
    case 'wrap':
      return disposition === 'hold-frozen' ? 'freezer-wrapping' : null;
    default:
      return SKILL_OF_STEP[step] ?? null;
  }
}

/** True when a scope covers a step in its zone. */
export const inScope = (scope: Scope, step: StepKind, zone: Zone): boolean =>
  (scope.steps === undefined || scope.steps.includes(step)) && (scope.zones === undefined || scope.zones.includes(zone));

function handlingOf(step: StepKind, facts: Facts, calibration: CareCalibration): Handling {
  return calibration.handlingBySize[facts.traits.size][step] ?? calibration.handlingDefault[step];
}

/** Minutes a piece: what is spent once for a lot is shared by its pieces. */
function minutesPerPiece(handling: Handling, count: number): number {
  const pieces = Number.isFinite(count) && count > 1 ? Math.floor(count) : 1;
  return handling.per === 'lot' ? handling.minutes / pieces : handling.minutes;
}

const unique = <T>(values: readonly T[]): T[] => [...new Set(values)];

/** Everything a route needs to know beside its list of steps. */
export interface RouteContext {
  findings: Findings;
  facts: Facts;
  count: number;
  calibration: CareCalibration;
}

/** Builds the care steps of one route. */
export function careSteps(route: readonly StepKind[], disposition: Disposition, context: RouteContext): CareStep[] {
  const { findings, facts, count, calibration } = context;
  const zones = zonesOf(route, disposition, facts, findings.drawn.bench);
  const stabilising = stabilisingStep(route, disposition);
  const [cautions, equipment, bars] = [findings.drawn.caution, findings.drawn.ppe, findings.drawn['bar-people']];
  return route.map((step, index) => {
    const zone = zones[index] ?? 'dirty';
    const handling = handlingOf(step, facts, calibration);
    const here = (scope: Scope): boolean => inScope(scope, step, protectedAsIn(step, zone));
    return {
      step,
      zone,
      minutesPerPiece: minutesPerPiece(handling, count),
      crew: handling.crew,
      skill: skillFor(step, disposition, facts),
      barredRestrictions: unique(bars.filter(here).flatMap((bar) => [...bar.restrictions])),
      ppe: unique(equipment.filter(here).flatMap((entry) => [...entry.items])),
      cautions: statements(cautions.filter(here)),
      stabilises: step === stabilising,
    };
  });
}
