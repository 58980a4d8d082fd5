import type { ClockName } from '../calibration.js';
import type { Facts } from '../facts.js';
import type { Family } from '../materials.js';
import type { Assessment, Consents, DamageKind, Disposition, MaterialClass, Restriction, SharedPlace, Source, StepKind, TriageContext, Zone } from '../types.js';
import type { ChoiceId } from './choices.js';
import type { Held } from './releases.js';

/** An observation a rule looks at, by the name it has in the assessment or the triage context. */
export type Observation = keyof Assessment | keyof TriageContext;

/** Steps or zones a caution, a piece of equipment or a restriction is for; nothing given means every step. */
export interface Scope {
  steps?: readonly StepKind[];
  zones?: readonly Zone[];
}

/** What one rule may conclude. Bars always win over offers, whichever rule comes first. */
export type Conclusion =
  /** Starts a damage clock at the wetting; of several for one damage the earliest deadline stands. */
  | { kind: 'clock'; damage: DamageKind; clock: ClockName }
  /** Handling starts by this clock for people's sake, with no damage to the thing. */
  | { kind: 'start-by'; clock: ClockName }
  /** Offers a disposition with its basic steps; the lowest rank stands first and brings its steps. */
  | { kind: 'offer'; disposition: Disposition; rank: number; steps: readonly StepKind[] }
  /** Moves an offered disposition forward; offers nothing by itself. */
  | { kind: 'prefer'; disposition: Disposition; rank: number }
  | { kind: 'bar'; disposition: Disposition }
  | { kind: 'add-step'; dispositions: readonly Disposition[]; step: StepKind }
  | { kind: 'omit-step'; dispositions: readonly Disposition[]; step: StepKind }
  /** Something that must be obtained before the dispositions may be chosen. */
  | { kind: 'need'; dispositions: readonly Disposition[]; text: string; consent: keyof Consents | null }
  | ({ kind: 'caution'; text: string } & Scope)
  | { kind: 'never'; text: string }
  | ({ kind: 'ppe'; items: readonly string[] } & Scope)
  | ({ kind: 'bar-people'; restrictions: readonly Restriction[] } & Scope)
  | { kind: 'referral'; text: string }
  /** Shares its bath with nothing. */
  | { kind: 'bath-alone' }
  /** Must not share a place with what the text names. */
  | { kind: 'apart'; place: SharedPlace; text: string }
  /** How the family keeps it. */
  | { kind: 'storage'; text: string }
  /** Colder than this does harm. */
  | { kind: 'not-colder'; limit: 'disc' }
  /** Which part of the hall a step is done in, where it may stand in another than the dirty one; who does it still wears what the dirty part asks for. */
  | { kind: 'bench'; disposition: Disposition; step: 'wrap'; zone: Zone };

/** One entry of the rule book. A rule that a release changed stands in its file once for each wording, one behind the other. */
export interface Rule extends Held {
  /** Stable dotted name; never reused for another meaning. Once in a release. */
  id: string;
  /** What follows and why, in plain language. */
  text: string;
  /** Observations that make it apply. */
  because: readonly Observation[];
  /** Pure predicate over observations and derived facts. */
  applies: (assessment: Assessment, facts: Facts) => boolean;
  /** Only things handled as one of these; the book is indexed by it, so that other things never pay for the rule. */
  classes?: readonly MaterialClass[];
  /** Only things of these families. */
  families?: readonly Family[];
  concludes: readonly Conclusion[];
  source: Source;
  /** Safety of people, a hazard, a bar on freezing, or the owner's consent: never switched off, never overridden silently. */
  floor?: true;
  /** The marked choice (`CHOICES`) this rule embodies. */
  choiceId?: ChoiceId;
  /** Where sources disagree: what this book does. */
  choice?: string;
  /** Where sources disagree: what the others say. */
  alternative?: string;
}

type Predicate = Rule['applies'];

/** True for what is wet, or not known to be dry. */
export const wet: Predicate = (_assessment, facts) => !facts.dry;

/** True for wet textiles that stay in the salvage line (a household wash is not part of it). */
export const isSalvagedTextile: Predicate = (_assessment, facts) => facts.family === 'textile' && !facts.household && !facts.dry;

/** Always true. */
export const always: Predicate = () => true;

export const offer = (disposition: Disposition, rank: number, steps: readonly StepKind[]): Conclusion => ({ kind: 'offer', disposition, rank, steps });
export const prefer = (disposition: Disposition, rank: number): Conclusion => ({ kind: 'prefer', disposition, rank });
export const bar = (disposition: Disposition): Conclusion => ({ kind: 'bar', disposition });
export const clock = (damage: DamageKind, name: ClockName): Conclusion => ({ kind: 'clock', damage, clock: name });
export const never = (text: string): Conclusion => ({ kind: 'never', text });
export const caution = (text: string, scope: Scope = {}): Conclusion => ({ kind: 'caution', text, ...scope });
export const apart = (place: SharedPlace, text: string): Conclusion => ({ kind: 'apart', place, text });
export const storage = (text: string): Conclusion => ({ kind: 'storage', text });
export const bathAlone: Conclusion = { kind: 'bath-alone' };
export const referral = (text: string): Conclusion => ({ kind: 'referral', text });
export const omitStep = (step: StepKind, ...dispositions: Disposition[]): Conclusion => ({ kind: 'omit-step', step, dispositions });
export const addStep = (step: StepKind, ...dispositions: Disposition[]): Conclusion => ({ kind: 'add-step', step, dispositions });
export const barPeople = (restrictions: readonly Restriction[], scope: Scope = {}): Conclusion => ({ kind: 'bar-people', restrictions, ...scope });
export const ppe = (items: readonly string[], scope: Scope = {}): Conclusion => ({ kind: 'ppe', items, ...scope });

/** Basic steps by disposition and family; rules add and omit steps, the route builder puts them in order. */
export const STEPS = {
  textileTreat: ['rinse', 'blot', 'dry', 'check', 'wrap', 'hand-back'],
  airDry: ['dry', 'check', 'wrap', 'hand-back'],
  interleaveAndAirDry: ['stabilise', 'dry', 'check', 'wrap', 'hand-back'],
  rinseAndAirDry: ['rinse', 'dry', 'check', 'wrap', 'hand-back'],
  blotAndAirDry: ['blot', 'dry', 'check', 'wrap', 'hand-back'],
  supportAndAirDry: ['stabilise', 'dry', 'check', 'wrap', 'hand-back'],
  dryCare: ['check', 'wrap', 'hand-back'],
  household: ['pack', 'hand-back'],
  freeze: ['wrap', 'freeze'],
  stabiliseAndFreeze: ['stabilise', 'wrap', 'freeze'],
  holdWet: ['stabilise'],
  refer: ['pack', 'refer'],
  release: ['photograph', 'release'],
} as const satisfies Record<string, readonly StepKind[]>;
