import type { KeptCode, StatusLinkRecord, StatusLinkStore } from '#application';
import type { Client } from '../pool.js';
import { at, msOrNull } from './row.js';

interface LinkRow {
  id: string;
  incident_id: string;
  household_id: string;
  for_whom: Buffer | null;
  code_salt: Buffer | null;
  code_hash: Buffer | null;
  code_misses: number;
  created_by: string;
  created_at: Date;
  expires_at: Date;
  revoked_at: Date | null;
}

const COLUMNS = 'l.id, l.incident_id, l.household_id, l.for_whom, l.code_salt, l.code_hash, l.code_misses, l.created_by, l.created_at, l.expires_at, l.revoked_at';

function toRecord(row: LinkRow): StatusLinkRecord {
  return {
    id: row.id, incidentId: row.incident_id, householdId: row.household_id, forWhom: row.for_whom, hasCode: row.code_hash !== null, codeMisses: row.code_misses,
    createdBy: row.created_by, createdAtMs: row.created_at.getTime(), expiresAtMs: row.expires_at.getTime(), revokedAtMs: msOrNull(row.revoked_at),
  };
}

export class PgStatusLinkStore implements StatusLinkStore {
  constructor(
    private readonly client: Client,
    private readonly networkId: string,
  ) {}

  async insert(link: StatusLinkRecord, secretSha256: Uint8Array, code: KeptCode | null): Promise<void> {
    await this.client.query(
      `insert into status_link (network_id, incident_id, id, household_id, secret_sha256, for_whom, code_salt, code_hash, created_at, created_by, expires_at)
       values ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11)`,
      [this.networkId, link.incidentId, link.id, link.householdId, secretSha256, link.forWhom, code?.salt ?? null, code?.hash ?? null, at(link.createdAtMs), link.createdBy, at(link.expiresAtMs)],
    );
  }

  async findBySecret(secretSha256: Uint8Array): Promise<StatusLinkRecord | null> {
    const { rows } = await this.client.query<LinkRow>({
      name: 'status_link_by_secret',
      text: `select ${COLUMNS} from status_link l join network n on n.network_id = l.network_id where l.network_id = $1 and l.secret_sha256 = $2 and n.suspended_at is null`,
      values: [this.networkId, secretSha256],
    });
    return rows[0] ? toRecord(rows[0]) : null;
  }

  async lock(linkId: string): Promise<(StatusLinkRecord & { code: KeptCode | null }) | null> {
    const { rows } = await this.client.query<LinkRow>(`select ${COLUMNS} from status_link l where l.network_id = $1 and l.id = $2 for no key update`, [this.networkId, linkId]);
    const [row] = rows;
    if (!row) return null;
    return { ...toRecord(row), code: row.code_salt === null || row.code_hash === null ? null : { salt: row.code_salt, hash: row.code_hash } };
  }

  async ofHousehold(householdId: string): Promise<StatusLinkRecord[]> {
    const { rows } = await this.client.query<LinkRow>(`select ${COLUMNS} from status_link l where l.network_id = $1 and l.household_id = $2 order by l.id desc limit 200`, [this.networkId, householdId]);
    return rows.map(toRecord);
  }

  async revoke(linkId: string, atMs: number): Promise<void> {
    await this.client.query('update status_link set revoked_at = $3 where network_id = $1 and id = $2 and revoked_at is null', [this.networkId, linkId, at(atMs)]);
  }

  async setCodeMisses(linkId: string, misses: number): Promise<void> {
    await this.client.query('update status_link set code_misses = $3 where network_id = $1 and id = $2', [this.networkId, linkId, misses]);
  }

  async renew(linkId: string, secretSha256: Uint8Array): Promise<void> {
    await this.client.query('update status_link set secret_sha256 = $3 where network_id = $1 and id = $2', [this.networkId, linkId, secretSha256]);
  }
}
