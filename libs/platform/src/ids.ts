import { randomBytes } from 'node:crypto';

let lastMs = 0;
let counter = 0;

/**
 * A UUIDv7 (RFC 9562, section 5.7) with a 12-bit counter in rand_a, so that ids made in one process sort in the
 * order they were made (section 6.2, method 1).
 */
export function newId(nowMs: number = Date.now()): string {
  if (nowMs > lastMs) {
    lastMs = nowMs;
    counter = randomBytes(1)[0] ?? 0;
  } else {
    counter += 1;
    if (counter > 0xfff) {
      lastMs += 1;
      counter = 0;
    }
  }
  const bytes = randomBytes(16);
  bytes.writeUIntBE(lastMs, 0, 6);
  bytes[6] = 0x70 | (counter >> 8);
  bytes[7] = counter & 0xff;
  bytes[8] = 0x80 | ((bytes[8] ?? 0) & 0x3f);
  const hex = bytes.toString('hex');
  return `${hex.slice(0, 8)}-${hex.slice(8, 12)}-${hex.slice(12, 16)}-${hex.slice(16, 20)}-${hex.slice(20)}`;
}
