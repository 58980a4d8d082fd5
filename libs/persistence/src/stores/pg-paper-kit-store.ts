import type { KeyedLine, KeyedSlip, LineBecame, LineVoidReason, PaperKitRecord, PaperKitStore, PaperSheetRecord, ScanProblem, SlipRecord, SlipState, VoidReason } from '#application';
import type { CustodyEventKind, KeeperKind } from '#custody';
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

interface LineRow {
  sheet_no: number;
  part_no: number;
  line_no: number;
  state: 'keyed' | 'void';
  void_reason: LineVoidReason | null;
  fingerprint: string;
  became: LineBecame | null;
  item_id: string | null;
  container_id: string | null;
  event_kind: CustodyEventKind | null;
  event_seq: number | null;
  step_result_id: string | null;
  problem: ScanProblem | null;
  written_at: Date | null;
  keyed_at: Date;
  keyed_by: string;
  keyed_with: string;
}

function toLine(row: LineRow): KeyedLine {
  return {
    sheetNo: row.sheet_no, part: row.part_no, lineNo: row.line_no, state: row.state, voidReason: row.void_reason, fingerprint: row.fingerprint, became: row.became, itemId: row.item_id, containerId: row.container_id,
    event: row.event_kind === null || row.event_seq === null ? null : { kind: row.event_kind, seq: row.event_seq }, stepResultId: row.step_result_id, problem: row.problem,
    writtenAtMs: msOrNull(row.written_at), keyedAtMs: row.keyed_at.getTime(), keyedBy: row.keyed_by, keyedWith: row.keyed_with,
  };
}

function toKit(row: KitRow): PaperKitRecord {
  return { id: row.id, incidentId: row.incident_id, siteId: row.site_id, tagBlockId: row.tag_block_id, slips: row.slips, createdAtMs: row.created_at.getTime(), createdBy: row.created_by };
}

export class PgPaperKitStore implements PaperKitStore {
  constructor(
    private readonly client: Client,
    private readonly networkId: string,
  ) {}

  async insert(kit: PaperKitRecord, tagCodes: readonly string[], sheets: readonly PaperSheetRecord[]): Promise<void> {
    await this.client.query('insert into paper_kit (network_id, incident_id, id, site_id, tag_block_id, slips, created_at, created_by) values ($1, $2, $3, $4, $5, $6, $7, $8)', [
      this.networkId, kit.incidentId, kit.id, kit.siteId, kit.tagBlockId, kit.slips, at(kit.createdAtMs), kit.createdBy,
    ]);
    await this.client.query(
      "insert into paper_slip (network_id, incident_id, kit_id, slip_no, tag_code, state) select $1, $2, $3, s.no, s.code, 'printed' from unnest($4::text[]) with ordinality as s (code, no)",
      [this.networkId, kit.incidentId, kit.id, tagCodes],
    );
    await this.client.query(
      'insert into paper_sheet (network_id, incident_id, kit_id, sheet_no, place_kind, place_id) select $1, $2, $3, s.no, s.kind, s.place from unnest($4::integer[], $5::text[], $6::uuid[]) as s (no, kind, place)',
      [this.networkId, kit.incidentId, kit.id, sheets.map(({ sheetNo }) => sheetNo), sheets.map(({ place }) => place.kind), sheets.map(({ place }) => place.id)],
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

  async sheets(kitId: string): Promise<PaperSheetRecord[]> {
    const { rows } = await this.client.query<{ sheet_no: number; place_kind: KeeperKind; place_id: string }>('select sheet_no, place_kind, place_id from paper_sheet where network_id = $1 and kit_id = $2 order by sheet_no', [this.networkId, kitId]);
    return rows.map((row) => ({ sheetNo: row.sheet_no, place: { kind: row.place_kind, id: row.place_id } }));
  }

  async lines(kitId: string): Promise<KeyedLine[]> {
    const { rows } = await this.client.query<LineRow>('select * from paper_line where network_id = $1 and kit_id = $2 order by sheet_no, part_no, line_no', [this.networkId, kitId]);
    return rows.map(toLine);
  }

  async keyLine(kit: PaperKitRecord, line: KeyedLine): Promise<void> {
    await this.client.query(
      `insert into paper_line (network_id, incident_id, kit_id, sheet_no, part_no, line_no, state, void_reason, fingerprint, became, item_id, container_id, event_kind, event_seq, step_result_id, problem, written_at, keyed_at, keyed_by, keyed_with)
       values ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11, $12, $13, $14, $15, $16, $17, $18, $19, $20)`,
      [
        this.networkId, kit.incidentId, kit.id, line.sheetNo, line.part, line.lineNo, line.state, line.voidReason, line.fingerprint, line.became, line.itemId, line.containerId, line.event?.kind ?? null, line.event?.seq ?? null,
        line.stepResultId, line.problem, at(line.writtenAtMs), at(line.keyedAtMs), line.keyedBy, line.keyedWith,
      ],
    );
  }
}
