/**
 * The vocabulary of care: what can be observed of a water-damaged thing and what may be concluded.
 * Plain data only. Times are epoch milliseconds (`...AtMs`); `null` always means "not known".
 */

/** Material classes after the care guidance, most vulnerable part first for mixed objects. */
export const MATERIAL_CLASSES = [
  'textile-flat-small',
  'textile-flat-large',
  'textile-quilt-padded',
  'textile-garment-3d',
  'textile-composite',
  'textile-silk',
  'textile-wool',
  'textile-painted-or-glazed',
  'textile-very-degraded',
  'textile-everyday',
  'textile-stuffed',
  'paper-uncoated',
  'paper-coated',
  'paper-soluble-media',
  'paper-oversize',
  'paper-framed',
  'album-or-scrapbook',
  'book-bound',
  'book-leather-or-vellum',
  'parchment',
  'photo-silver-gelatin',
  'photo-colour-print',
  'photo-albumen',
  'photo-collodion-or-tintype',
  'photo-daguerreotype',
  'photo-glass-plate-gelatin',
  'photo-inkjet-or-digital-print',
  'film-negative',
  'film-nitrate-deteriorated',
  'photo-stuck-together',
  'unknown',
] as const;
export type MaterialClass = (typeof MATERIAL_CLASSES)[number];

export const FIBRES = ['cotton', 'linen', 'wool', 'silk', 'viscose', 'acetate', 'nylon', 'polyester', 'acrylic', 'mixed', 'unknown'] as const;
export type Fibre = (typeof FIBRES)[number];

export const WET_STATES = ['dripping', 'wet', 'damp', 'dry', 'unknown'] as const;
export type WetState = (typeof WET_STATES)[number];

/** Contamination of the water at the time of wetting; it worsens with hours. */
export const WATER_KINDS = ['clean', 'grey', 'black', 'salt', 'unknown'] as const;
export type WaterKind = (typeof WATER_KINDS)[number];

export const MOULD_STATES = ['none', 'suspected', 'active', 'dry', 'unknown'] as const;
export type MouldState = (typeof MOULD_STATES)[number];

export const FRAGILITIES = ['sound', 'weak', 'very-degraded', 'unknown'] as const;
export type Fragility = (typeof FRAGILITIES)[number];

export const HAZARDS = ['sewage', 'fuel-or-solvent', 'pesticide', 'arsenic-era-object', 'lithium-cell', 'sharps', 'unknown-liquid', 'nitrate-film'] as const;
export type Hazard = (typeof HAZARDS)[number];

/** What the thing means to its family, in the family's own weighing. */
export const SIGNIFICANCES = ['everyday', 'valued', 'treasured', 'irreplaceable'] as const;
export type Significance = (typeof SIGNIFICANCES)[number];

/** Grey scale for staining (ISO 105-A03): '5' is no stain. `any-transfer` and `no-transfer` are swab readings. */
export const COLOUR_TEST_READINGS = ['5', '4-5', '4', '3-4', '3', '2-3', '2', '1-2', '1', 'no-transfer', 'any-transfer'] as const;
export type ColourTestReading = (typeof COLOUR_TEST_READINGS)[number];

export interface ColourTest {
  /** The colour tested, in words ("red border thread"). */
  colour: string;
  solution: 'water' | 'detergent';
  method: 'swab' | 'blotter' | 'lab';
  reading: ColourTestReading;
}

export const URGENCIES = ['immediate', 'within-a-day', 'within-two-days', 'can-wait'] as const;
export type Urgency = (typeof URGENCIES)[number];

export const DISPOSITIONS = ['treat', 'hold-frozen', 'hold-wet', 'refer', 'release'] as const;
export type Disposition = (typeof DISPOSITIONS)[number];

export const STEP_KINDS = ['tag', 'photograph', 'assess', 'colour-test', 'stabilise', 'rinse', 'blot', 'dry', 'check', 'surface-clean', 'wrap', 'freeze', 'thaw', 'refer', 'release', 'pack', 'hand-back'] as const;
export type StepKind = (typeof STEP_KINDS)[number];

export const ZONES = ['dirty', 'clean', 'quarantine', 'cold'] as const;
export type Zone = (typeof ZONES)[number];

export const DAMAGE_KINDS = ['mould', 'blocking', 'dye-migration', 'image-loss', 'corrosion', 'distortion'] as const;
export type DamageKind = (typeof DAMAGE_KINDS)[number];

/** Skills a step may ask of the person who does it. */
export const SKILLS = ['intake', 'colour-testing', 'rinsing', 'blotting', 'drying', 'paper', 'photographs', 'mould-work', 'freezer-wrapping', 'assessment', 'lead'] as const;
export type Skill = (typeof SKILLS)[number];

/** Self-declared restrictions; never a diagnosis. */
export const RESTRICTIONS = ['no-mould', 'no-lifting', 'no-wet-work', 'under-age', 'no-heat'] as const;
export type Restriction = (typeof RESTRICTIONS)[number];

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
  reasons: Reason[];
  askNext: Question[];
  /** Always present: advice to a trained lead, who may override with a recorded reason. */
  standing: string;
}
