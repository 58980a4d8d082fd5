/** Steps with everything that could serve them: equal needs are compiled once, as an incident has far fewer kinds of steps than steps. */
import { CandidateIndex } from './candidates.js';
import type { CompiledBatch, CompiledStep } from './compile.js';
import { NONE } from './free-slots.js';
import { fallingNeed, type Resources } from './resources.js';
import type { PlanStep } from './types.js';

/** A step that has been compiled, where and how it was asked for, and the next one of those that may be alike. */
interface Known { step: PlanStep; siteId: string; isLast: boolean; compiled: CompiledStep; next: Known | undefined }

/** Compiled steps by what they need. */
export class StepBook {
  private readonly index: CandidateIndex;
  /** By kind, and group of those that may be shared; then by a number that equal needs have in common. */
  private readonly known = new Map<string, Map<number, Known>>();

  /** @param usual the company of most things that dry; undefined where none has one */
  constructor(private readonly resources: Resources, private readonly usual?: string) {
    this.index = new CandidateIndex(resources);
  }

  /** @param isLast no step of its route follows */
  compile(itemSiteId: string, step: PlanStep, isLast: boolean): CompiledStep {
    const siteId = step.siteId ?? itemSiteId;
    const kind = step.batch === undefined ? step.step : `${step.step}/${step.batch.group}`;
    let ofKind = this.known.get(kind);
    if (ofKind === undefined) this.known.set(kind, (ofKind = new Map()));
    const number = numberOf(step);
    const first = ofKind.get(number);
    for (let one = first; one !== undefined; one = one.next) {
      if (one.isLast === isLast && one.siteId === siteId && haveEqualNeeds(one.step, step)) return one.compiled;
    }
    const compiled = this.compileStep(siteId, step, isLast);
    ofKind.set(number, { step, siteId, isLast, compiled, next: first });
    return compiled;
  }

  private compileStep(siteId: string, step: PlanStep, isLast: boolean): CompiledStep {
    const { index, resources } = this;
    const { drying, freezer } = step;
    const crewChoice = step.crew > 0 ? index.crewChoice(siteId, step) : null;
    const services = (step.services ?? []).map(({ serviceId, units }) => ({ row: resources.row.service + resources.indexOf.service.get(serviceId)!, units }));
    return {
      kind: step.step, skill: step.skill ?? '', duration: step.durationSlots,
      stations: drying !== null || step.noStation === true ? null : index.stations(siteId, step),
      crew: step.crew,
      crewClass: crewChoice?.able ?? null,
      crewChoice,
      coolFrom: step.coolFromSlot ?? 0,
      notAfter: step.notAfterSlot ?? resources.horizon,
      places: drying !== null ? index.places(siteId, step.company !== undefined && step.company !== this.usual) : null,
      area: drying?.areaDm2 ?? 0,
      need: drying === null ? 0 : (fallingNeed(drying.loadGPerSlot, drying.falling) ?? drying.loadGPerSlot),
      freezers: freezer === null ? null : index.freezers(siteId),
      volume: freezer?.volumeCl ?? 0,
      staysToEnd: freezer !== null && isLast,
      leastStay: freezer?.leastSlots ?? 1,
      services: services.length > 0 ? services : null,
      company: drying === null && freezer === null ? NONE : resources.companies.of(step.company),
      // Couriers and specialists count thing by thing, so what needs one is done alone.
      batch: step.batch === undefined || services.length > 0 ? null : compileBatch(siteId, step, step.batch),
    };
  }
}

/** Only steps that ask for the same hands may be shared. */
function compileBatch(siteId: string, step: PlanStep, { group, units, mostUnits }: NonNullable<PlanStep['batch']>): CompiledBatch {
  const alike = [siteId, step.step, step.zone, group, step.crew, step.skill, step.needsFit === true, step.coolFromSlot ?? 0, step.notAfterSlot ?? null, step.noStation === true, [...step.barredRestrictions].sort(), [...(step.barredStationIds ?? [])].sort()];
  return { key: JSON.stringify(alike), units, mostUnits };
}

/** Equal for equal needs, and mostly another for others. */
function numberOf({ durationSlots, drying, freezer, coolFromSlot = 0, notAfterSlot = 0 }: PlanStep): number {
  let number = durationSlots;
  number = Math.imul(number, 31) + (drying?.areaDm2 ?? 0);
  number = Math.imul(number, 31) + (drying?.loadGPerSlot ?? 0);
  number = Math.imul(number, 31) + (freezer?.volumeCl ?? 0);
  number = Math.imul(number, 31) + coolFromSlot;
  return (Math.imul(number, 31) + notAfterSlot) | 0;
}

/** Whether the same would serve both; what a step stabilises is its route's concern. */
function haveEqualNeeds(a: PlanStep, b: PlanStep): boolean {
  return a === b || (
    a.step === b.step && a.zone === b.zone && a.durationSlots === b.durationSlots && a.noStation === b.noStation && a.crew === b.crew && a.skill === b.skill &&
    a.notAfterSlot === b.notAfterSlot && a.needsFit === b.needsFit && a.coolFromSlot === b.coolFromSlot && a.company === b.company &&
    haveEqualParts(a.drying, b.drying) && haveEqualParts(a.freezer, b.freezer) && haveEqualParts(a.batch, b.batch) && haveEqualParts(a.services, b.services) &&
    haveEqualParts(a.barredRestrictions, b.barredRestrictions) && haveEqualParts(a.barredStationIds, b.barredStationIds)
  );
}

/** Plain data compared by content. */
function haveEqualParts(a: unknown, b: unknown): boolean {
  if (a === b) return true;
  if (typeof a !== 'object' || typeof b !== 'object' || a === null || b === null) return false;
  if (Array.isArray(a) && Array.isArray(b)) return a.length === b.length && a.every((part, i) => haveEqualParts(part, b[i]));
  const [one, other] = [a as Record<string, unknown>, b as Record<string, unknown>];
  const names = Object.keys(one);
  return names.length === Object.keys(other).length && names.every((name) => haveEqualParts(one[name], other[name]));
}
