/** Chance for search kernels: whole numbers from a seed, the same on every machine. */
import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus';

const SPAN = 2 ** 32;
/** The generator starts from a nearly empty state; its first numbers of neighbouring seeds resemble each other. */
const WARM_UP = 16;

/**
 * Seeded chance. Multiplies a 32-bit number into the range instead of drawing again when it falls outside: the
 * bias, below 2^-20 for ranges of a thousand, does not matter to a search, and each draw costs the same.
 */
export class Dice {
  private readonly generator;

  /** @param seed any whole number in [-2^31, 2^31) */
  constructor(seed: number) {
    this.generator = xoroshiro128plus(seed);
    for (let i = 0; i < WARM_UP; i += 1) this.generator.next();
  }

  /** A whole number in [0, bound); `bound` in [1, 2^21]. */
  below(bound: number): number {
    return Math.floor(((this.generator.next() >>> 0) * bound) / SPAN);
  }

  /** A whole number in [low, high], both included. */
  between(low: number, high: number): number {
    return low + this.below(high - low + 1);
  }

  /** A number in [0, 1) in steps of 2^-32. */
  unit(): number {
    return (this.generator.next() >>> 0) / SPAN;
  }

  /** Puts the first `count` entries into a random order, in place. */
  shuffle(list: Int32Array | number[], count = list.length): void {
    for (let i = count - 1; i > 0; i -= 1) {
      const other = this.below(i + 1);
      const kept = list[i]!;
      list[i] = list[other]!;
      list[other] = kept;
    }
  }
}
