import type { ApiKeyRecord, ApiKeyStore } from '#application';
import type { Scope } from '#contracts';
import type { ApiKey } from '../generated/prisma/client.js';
import { at, msOrNull } from '../stores/row.js';
import type { Transaction } from './client.js';

/** The scope whose holders may not all be locked out. */
const MANAGE: Scope = 'keys:manage';

/** What is shown of a key; the hash is never loaded. */
const SHOWN = { id: true, prefix: true, label: true, scopes: true, limitedToIncidentId: true, expiresAt: true, revokedAt: true, replacesId: true, createdAt: true } as const;
type Shown = Pick<ApiKey, keyof typeof SHOWN>;

export class PrismaApiKeyStore implements ApiKeyStore {
  /** Keys in sight: all of the network, or those with the caller's own limit. */
  private readonly visible: { networkId: string; limitedToIncidentId?: string };

  constructor(
    private readonly transaction: Transaction,
    private readonly networkId: string,
    incidentLimit: string | null,
  ) {
    this.visible = incidentLimit === null ? { networkId } : { networkId, limitedToIncidentId: incidentLimit };
  }

  async insert(key: ApiKeyRecord, secretSha256: Uint8Array): Promise<void> {
    await this.transaction.apiKey.createMany({
      data: [
        {
          networkId: this.networkId, id: key.id, prefix: key.prefix, secretSha256: Uint8Array.from(secretSha256), label: key.label, scopes: key.scopes,
          limitedToIncidentId: key.limitedToIncidentId, expiresAt: at(key.expiresAtMs), revokedAt: at(key.revokedAtMs), replacesId: key.replacesId, createdAt: at(key.createdAtMs),
        },
      ],
    });
  }

  async page(limit: number, beforeId: string | null): Promise<ApiKeyRecord[]> {
    const rows = await this.transaction.apiKey.findMany({ where: { ...this.visible, ...(beforeId === null ? {} : { id: { lt: beforeId } }) }, select: SHOWN, orderBy: { id: 'desc' }, take: limit });
    return rows.map(toRecord);
  }

  async lock(keyId: string): Promise<ApiKeyRecord | null> {
    await this.transaction.$queryRaw`select 1 as locked from api_key where network_id = ${this.networkId}::uuid and id = ${keyId}::uuid for update`;
    const row = await this.transaction.apiKey.findFirst({ where: { ...this.visible, id: keyId }, select: SHOWN });
    return row ? toRecord(row) : null;
  }

  async lockManagers(): Promise<ApiKeyRecord[]> {
    await this.transaction.$queryRaw`select 1 as locked from api_key where network_id = ${this.networkId}::uuid and ${MANAGE} = any(scopes) and revoked_at is null order by id for update`;
    const rows = await this.transaction.apiKey.findMany({ where: { ...this.visible, scopes: { has: MANAGE }, revokedAt: null }, select: SHOWN, orderBy: { id: 'asc' } });
    return rows.map(toRecord);
  }

  async saveEnd(keyId: string, changed: { expiresAtMs?: number; revokedAtMs?: number }): Promise<void> {
    await this.transaction.apiKey.updateMany({
      where: { ...this.visible, id: keyId },
      data: { ...(changed.expiresAtMs === undefined ? {} : { expiresAt: at(changed.expiresAtMs) }), ...(changed.revokedAtMs === undefined ? {} : { revokedAt: at(changed.revokedAtMs) }) },
    });
  }

  async incidentExists(incidentId: string): Promise<boolean> {
    return (await this.transaction.incident.findFirst({ where: { networkId: this.networkId, id: incidentId }, select: { id: true } })) !== null;
  }
}

function toRecord(row: Shown): ApiKeyRecord {
  return {
    id: row.id, prefix: row.prefix, label: row.label, scopes: row.scopes as Scope[], limitedToIncidentId: row.limitedToIncidentId,
    expiresAtMs: row.expiresAt.getTime(), revokedAtMs: msOrNull(row.revokedAt), replacesId: row.replacesId, createdAtMs: row.createdAt.getTime(),
  };
}
