import type { KeyedSlip, PaperKitRecord, PaperKitStore, SlipRecord, SlipState, VoidReason } from '#application';
import type { Client } from '../pool.js';
import { at, msOrNull } from './row.js';

interface KitRow {
  id: string;
  incident_id: string;
  site_id: string;
  tag_block_id: string;
  slips: number;
  created_at: Date;
  created_by: string;
}

interface SlipRow {
  kit_id: string;
  slip_no: number;
  tag_code: string;
  state: SlipState;
  fingerprint: string | null;
  item_id: string | null;
  void_reason: VoidReason | null;
  written_at: Date | null;
  keyed_at: Date | null;
  keyed_by: string | null;
}

function toKit(row: KitRow): PaperKitRecord {
  return { id: row.id, incidentId: row.incident_id, siteId: row.site_id, tagBlockId: row.tag_block_id, slips: row.slips, createdAtMs: row.created_at.getTime(), createdBy: row.created_by };
}

export class PgPaperKitStore implements PaperKitStore {
  constructor(
    private readonly client: Client,
    private readonly networkId: string,
  ) {}

  async insert(kit: PaperKitRecord, tagCodes: readonly string[]): Promise<void> {
    await this.client.query('insert into paper_kit (network_id, incident_id, id, site_id, tag_block_id, slips, created_at, created_by) values ($1, $2, $3, $4, $5, $6, $7, $8)', [
      this.networkId, kit.incidentId, kit.id, kit.siteId, kit.tagBlockId, kit.slips, at(kit.createdAtMs), kit.createdBy,
    ]);
    await this.client.query(
      "insert into paper_slip (network_id, incident_id, kit_id, slip_no, tag_code, state) select $1, $2, $3, s.no, s.code, 'printed' from unnest($4::text[]) with ordinality as s (code, no)",
      [this.networkId, kit.incidentId, kit.id, tagCodes],
    );
  }

  async find(kitId: string): Promise<PaperKitRecord | null> {
    const { rows } = await this.client.query<KitRow>('select * from paper_kit where network_id = $1 and id = $2', [this.networkId, kitId]);
    return rows[0] ? toKit(rows[0]) : null;
  }

  async lock(kitId: string): Promise<PaperKitRecord | null> {
    const { rows } = await this.client.query<KitRow>('select * from paper_kit where network_id = $1 and id = $2 for update', [this.networkId, kitId]);
    return rows[0] ? toKit(rows[0]) : null;
  }

  async slips(kitId: string): Promise<SlipRecord[]> {
    const { rows } = await this.client.query<SlipRow>('select * from paper_slip where network_id = $1 and kit_id = $2 order by slip_no', [this.networkId, kitId]);
    return rows.map((row) => ({
      kitId: row.kit_id, slipNo: row.slip_no, tagCode: row.tag_code, state: row.state, fingerprint: row.fingerprint, itemId: row.item_id, voidReason: row.void_reason,
      writtenAtMs: msOrNull(row.written_at), keyedAtMs: msOrNull(row.keyed_at), keyedBy: row.keyed_by,
    }));
  }

  async key(kitId: string, slip: KeyedSlip): Promise<void> {
    await this.client.query(
      `update paper_slip set state = $4, fingerprint = $5, item_id = $6, void_reason = $7, written_at = $8, keyed_at = $9, keyed_by = $10, keyed_with = $11 where network_id = $1 and kit_id = $2 and slip_no = $3`,
      [this.networkId, kitId, slip.slipNo, slip.state, slip.fingerprint, slip.itemId, slip.voidReason, at(slip.writtenAtMs), at(slip.keyedAtMs), slip.keyedBy, slip.keyedWith],
    );
  }
}
