import { expect } from '@jest/globals';
import { networkDigest } from '#testing';
import type { Workbench } from './workbench.js';

interface Place {
  kind: string;
  id: string;
}

/** The moves of somebody who looks for things. */
export function mattersOf(bench: Workbench) {
  const { network, incident } = bench;
  const lead = incident.person('P1');
  const on = (itemId: string, what: string, body: object) => network.post(`/v1/items/${itemId}/${what}`, body);
  return {
    lead,
    quilt: async (change: object = {}) => bench.takeIn(await bench.household(), change),
    dispute: (itemId: string, place: Place, change: object = {}) => on(itemId, 'location-disputes', { place, personId: incident.person('P2'), ...change }),
    settle: (itemId: string, at: Place, change: object = {}) => on(itemId, 'location-settlements', { at, personId: lead, ...change }),
    missing: (itemId: string, change: object = {}) => on(itemId, 'missing-reports', { personId: lead, ...change }),
    find: (itemId: string, at: Place, change: object = {}) => on(itemId, 'findings', { at, personId: lead, ...change }),
    merge: (itemId: string, into: string, change: object = {}) => on(itemId, 'merges', { into, reason: 'tagged-twice', personId: lead, ...change }),
    swap: (itemId: string, other: string, change: object = {}) => on(itemId, 'identity-swaps', { with: other, reason: 'confused-at-tagging', personId: lead, ...change }),
    open: async (query = '') => (await network.get(`/v1/incidents/${incident.id}/open-matters${query}`).expect(200)).body,
    chain: async (itemId: string) => (await network.get(`/v1/items/${itemId}/custody-events`).expect(200)).body.items as { kind: string; seq: number; hash: string; to: Place; stage: string; refs: Record<string, string> }[],
    lookUp: async (tag: string) => (await network.get(`/v1/tags/${tag}`).expect(200)).body,
    verified: async () => {
      const { body } = await network.get(`/v1/incidents/${incident.id}/reconciliation`).expect(200);
      expect(body).toMatchObject({ difference: 0, chainFaults: [], keepersOtherThanOne: [] });
    },
  };
}

const NOT_LOOKED_AT = ['idempotency_record', 'audit_entry'];

/** Sends what is refused, and makes sure that nothing was written. */
export async function refusedChangingNothing(bench: Workbench, send: () => Promise<{ status: number; body: Record<string, unknown> }>): Promise<{ status: number; body: Record<string, unknown> }> {
  const digest = () => networkDigest(bench.server.admin, bench.network.networkId, NOT_LOOKED_AT);
  const before = await digest();
  const answer = await send();
  expect(answer.status).toBeGreaterThanOrEqual(400);
  expect(await digest()).toEqual(before);
  return answer;
}
