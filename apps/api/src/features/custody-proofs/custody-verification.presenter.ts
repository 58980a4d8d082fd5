import type { z } from 'zod';
import { bytesToHex } from '@noble/hashes/utils.js';
import type { EventProof } from '#application';
import type { CustodyVerificationBody } from '#contracts';
import { isUnderRoot, verifyChain, verifyRoot, type ItemCustody, type SignatureCheck } from '#custody';
import { verifyEd25519 } from '#platform';

type Body = z.output<typeof CustodyVerificationBody>;

/** Checks the record of one item: its chain, its present state, and every event against the signed root that it is under. */
export function presentCustodyVerification({ head, proofs }: { head: ItemCustody; proofs: readonly EventProof[] }): Body {
  const chain = verifyChain(proofs.map(({ event }) => event), head).map(({ seq, fault }): Body['faults'][number] => ({ seq, rootNo: null, fault }));
  const faults = [...chain, ...proofs.flatMap(inclusionFaults), ...rootFaults(head.networkId, proofs)];
  const waiting = proofs.filter(({ inclusion }) => inclusion === null).length;
  return { itemId: head.itemId, sound: faults.length === 0, events: proofs.length, underRoots: proofs.length - waiting, waiting, faults };
}

function inclusionFaults({ event, inclusion }: EventProof): Body['faults'] {
  if (inclusion === null) return [];
  const { rootNo, leafIndex, path } = inclusion;
  const root = inclusion.root?.root;
  if (root === undefined) return [{ seq: event.seq, rootNo, fault: 'root_missing' }];
  if (!isUnderRoot(root, event, leafIndex, path.map((hash) => bytesToHex(hash)))) return [{ seq: event.seq, rootNo, fault: 'not_under_root' }];
  return event.recordedAtMs < root.fromMs || event.recordedAtMs >= root.toMs ? [{ seq: event.seq, rootNo, fault: 'outside_period' }] : [];
}

/** Each root by itself; whether the whole line of roots is there is looked at by the operator's check. */
function rootFaults(networkId: string, proofs: readonly EventProof[]): Body['faults'] {
  const roots = new Map(proofs.flatMap(({ inclusion }) => (inclusion?.root ? [[inclusion.rootNo, inclusion.root] as const] : [])));
  return [...roots.values()].flatMap(({ root, publicKey }) => {
    const check: SignatureCheck = { publicKeyOf: () => publicKey, verifySignature: verifyEd25519 };
    const before = { rootNo: root.rootNo - 1, hash: root.prevRootHash };
    return verifyRoot(networkId, root, before, check).map(({ fault, rootNo }) => ({ seq: null, rootNo, fault: fault as Body['faults'][number]['fault'] }));
  });
}
