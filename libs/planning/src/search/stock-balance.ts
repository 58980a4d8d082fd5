/** Modes against stocks: how much too much is used, and changes of mode that bring it down. */
import type { Dice } from './dice.js';
import type { CompiledProject } from './project.js';

/** Keeps count of what a choice of modes uses up. */
export class StockBalance {
  private readonly used: Int32Array;

  constructor(private readonly project: CompiledProject) {
    this.used = new Int32Array(project.stocks);
  }

  /** Counts what these modes use. */
  load(modes: Int32Array): void {
    const { stocks, stockUse } = this.project;
    this.used.fill(0);
    for (const mode of modes) for (let s = 0; s < stocks; s += 1) this.used[s] = this.used[s]! + stockUse[mode * stocks + s]!;
  }

  /** What is used beyond the stocks, summed; 0 when all is within them. */
  excess(): number {
    const { stock } = this.project;
    let sum = 0;
    for (let s = 0; s < this.used.length; s += 1) sum += Math.max(0, this.used[s]! - stock[s]!);
    return sum;
  }

  /** The excess after changing one mode into another. */
  excessAfter(from: number, to: number): number {
    const { stocks, stock, stockUse } = this.project;
    let sum = 0;
    for (let s = 0; s < stocks; s += 1) sum += Math.max(0, this.used[s]! - stockUse[from * stocks + s]! + stockUse[to * stocks + s]! - stock[s]!);
    return sum;
  }

  /** Counts one mode instead of another. */
  change(from: number, to: number): void {
    const { stocks, stockUse } = this.project;
    for (let s = 0; s < stocks; s += 1) this.used[s] = this.used[s]! - stockUse[from * stocks + s]! + stockUse[to * stocks + s]!;
  }

  /** Changes modes at random places, never to more excess, until none is left or some tries have failed. */
  repair(modes: Int32Array, dice: Dice): void {
    const { firstMode, count } = this.project;
    this.load(modes);
    for (let tries = TRIES_PER_ACTIVITY * count; tries > 0 && this.excess() > 0; tries -= 1) {
      const j = dice.below(count);
      const options = firstMode[j + 1]! - firstMode[j]!;
      const mode = firstMode[j]! + dice.below(options);
      if (this.excessAfter(modes[j]!, mode) > this.excess()) continue;
      this.change(modes[j]!, mode);
      modes[j] = mode;
    }
  }
}

/** Our own calibration: enough for the tightest mixes of stocks in PSPLIB's j20. */
const TRIES_PER_ACTIVITY = 20;
