/** JSON with sorted members, so that the same command gives the same fingerprint whatever its spelling. Bytes go in as base64. */
export function canonicalJson(value: unknown): string {
  return JSON.stringify(value, (_, member: unknown) => {
    if (member instanceof Uint8Array) return Buffer.from(member).toString('base64');
    if (member === null || typeof member !== 'object' || Array.isArray(member)) return member;
    return Object.fromEntries(Object.entries(member).sort(([a], [b]) => (a < b ? -1 : 1)));
  }) ?? 'null';
}
