/** Reading of bytes that nobody vouches for: every look is bounds-checked by the caller through `length`, and nothing here throws on short input. */

/** The characters of a range, one for each byte (Latin-1): for the signatures of containers. */
export function latin(bytes: Uint8Array, from: number, length: number): string {
  return String.fromCharCode(...bytes.subarray(from, from + length));
}

export const viewOf = (bytes: Uint8Array): DataView => new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);

/** A 32-bit number, or NaN where the bytes end before it. */
export function u32be(bytes: Uint8Array, at: number): number {
  return at >= 0 && at + 4 <= bytes.length ? viewOf(bytes).getUint32(at) : NaN;
}

export function u32le(bytes: Uint8Array, at: number): number {
  return at >= 0 && at + 4 <= bytes.length ? viewOf(bytes).getUint32(at, true) : NaN;
}

export function concat(pieces: readonly Uint8Array[]): Uint8Array {
  const whole = new Uint8Array(pieces.reduce((sum, { length }) => sum + length, 0));
  let at = 0;
  for (const piece of pieces) {
    whole.set(piece, at);
    at += piece.length;
  }
  return whole;
}
