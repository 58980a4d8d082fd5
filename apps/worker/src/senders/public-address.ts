/**
 * Which addresses a configured gateway may have: public ones only, so that a name that resolves into our own network opens nothing there (OWASP API
 * Security Top 10 2023, API7; OWASP ASVS 5.0.0, 1.3.6). Ranges after the IANA special-purpose address registries (RFC 6890 and its updates) [K].
 */
import { lookup } from 'node:dns/promises';
import { BlockList, isIP } from 'node:net';

const V4: readonly [string, number][] = [
  ['0.0.0.0', 8], ['10.0.0.0', 8], ['100.64.0.0', 10], ['127.0.0.0', 8], ['169.254.0.0', 16], ['172.16.0.0', 12], ['192.0.0.0', 24], ['192.0.2.0', 24], ['192.88.99.0', 24], ['192.168.0.0', 16],
  ['198.18.0.0', 15], ['198.51.100.0', 24], ['203.0.113.0', 24], ['224.0.0.0', 4], ['240.0.0.0', 4],
];

const SPECIAL = new BlockList();
for (const [address, bits] of V4) SPECIAL.addSubnet(address, bits, 'ipv4');
// Of IPv6 only 2000::/3 is given out as global unicast; in it lie documentation, benchmarks, Teredo and 6to4, which carry IPv4 inside.
const GLOBAL = new BlockList();
GLOBAL.addSubnet('2000::', 3, 'ipv6');
const WITHIN = new BlockList();
for (const [address, bits] of [['2001::', 23], ['2001:db8::', 32], ['2002::', 16], ['3fff::', 20]] as const) WITHIN.addSubnet(address, bits, 'ipv6');

/** True for an address that belongs to nobody in particular on our side. Mapped, translated and tunnelled IPv4 is refused whole. */
export function isPublicAddress(address: string): boolean {
  const family = isIP(address);
  if (family === 4) return !SPECIAL.check(address, 'ipv4');
  return family === 6 && GLOBAL.check(address, 'ipv6') && !WITHIN.check(address, 'ipv6');
}

export type Resolve = (host: string) => Promise<readonly string[]>;

const ofSystem: Resolve = async (host) => (await lookup(host, { all: true, verbatim: true })).map(({ address }) => address);

/**
 * The one address to connect to: resolved once, and every answer must be public, so that a name cannot show one address to the check and another to
 * the connection. `null` when it must not be connected to. @throws when the name does not resolve
 */
export async function addressToUse(host: string, anyAddress: boolean, resolve: Resolve = ofSystem): Promise<string | null> {
  const plain = host.replace(/^\[(.*)\]$/, '$1');
  const addresses = isIP(plain) === 0 ? await resolve(plain) : [plain];
  const [first] = addresses;
  if (first === undefined) return null;
  return anyAddress || addresses.every(isPublicAddress) ? first : null;
}
