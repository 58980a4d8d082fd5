import { readFile } from 'node:fs/promises';
import { z } from 'zod';
import { CustodyRootBody } from '#contracts';
import { compareExported, keyIdOf, rootForm, type SignatureCheck, type SignedRoot } from '#custody';
import type { UnitOfWork } from '#application';
import { workerContext } from '#messaging';
import { ConfigError, verifyEd25519 } from '#platform';
import type { Fault } from './verify-network.js';

/** Roots as the API gives them: one, a list, or a page. */
const File = z.union([CustodyRootBody.transform((root) => [root]), z.array(CustodyRootBody), z.object({ items: z.array(CustodyRootBody) }).transform(({ items }) => items)]);
type ExportedRoot = z.output<typeof CustodyRootBody>;

/** @throws ConfigError when the file cannot be read or holds no roots. */
export async function readExportedRoots(file: string): Promise<ExportedRoot[]> {
  const text = await readFile(file, 'utf8').catch((error: NodeJS.ErrnoException) => {
    throw new ConfigError(`${file} cannot be read (${error.code ?? 'unknown'}).`);
  });
  const parsed = File.safeParse(jsonOf(text));
  if (!parsed.success || parsed.data.length === 0) throw new ConfigError(`${file} holds no custody root. Give the answer of GET /v1/custody-roots or /v1/custody-roots/{rootNo} as it came.`);
  return parsed.data;
}

function jsonOf(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return null;
  }
}

/** Holds roots that somebody has kept against those of the database. */
export async function verifyExported(unitOfWork: UnitOfWork, exported: readonly ExportedRoot[], onFault: (fault: Fault) => void): Promise<void> {
  for (const body of exported) {
    const context = workerContext(body.networkId, 'verify', '');
    const { stored, keys } = await unitOfWork.read(context, async (stores) => ({ stored: await stores.custodyRoots.find(body.rootNo), keys: await stores.custodyRoots.keys() }));
    const root = signedRootOf(body);
    const known = keys.some(({ keyId, publicKey }) => keyId === root.keyId && keyIdOf(publicKey) === keyId);
    // Its own key will do to tell that it says otherwise; that the database does not know the key is said beside it.
    const check: SignatureCheck = { publicKeyOf: () => body.publicKey ?? keys.find(({ keyId }) => keyId === root.keyId)?.publicKey ?? null, verifySignature: verifyEd25519 };
    const faults = compareExported(root, stored, check);
    if (faults.length === 0 && rootForm(root) !== body.statement) onFault({ networkId: body.networkId, rootNo: body.rootNo, what: 'statement' });
    for (const { fault } of faults) onFault({ networkId: body.networkId, rootNo: body.rootNo, what: fault });
    if (!known && !faults.some(({ fault }) => fault === 'key_unknown')) onFault({ networkId: body.networkId, rootNo: body.rootNo, what: 'key_unknown' });
  }
}

function signedRootOf(body: ExportedRoot): SignedRoot {
  const { networkId, rootNo, eventCount, merkleRoot, prevRootHash, keyId, hash, signature } = body;
  return { v: body.form as 1, networkId, rootNo, fromMs: Date.parse(body.periodFrom), toMs: Date.parse(body.periodTo), eventCount, merkleRoot, prevRootHash, keyId, hash, signature };
}
