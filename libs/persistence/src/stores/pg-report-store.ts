import type { ChainHead, HouseholdItemView, MatterTally, PlaceFill, ReportStore, RiskTally, RoomAir, StageTally, UrgencyTally } from '#application';
import { STAGES, type CustodyEvent, type Keeper } from '#custody';
import type { Client } from '../pool.js';
import { toEvent, type EventRow, toMatters, type MatterRow } from './pg-custody-store.js';
import { at } from './row.js';

const OPEN = `stage not in ('released', 'handed-back', 'merged', 'referred-out')`;

export class PgReportStore implements ReportStore {
  constructor(
    private readonly client: Client,
    private readonly networkId: string,
  ) {}

  async stages(incidentId: string): Promise<StageTally[]> {
    const { rows } = await this.client.query<StageTally>(
      `select stage, count(*)::int as items, sum(count)::int as pieces, sum(planning_weight)::int as weight
       from item where network_id = $1 and incident_id = $2 group by stage`,
      [this.networkId, incidentId],
    );
    const byStage = new Map(rows.map((row) => [row.stage, row]));
    return STAGES.map((stage) => byStage.get(stage) ?? { stage, items: 0, pieces: 0, weight: 0 });
  }

  async urgencies(incidentId: string, nowMs: number): Promise<UrgencyTally[]> {
    const { rows } = await this.client.query<UrgencyTally>(
      `select urgency, count(*)::int as items, sum(planning_weight)::int as weight,
              count(*) filter (where stabilised_at is null and start_by < $3)::int as "overdueItems"
       from item where network_id = $1 and incident_id = $2 and ${OPEN} group by urgency order by urgency`,
      [this.networkId, incidentId, at(nowMs)],
    );
    return rows;
  }

  atRisk(incidentId: string, untilMs: number): Promise<RiskTally> {
    return this.risk(`and ${OPEN} and stabilised_at is null and start_by < $3`, incidentId, at(untilMs));
  }

  stabilised(incidentId: string): Promise<RiskTally> {
    return this.risk('and stabilised_at is not null', incidentId);
  }

  private async risk(condition: string, incidentId: string, ...values: unknown[]): Promise<RiskTally> {
    const { rows } = await this.client.query<RiskTally>(
      `select count(*)::int as items, coalesce(sum(planning_weight), 0)::int as weight from item where network_id = $1 and incident_id = $2 ${condition}`,
      [this.networkId, incidentId, ...values],
    );
    return rows[0] ?? { items: 0, weight: 0 };
  }

  async waitingForOwner(incidentId: string): Promise<number> {
    return (await this.risk(`and ${OPEN} and waiting_for_owner`, incidentId)).items;
  }

  async matters(incidentId: string): Promise<MatterTally> {
    const { rows } = await this.client.query<MatterTally>(
      `select count(hand_over_id)::int as "handOvers", count(*) filter (where disputed)::int as disputed, count(*) filter (where missing)::int as missing
       from item where network_id = $1 and incident_id = $2 and (hand_over_id is not null or disputed or missing)`,
      [this.networkId, incidentId],
    );
    return rows[0] ?? { handOvers: 0, disputed: 0, missing: 0 };
  }

  async fills(incidentId: string): Promise<PlaceFill[]> {
    const { rows } = await this.client.query<PlaceFill>(
      `select 'freezer' as kind, f.id, f.name, 'L' as unit, f.volume_l as capacity, coalesce(sum(i.volume_l), 0)::int as taken
       from freezer f left join item i on i.network_id = f.network_id and i.keeper_kind = 'freezer' and i.keeper_id = f.id
       where f.network_id = $1 and f.incident_id = $2 group by f.network_id, f.id
       union all
       select 'drying-place', p.id, p.name, 'dm2', p.area_dm2, coalesce(sum(i.area_dm2), 0)::int
       from drying_place p left join item i on i.network_id = p.network_id and i.keeper_kind = 'drying-place' and i.keeper_id = p.id
       where p.network_id = $1 and p.incident_id = $2 group by p.network_id, p.id
       order by 1, 3`,
      [this.networkId, incidentId],
    );
    return rows;
  }

  async rooms(incidentId: string): Promise<RoomAir[]> {
    const { rows } = await this.client.query<Omit<RoomAir, 'measuredAtMs'> & { measuredAt: Date }>(
      `select r.id, r.name, r.air_temp_c as "airTempC", r.relative_humidity_pct as "relativeHumidityPct", r.humidity_cap_pct as "humidityCapPct", r.measured_at as "measuredAt",
              count(d.id) filter (where d.state = 'running')::int as "dehumidifiersRunning", count(d.id) filter (where d.state <> 'running')::int as "dehumidifiersStopped"
       from drying_room r left join dehumidifier d on d.network_id = r.network_id and d.drying_room_id = r.id
       where r.network_id = $1 and r.incident_id = $2 group by r.network_id, r.id order by r.name`,
      [this.networkId, incidentId],
    );
    return rows.map(({ measuredAt, ...room }) => ({ ...room, measuredAtMs: measuredAt.getTime() }));
  }

  async entered(incidentId: string): Promise<number> {
    const { rows } = await this.client.query<{ entered: number }>(
      `select count(*)::int as entered from custody_event where network_id = $1 and incident_id = $2 and seq = 1 and kind in ('taken-in', 'split-off')`,
      [this.networkId, incidentId],
    );
    return rows[0]?.entered ?? 0;
  }

  async heads(incidentId: string, limit: number, afterId: string | null): Promise<ChainHead[]> {
    const { rows } = await this.client.query<{ id: string; seq: number; head_hash: string; keeper_kind: Keeper['kind']; keeper_id: string; stage: ChainHead['stage'] } & MatterRow>(
      `select id, seq, head_hash, keeper_kind, keeper_id, stage, hand_over_id, hand_over_to_kind, hand_over_to_id, disputed, missing from item
       where network_id = $1 and incident_id = $2 and ($4::uuid is null or id > $4) order by id limit $3`,
      [this.networkId, incidentId, limit, afterId],
    );
    return rows.map((row) => ({ itemId: row.id, seq: row.seq, headHash: row.head_hash, keeper: { kind: row.keeper_kind, id: row.keeper_id }, stage: row.stage, matters: toMatters(row) }));
  }

  async chains(itemIds: readonly string[]): Promise<Map<string, CustodyEvent[]>> {
    const { rows } = await this.client.query<EventRow>('select * from custody_event where network_id = $1 and item_id = any($2::uuid[]) order by item_id, seq', [this.networkId, itemIds]);
    const chains = new Map<string, CustodyEvent[]>(itemIds.map((id) => [id, []]));
    for (const row of rows) chains.get(row.item_id)?.push(toEvent(row));
    return chains;
  }

  async householdItems(householdId: string): Promise<HouseholdItemView[]> {
    const { rows } = await this.client.query<Omit<HouseholdItemView, 'updatedAtMs'> & { updatedAt: Date }>(
      `select id, tag_code as "tagCode", description, count, stage, disposition, waiting_for_owner as "waitingForOwner", updated_at as "updatedAt"
       from item where network_id = $1 and household_id = $2 order by id limit 1000`,
      [this.networkId, householdId],
    );
    return rows.map(({ updatedAt, ...item }) => ({ ...item, updatedAtMs: updatedAt.getTime() }));
  }
}
