/** Custody roots as the worker makes them, without the worker. */
import { generateKeyPairSync, sign } from 'node:crypto';
import { runCustodyRoots, type RootsOutcome, type RootSettings, type RootSigner } from '#application';
import { newId } from '#platform';
import type { TestNetwork, TestServer } from '#testing';
import { workerContextOf } from '../../unit/plan-problem/support/runs.js';

export const HOUR_MS = 3_600_000;

/** A fresh key; the test keeps its private part. */
export function testSigner(): RootSigner {
  const { publicKey, privateKey } = generateKeyPairSync('ed25519');
  return { publicKey: Buffer.from(publicKey.export({ format: 'jwk' }).x ?? '', 'base64url').toString('hex'), sign: (text) => sign(null, Buffer.from(text, 'utf8'), privateKey).toString('hex') };
}

export const SIGNER = testSigner();

/** The look of a network that lies in the outbox; its ids. */
export async function looksOf(server: TestServer, network: TestNetwork): Promise<{ id: string; incidentId: string; inMs: number | null }[]> {
  const { rows } = await server.admin.query<{ id: string; incidentId: string; inMs: number | null }>(
    `select id, incident_id as "incidentId", (extract(epoch from not_before - clock_timestamp()) * 1000)::float8 as "inMs" from outbox
     where network_id = $1 and kind = 'custody.root' and done_at is null and dead_at is null order by id`, [network.networkId]);
  return rows;
}

/** Does the look that lies in the outbox, as if it were so many milliseconds later than the clock of the server. */
export async function makeRoots(server: TestServer, network: TestNetwork, laterMs = 2 * HOUR_MS, settings: Partial<RootSettings> = {}): Promise<RootsOutcome> {
  const [look] = await looksOf(server, network);
  if (!look) throw new Error('no look for roots lies in the outbox');
  const message = { id: look.id, incidentId: look.incidentId, kind: 'custody.root' as const, subjectId: network.networkId, traceparent: '' };
  return runCustodyRoots(server.unitOfWork, message, workerContextOf(network), { nowMs: server.clock.nowMs() + laterMs, newId: () => newId() }, { signer: SIGNER, periodMs: HOUR_MS, ...settings });
}
