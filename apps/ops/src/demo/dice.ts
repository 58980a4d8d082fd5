import { uniformInt } from 'pure-rand/distribution/uniformInt';
import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus';

type Generator = ReturnType<typeof xoroshiro128plus>;

/**
 * Seeded chance. Every question has a stream of its own, named by its subject (`Dice.of(seed, 'outcome', tag, step)`), so
 * that an answer does not depend on what was asked before, or on the order in which parallel requests come back.
 */
export class Dice {
  private constructor(private readonly generator: Generator) {}

  static of(seed: number, ...subject: (string | number)[]): Dice {
    return new Dice(xoroshiro128plus(hash(`${seed}/${subject.join('/')}`)));
  }

  /** A whole number from `from` to `to`, both included. */
  int(from: number, to: number): number {
    return uniformInt(this.generator, from, to);
  }

  /** True with probability `share` (0 to 1), in steps of a millionth. */
  chance(share: number): boolean {
    return this.int(1, 1_000_000) <= share * 1_000_000;
  }

  pick<T>(list: readonly T[]): T {
    const chosen = list[this.int(0, list.length - 1)];
    if (chosen === undefined) throw new Error('nothing to pick from');
    return chosen;
  }

  /** One of the keys, as often as its share says. */
  weighted<K extends string>(shares: Readonly<Record<K, number>>): K {
    const entries = Object.entries(shares) as [K, number][];
    let left = this.int(1, entries.reduce((sum, [, share]) => sum + share, 0));
    for (const [key, share] of entries) {
      left -= share;
      if (left <= 0) return key;
    }
    throw new Error('no share to choose');
  }

  /** `count` different whole numbers from 0 to `below` - 1. */
  sample(count: number, below: number): Set<number> {
    const order = this.shuffled(Array.from({ length: below }, (_, index) => index));
    return new Set(order.slice(0, count));
  }

  shuffled<T>(list: readonly T[]): T[] {
    const order = [...list];
    for (let last = order.length - 1; last > 0; last -= 1) {
      const other = this.int(0, last);
      [order[last], order[other]] = [order[other]!, order[last]!];
    }
    return order;
  }
}

/** FNV-1a, 32 bits (Fowler, Noll, Vo; from memory): only to turn a name into a seed, nothing is kept secret by it. */
function hash(text: string): number {
  let value = 0x811c9dc5;
  for (let at = 0; at < text.length; at += 1) value = Math.imul(value ^ text.charCodeAt(at), 0x01000193);
  return value | 0;
}
