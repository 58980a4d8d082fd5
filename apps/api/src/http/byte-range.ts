/** One part of a thing that is sent: bytes from the first to the last, both included. */
export interface ByteRange {
  from: number;
  to: number;
}

/**
 * What a `Range` header asks of so many bytes (RFC 9110, sections 14.1.1, 14.1.2 and 14.2). `whole` where it asks for nothing that we serve in parts: another unit,
 * several parts at once, or something that is no range; a server may always send the whole. `outside` where there is no such byte.
 */
export function byteRange(header: string | undefined, lengthBytes: number): ByteRange | 'whole' | 'outside' {
  const match = /^bytes=[ \t]*(\d{0,15})-(\d{0,15})[ \t]*$/i.exec(header ?? '');
  const [, first = '', last = ''] = match ?? [];
  if (!match || (first === '' && last === '')) return 'whole';
  if (first === '') return Number(last) === 0 || lengthBytes === 0 ? 'outside' : { from: Math.max(lengthBytes - Number(last), 0), to: lengthBytes - 1 };
  if (last !== '' && Number(last) < Number(first)) return 'whole';
  if (Number(first) >= lengthBytes) return 'outside';
  return { from: Number(first), to: last === '' ? lengthBytes - 1 : Math.min(Number(last), lengthBytes - 1) };
}
