import { createHash, randomBytes } from 'node:crypto';

const SECRET_BYTES = 32;
const INVITATION = /^wa_([0-9a-f]{32})_([0-9a-f]{32})_[A-Za-z0-9_-]{43}$/;

/** What an invitation to mutual aid names, and the hash by which it is known; the text itself is kept by nobody. */
export interface ReadInvitation {
  networkId: string;
  agreementId: string;
  /** Lower-case hexadecimal. */
  sha256: string;
}

/**
 * Makes an invitation `wa_<network>_<agreement>_<43 base64url characters>` with 256 random bits; one round of SHA-256 is enough to know
 * it again, as for API keys (`api-key.ts`).
 */
export function makeInvitation(networkId: string, agreementId: string): { text: string; sha256: string } {
  const text = `wa_${plain(networkId)}_${plain(agreementId)}_${randomBytes(SECRET_BYTES).toString('base64url')}`;
  return { text, sha256: sha256(text) };
}

/** Reads an invitation as somebody sent it; null for anything that was never one. */
export function readInvitation(text: string): ReadInvitation | null {
  const [, network, agreement] = INVITATION.exec(text.trim()) ?? [];
  if (network === undefined || agreement === undefined) return null;
  return { networkId: dashed(network), agreementId: dashed(agreement), sha256: sha256(text.trim()) };
}

function plain(id: string): string {
  return id.replaceAll('-', '');
}

function dashed(hex: string): string {
  return [hex.slice(0, 8), hex.slice(8, 12), hex.slice(12, 16), hex.slice(16, 20), hex.slice(20)].join('-');
}

function sha256(text: string): string {
  return createHash('sha256').update(text, 'utf8').digest('hex');
}
