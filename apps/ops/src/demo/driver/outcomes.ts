import type { StepKind, StepOutcome } from '#care';
import { OUTCOME_RATES, SIZE } from '../calibration.js';
import { Dice } from '../dice.js';
import type { DemoThing } from '../world/types.js';

const WETS: ReadonlySet<StepKind> = new Set(['rinse', 'blot']);
const LOOKS_CLOSELY: ReadonlySet<StepKind> = new Set(['check', 'surface-clean', 'dry']);

/** Chance at the tables: how steps end, and which of the colour tests bleed. Invented rates, the scenario's count of bleeders. */
export class Outcomes {
  private readonly bleeders: ReadonlySet<number>;
  private readonly firstTests: number;
  private tests = 0;
  private bled = 0;

  constructor(
    private readonly seed: number,
    scale: number,
  ) {
    this.firstTests = Math.max(10, Math.round(SIZE.firstColourTests * scale));
    this.bleeders = Dice.of(seed, 'bleeders').sample(Math.max(1, Math.round(SIZE.thatBleed * scale)), this.firstTests);
  }

  /** True when the dye of the thing that is tested now moves: of the first 400 tests 31, afterwards as often by chance. */
  nextColourTestBleeds(thing: DemoThing): boolean {
    const number = this.tests;
    this.tests += 1;
    const bleeds = number < this.firstTests ? this.bleeders.has(number) : Dice.of(this.seed, 'bleeds', thing.key).chance(SIZE.thatBleed / SIZE.firstColourTests);
    if (bleeds) this.bled += 1;
    return bleeds;
  }

  get colourTests(): { tests: number; bled: number } {
    return { tests: this.tests, bled: this.bled };
  }

  /** How the n-th try of a step ends. */
  stepEnds(thing: DemoThing, step: StepKind, nth: number): StepOutcome {
    if (step === 'assess' || step === 'colour-test' || step === 'thaw') return 'done';
    const dice = Dice.of(this.seed, 'ends', thing.key, step, nth);
    if (WETS.has(step) && thing.colours.length > 0 && dice.chance(OUTCOME_RATES.dyeMoved)) return 'dye-moved';
    if (LOOKS_CLOSELY.has(step) && dice.chance(OUTCOME_RATES.mouldFound)) return 'mould-found';
    if (dice.chance(OUTCOME_RATES.failed)) return 'failed';
    return step !== 'freeze' && dice.chance(OUTCOME_RATES.ownerMustDecide) ? 'owner-must-decide' : 'done';
  }
}
