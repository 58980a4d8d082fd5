/**
 * The vocabulary of care: what can be observed of a water-damaged thing and what may be concluded.
 * Plain data only. Times are epoch milliseconds (`...AtMs`); `null` always means "not known".
 */
import type { ColourTestReading, DamageKind, Disposition, Fibre, Fragility, Hazard, MaterialClass, MouldState, Restriction, SharedPlace, Significance, Skill, Soil, StepKind, Urgency, WaterKind, WetState, Zone } from './vocabulary.js';

export * from './vocabulary.js';

export interface ColourTest {
  /** The colour tested, in words ("red border thread"). */
  colour: string;
  solution: 'water' | 'detergent';
  method: 'swab' | 'blotter' | 'lab';
  reading: ColourTestReading;
}

/** How a rule stands: published source, practice without a source, memory, or our own calibration. */
export type Mark = 'published' | 'common-practice' | 'from-memory' | 'own-calibration';

export interface Source {
  mark: Mark;
  /** Title, publisher, section when `published`; otherwise a sentence that says what it rests on. */
  cite: string;
}

export interface Consents {
  /** `null`: not asked yet. */
  treat: boolean | null;
  freeze: boolean | null;
  refer: boolean | null;
  release: boolean | null;
}

export interface Assessment {
  materialClass: MaterialClass;
  fibre: Fibre;
  /** Pieces in a counted lot; 1 for a single thing. */
  count: number;
  wetState: WetState;
  /** When it got wet; `null` falls back to `floodAtMs` (the cautious side). */
  wettedAtMs: number | null;
  water: WaterKind;
  mould: MouldState;
  fragility: Fragility;
  colourTests: ColourTest[];
  /** Every colour and repair thread has been tested, as the tester says. */
  allColoursTested: boolean;
  alreadyBled: boolean | null;
  hazards: Hazard[];
  significance: Significance;
  onlyCopy: boolean | null;
  highMarketValue: boolean | null;
  consents: Consents;
  /**
   * Further materials of a mixed object. Bars, prohibitions, protection and clocks of every part hold; the ways are
   * those of its most vulnerable part, and only as far as every part allows them. Nothing given: one material.
   */
  parts?: readonly MaterialClass[];
  /** Every colour and thread by name, when somebody listed them; all of them must then be tested. */
  colours?: readonly string[];
  /** Nothing given counts as `unknown`, and that as heavy mud. */
  soil?: Soil;
  /** Something has come off or is loose. Nothing given counts as not looked at. */
  detachedParts?: boolean | null;
  /** Mended, glued or restored before. Nothing given counts as not looked at. */
  oldRepairs?: boolean | null;
  /** Where it stood when it got wet, in somebody's words; no rule reads it. */
  wettedPlace?: string | null;
}

export interface TriageContext {
  nowMs: number;
  /** When the flood began, used when the wetting time is unknown. */
  floodAtMs: number;
  /** Air where the item waits; `null` uses the cautious default of the rule book. */
  airTempC: number | null;
  /**
   * Steps already done in this round of work (a thaw begins a new round). Drying or freezing that is done has
   * stopped the clocks; nothing given means nothing done.
   */
  doneSteps?: readonly StepKind[];
}

/** A sentence for people with the rule that says it. */
export interface Statement {
  ruleId: string;
  text: string;
}

export interface Reason {
  ruleId: string;
  /** Plain language: what follows and why. */
  text: string;
  /** Names of the observations that made the rule apply. */
  because: string[];
  source: Source;
}

export interface Clock {
  damage: DamageKind;
  /** Moment after which the damage is to be expected, by the rule of practice; never a promise. */
  deadlineAtMs: number;
  /** When to warn (the early end of the band). */
  warnAtMs: number;
  ruleId: string;
}

/** Something this thing must not share, and with what. */
export interface Apart extends Statement {
  place: SharedPlace;
}

/** Freezer settings of one thing, degrees Celsius. */
export interface FreezerSettings {
  freezeToC: number;
  holdAtMostC: number;
  /** Colder than this does harm; `null` where no lower limit is known. */
  notColderThanC: number | null;
}

export interface CareStep {
  step: StepKind;
  zone: Zone;
  /** Hands-on minutes for one piece and the crew size; our calibration, configurable by the planner. */
  minutesPerPiece: number;
  crew: number;
  skill: Skill | null;
  /** People who declared one of these are not assigned. */
  barredRestrictions: Restriction[];
  ppe: string[];
  cautions: Statement[];
  /** True for the step at whose start (drying) or end (freezing, holding) the item counts as stabilised. */
  stabilises: boolean;
}

export interface DispositionOption {
  disposition: Disposition;
  /** Why it stands at this place in the order. */
  ruleIds: string[];
  /** Empty when it may be chosen now; otherwise what is missing ("owner's consent to freeze"). */
  needs: string[];
  steps: CareStep[];
}

export interface Question {
  /** Name of the unanswered observation. */
  observation: string;
  text: string;
  /** Urgencies and dispositions that the answers could lead to. */
  couldBecome: { answer: string; urgency: Urgency; disposition: Disposition }[];
}

export interface TriageResult {
  ruleBookVersion: string;
  urgency: Urgency;
  /** Handling must start by this moment. */
  startByMs: number;
  clocks: Clock[];
  /** The damage whose clock binds. */
  binding: DamageKind | null;
  /** Allowed dispositions, best first. Never empty. */
  options: DispositionOption[];
  never: Statement[];
  cautions: Statement[];
  ppe: string[];
  consentNeeded: Statement[];
  referral: Statement[];
  /** Items with the same key may share a bath; `null` shares with nothing. */
  bathGroup: string | null;
  /** What it must not share a bath, a rack, a bag or a freezer with. */
  apartFrom: Apart[];
  /** How to set the freezer for it; `null` where freezing is not open. */
  freezer: FreezerSettings | null;
  /** How to keep it at home, for the hand-back. */
  storage: Statement[];
  /** The material whose ways are followed: the most vulnerable part of a mixed object. */
  treatedAs: MaterialClass;
  reasons: Reason[];
  askNext: Question[];
  /** Always present: advice to a trained lead, who may override with a recorded reason. */
  standing: string;
}
