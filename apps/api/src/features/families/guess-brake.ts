import { isIPv6 } from 'node:net';
import { setTimeout as sleep } from 'node:timers/promises';
import { RateLimiterMemory, RateLimiterRes } from 'rate-limiter-flexible';

/** All numbers are our own calibration. What cannot be guessed need not be guarded by them: they keep guessing from costing others their answers. */
export interface BrakeSettings {
  /** Links that open nothing, from one address within a minute, until answers slow down. */
  freeMisses: number;
  /** How long a miss beyond them waits. */
  waitMs: number;
  /** Misses of one address, and of all, that may wait at the same time; beyond them the answer is 429. */
  placesOfAddress: number;
  places: number;
  /** Look-ups at the same time, so that they leave the database to others, and how many wait for their turn. */
  lookUps: number;
  line: number;
}

export const BRAKE: BrakeSettings = { freeMisses: 30, waitMs: 1_000, placesOfAddress: 8, places: 128, lookUps: 2, line: 500 };

/** Slows down who opens link after link that opens nothing. A link that opens is never slowed down, so that nobody shuts a family out by guessing. */
export class GuessBrake {
  private readonly misses: RateLimiterMemory;
  private readonly waiting = new Map<string, number>();
  private waitingInAll = 0;
  private atWork = 0;
  private readonly line: (() => void)[] = [];

  constructor(private readonly settings: BrakeSettings = BRAKE) {
    this.misses = new RateLimiterMemory({ points: settings.freeMisses, duration: 60 });
  }

  /** Does a look-up in its turn; null when too many wait for theirs. */
  async inTurn<T>(lookUp: () => Promise<T>): Promise<T | null> {
    if (this.atWork >= this.settings.lookUps) {
      if (this.line.length >= this.settings.line) return null;
      await new Promise<void>((go) => this.line.push(go));
    } else this.atWork += 1;
    try {
      return await lookUp();
    } finally {
      const next = this.line.shift();
      if (next) next();
      else this.atWork -= 1;
    }
  }

  /** A link opened nothing. `answer` after what it has to wait; `too-many` when too many of this address wait already. */
  async missed(address: string): Promise<'answer' | 'too-many'> {
    const key = keyOf(address);
    const over = await this.misses.consume(key).then(() => false, (refusal: unknown) => refusal instanceof RateLimiterRes);
    if (!over) return 'answer';
    const here = this.waiting.get(key) ?? 0;
    if (here >= this.settings.placesOfAddress || this.waitingInAll >= this.settings.places) return 'too-many';
    this.waiting.set(key, here + 1);
    this.waitingInAll += 1;
    await sleep(this.settings.waitMs);
    this.waitingInAll -= 1;
    const left = (this.waiting.get(key) ?? 1) - 1;
    if (left > 0) this.waiting.set(key, left);
    else this.waiting.delete(key);
    return 'answer';
  }
}

/** One household or one machine of IPv6 has a whole /64. */
function keyOf(address: string): string {
  if (!isIPv6(address) || address.startsWith('::ffff:')) return address;
  const [head = ''] = new URL(`http://[${address}]`).hostname.slice(1, -1).split('::');
  return [...head.split(':'), '0', '0', '0', '0'].slice(0, 4).join(':');
}
