import type { z } from 'zod';
import { bytesToHex } from '@noble/hashes/utils.js';
import type { CustodyKeyRecord, EventProof, KeyedRoot } from '#application';
import type { CustodyKeyBody, CustodyProofBody, CustodyRootBody } from '#contracts';
import { rootForm, type SignedRoot } from '#custody';
import { presentCustodyEvent } from '../../presenters/custody-event.presenter.js';
import { iso } from '../../presenters/time.js';

export function presentCustodyRoot({ root, publicKey }: KeyedRoot): z.output<typeof CustodyRootBody> {
  return {
    networkId: root.networkId, rootNo: root.rootNo, periodFrom: iso(root.fromMs), periodTo: iso(root.toMs), eventCount: root.eventCount, merkleRoot: root.merkleRoot, prevRootHash: root.prevRootHash,
    keyId: root.keyId, publicKey, form: root.v, statement: statementOf(root), hash: root.hash, signature: root.signature,
  };
}

export function presentCustodyKey({ keyId, publicKey, firstUsedAtMs }: CustodyKeyRecord): z.output<typeof CustodyKeyBody> {
  return { keyId, publicKey, algorithm: 'Ed25519', firstUsedAt: iso(firstUsedAtMs) };
}

export function presentCustodyProof({ event, inclusion }: EventProof): z.output<typeof CustodyProofBody> {
  if (inclusion === null) return { event: presentCustodyEvent(event), inclusion: null };
  const { rootNo, leafIndex, path, root } = inclusion;
  return { event: presentCustodyEvent(event), inclusion: { rootNo, leafIndex, path: path.map((hash) => bytesToHex(hash)), root: root && presentCustodyRoot(root) } };
}

/** A row that somebody altered may have no form; it is shown as it is, and whoever checks it sees that nothing fits. */
function statementOf(root: SignedRoot): string {
  try {
    return rootForm(root);
  } catch (error) {
    if (error instanceof RangeError) return '';
    throw error;
  }
}
