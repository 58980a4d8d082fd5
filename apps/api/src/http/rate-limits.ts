import { Inject, Injectable } from '@nestjs/common';
import type { FastifyReply } from 'fastify';
import { Redis } from 'ioredis';
import { RateLimiterMemory, RateLimiterRedis, RateLimiterRes, type RateLimiterAbstract } from 'rate-limiter-flexible';
import type { CallContext } from '#application';
import { Problem } from '#contracts';
import { SETTINGS, type ApiSettings } from './tokens.js';

const WINDOW_S = 60;
/** Look-ups of households by name or number of one key within a minute: a desk asks for one family after the other, not for a list of names. Our own calibration. */
const LOOK_UPS = 30;

/**
 * Quotas per network and per key (RateLimit fields, IETF draft-ietf-httpapi-ratelimit-headers-10). With Redis the count
 * is shared by all API processes; without it each process counts its own.
 */
@Injectable()
export class RateLimits {
  private readonly network: RateLimiterAbstract;
  private readonly principal: RateLimiterAbstract;
  private readonly lookUps: RateLimiterAbstract;
  private readonly redis: Redis | null;
  private readonly quota: number;

  constructor(@Inject(SETTINGS) settings: ApiSettings) {
    this.quota = settings.ratePerMinute;
    this.redis = settings.redisUrl === null ? null : new Redis(settings.redisUrl, { enableOfflineQueue: false, maxRetriesPerRequest: 1 });
    this.redis?.on('error', () => undefined);
    this.network = this.limiter('network', this.quota * 4);
    this.principal = this.limiter('principal', this.quota);
    this.lookUps = this.limiter('look-ups', settings.lookUpsPerMinute ?? LOOK_UPS);
  }

  /** Counts the call and sets the fields; 429 when a quota is used up. */
  async take(context: CallContext, reply: FastifyReply): Promise<void> {
    reply.header('ratelimit-policy', `"network";q=${this.quota * 4};w=${WINDOW_S}, "principal";q=${this.quota};w=${WINDOW_S}`);
    const network = await consume(this.network, context.networkId);
    const principal = await consume(this.principal, context.principalId);
    reply.header('ratelimit', `"network";r=${network.remainingPoints};t=${seconds(network)}, "principal";r=${principal.remainingPoints};t=${seconds(principal)}`);
    const full = [network, principal].filter((result) => result.exceeded);
    if (full.length > 0) {
      const retryAfterS = Math.max(...full.map(seconds), 1);
      throw new Problem('rate_limited', `Too many requests in this minute. Try again in ${retryAfterS} s; send many items as a bulk file.`, {
        retryAfterS,
        members: { 'violated-policies': [...(network.exceeded ? ['network'] : []), ...(principal.exceeded ? ['principal'] : [])] },
      });
    }
  }

  /** Counts a look-up of a household by what names people. @throws Problem rate_limited */
  async takeLookUp({ principalId }: CallContext): Promise<void> {
    const taken = await consume(this.lookUps, principalId);
    if (!taken.exceeded) return;
    const retryAfterS = Math.max(seconds(taken), 1);
    throw new Problem('rate_limited', `Too many look-ups of households with this key in this minute. Try again in ${retryAfterS} s.`, { retryAfterS, members: { 'violated-policies': ['look-ups'] } });
  }

  async close(): Promise<void> {
    this.redis?.disconnect();
  }

  private limiter(name: string, points: number): RateLimiterAbstract {
    const memory = new RateLimiterMemory({ keyPrefix: name, points, duration: WINDOW_S });
    // When Redis is away each process counts for itself: bounded, never open.
    return this.redis ? new RateLimiterRedis({ storeClient: this.redis, keyPrefix: `wl-rate-${name}`, points, duration: WINDOW_S, insuranceLimiter: memory }) : memory;
  }
}

interface Taken {
  remainingPoints: number;
  msBeforeNext: number;
  exceeded: boolean;
}

async function consume(limiter: RateLimiterAbstract, key: string): Promise<Taken> {
  try {
    const result = await limiter.consume(key);
    return { remainingPoints: result.remainingPoints, msBeforeNext: result.msBeforeNext, exceeded: false };
  } catch (refusal) {
    if (refusal instanceof RateLimiterRes) return { remainingPoints: 0, msBeforeNext: refusal.msBeforeNext, exceeded: true };
    throw refusal;
  }
}

function seconds(taken: { msBeforeNext: number }): number {
  return Math.ceil(taken.msBeforeNext / 1_000);
}
