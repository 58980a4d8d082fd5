import { randomBytes, randomInt, scrypt, timingSafeEqual } from 'node:crypto';
import { promisify } from 'node:util';

const hashOf = promisify<string, Uint8Array, number, { N: number; r: number; p: number }, Buffer>(scrypt);

/** No vowels and no characters that are mistaken for others, as on tags; 8 of them are some 10^11 codes. */
const ALPHABET = 'BCDFGHKMNPQRTVWX23456789';
const LENGTH = 8;
/** 16 MiB and some 50 ms for each try (parameters of RFC 7914, section 2; their size is our own calibration): a code is good for one appointment and gone with it. */
const COST = { N: 2 ** 14, r: 8, p: 1 } as const;

/** What is kept of a code. */
export interface KeptCode {
  salt: Buffer;
  hash: Buffer;
}

/** A one-time code `BCDF-GHKM` that a family brings to fetch its things. What is kept of it takes time, and is made when it is asked for. */
export function makeHandBackCode(): { code: string; kept: () => Promise<KeptCode> } {
  const letters = Array.from({ length: LENGTH }, () => ALPHABET.charAt(randomInt(ALPHABET.length))).join('');
  const kept = async (): Promise<KeptCode> => {
    const salt = randomBytes(16);
    return { salt, hash: await hash(letters, salt) };
  };
  return { code: `${letters.slice(0, 4)}-${letters.slice(4)}`, kept };
}

/** Whether a code as somebody read it out or typed it is the one of which this is kept; case, spaces and hyphens do not count. */
export async function handBackCodeFits(typed: string, kept: { salt: Uint8Array; hash: Uint8Array }): Promise<boolean> {
  const letters = typed.toUpperCase().replaceAll(/[^A-Z0-9]/g, '');
  return timingSafeEqual(await hash(letters, kept.salt), kept.hash);
}

function hash(letters: string, salt: Uint8Array): Promise<Buffer> {
  return hashOf(letters, salt, 32, COST);
}
