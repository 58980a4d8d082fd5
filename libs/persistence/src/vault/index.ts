import { join } from 'node:path';
import type { FileVault } from '#application';
import type { Config } from '#platform';
import { LocalVault } from './local-vault.js';
import { S3Vault } from './s3-vault.js';

export { LocalVault, S3Vault };

/** The store that the configuration names; never another one in its place. */
export function createVault({ files, stateDir }: Pick<Config, 'files' | 'stateDir'>): FileVault {
  return files.s3 === null ? new LocalVault(files.folder ?? join(stateDir, 'files')) : new S3Vault(files.s3);
}
