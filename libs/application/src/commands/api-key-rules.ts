import { KEY_LIFE_DAYS_MAX, Problem, type Scope } from '#contracts';
import type { ApiKeyRecord } from '../ports/api-key-store.js';

/**
 * What only the edge knows about a command on keys: the caller's own scopes, real time (a key's life never follows the
 * clock of a demo), and the new key. The secret itself stays at the edge: it would be stored with the answer.
 */
export interface KeyCall {
  scopes: ReadonlySet<Scope>;
  realNowMs: number;
  made: { prefix: string; secretSha256: Uint8Array };
}

const DAY_MS = 86_400_000;
export const KEY_LIFE_MS_MAX = KEY_LIFE_DAYS_MAX * DAY_MS;

/** Nobody gives away, or takes over, more than they have. */
export function refuseForeignScopes(wanted: readonly Scope[], own: ReadonlySet<Scope>, pointer: string | null): void {
  const foreign = wanted.flatMap((scope, index) => (own.has(scope) ? [] : [{ scope, index }]));
  if (foreign.length === 0) return;
  const errors = foreign.map(({ scope, index }) => ({ detail: `your key lacks ${scope}`, code: 'scope_missing', ...(pointer === null ? {} : { pointer: `${pointer}/${index}` }) }));
  throw new Problem('scope_missing', `Your key lacks ${foreign.map(({ scope }) => scope).join(', ')}, so it cannot hand that on. Ask a manager whose key has it.`, { errors });
}

/** Reads an expiry: later than now, and at most the longest life ahead. */
export function expiryMs(expiresAt: string, realNowMs: number): number {
  const ms = Date.parse(expiresAt);
  if (ms > realNowMs && ms <= realNowMs + KEY_LIFE_MS_MAX) return ms;
  throw new Problem('validation_failed', `A key ends between now and ${KEY_LIFE_DAYS_MAX} days from now. Nothing was changed.`, {
    errors: [{ detail: ms > realNowMs ? `lies more than ${KEY_LIFE_DAYS_MAX} days ahead` : 'lies in the past', code: 'custom', pointer: '#/expiresAt' }],
  });
}

/** Works at this moment. */
export function isActiveKey(key: ApiKeyRecord, realNowMs: number): boolean {
  return key.revokedAtMs === null && key.expiresAtMs > realNowMs;
}
