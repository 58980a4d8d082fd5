import { type ItemFilter, type ItemRecord, type ItemStore, type PersonalStore, type ItemWithMatters, type ItemWorkState, type LocationClaim, type MatterKind } from '#application';
import type { LotExtent } from '#custody';
import type { Client } from '../pool.js';
import { toMatters, type MatterRow } from './pg-custody-store.js';
import { keepFamilyWords, openFamilyWords, sealFamilyWords } from './family-words.js';
import { at, dayOrNull, msOrNull } from './row.js';

interface ItemRow extends MatterRow {
  last_seen_at: Date;
  network_id: string;
  incident_id: string;
  id: string;
  household_id: string;
  site_id: string;
  tag_code: string;
  kind: ItemRecord['kind'];
  count: number;
  split_from_id: string | null;
  description: string;
  /** In the clear only until the worker has sealed it. */
  family_words: string | null;
  family_words_sealed: Uint8Array | null;
  photograph_ref: string;
  photographed_on: Date | null;
  material_class: ItemRecord['materialClass'];
  size_class: string;
  area_dm2: number;
  volume_l: number;
  dry_mass_g: number;
  significance: ItemRecord['significance'];
  arrived_at: Date;
  wetted_at: Date | null;
  seq: number;
  head_hash: string;
  keeper_kind: ItemRecord['keeper']['kind'];
  keeper_id: string;
  stage: ItemRecord['stage'];
  urgency: ItemRecord['urgency'];
  start_by: Date | null;
  disposition: ItemRecord['disposition'];
  planning_weight: number;
  stabilised_at: Date | null;
  next_step: ItemRecord['nextStep'];
  route_position: number;
  waiting_for_owner: boolean;
  version: number;
  created_at: Date;
  updated_at: Date;
}

const SELECT = 'select * from item';

function toRecord(row: ItemRow, familyWords: string): ItemRecord {
  return {
    networkId: row.network_id,
    incidentId: row.incident_id,
    id: row.id,
    householdId: row.household_id,
    siteId: row.site_id,
    tagCode: row.tag_code,
    kind: row.kind,
    count: row.count,
    splitFromId: row.split_from_id,
    description: row.description,
    familyWords,
    photographRef: row.photograph_ref,
    photographedOn: dayOrNull(row.photographed_on),
    materialClass: row.material_class,
    sizeClass: row.size_class,
    areaDm2: row.area_dm2,
    volumeL: row.volume_l,
    dryMassG: row.dry_mass_g,
    significance: row.significance,
    arrivedAtMs: row.arrived_at.getTime(),
    wettedAtMs: msOrNull(row.wetted_at),
    seq: row.seq,
    headHash: row.head_hash,
    keeper: { kind: row.keeper_kind, id: row.keeper_id },
    stage: row.stage,
    matters: toMatters(row),
    lastSeenAtMs: row.last_seen_at.getTime(),
    urgency: row.urgency,
    startByMs: msOrNull(row.start_by),
    disposition: row.disposition,
    planningWeight: row.planning_weight,
    stabilisedAtMs: msOrNull(row.stabilised_at),
    nextStep: row.next_step,
    routePosition: row.route_position,
    waitingForOwner: row.waiting_for_owner,
    version: row.version,
    createdAtMs: row.created_at.getTime(),
    updatedAtMs: row.updated_at.getTime(),
  };
}

/** The latest claim against the record, beside the item. */
interface ClaimRow {
  claim_kind: ItemRecord['keeper']['kind'] | null;
  claim_id: string | null;
  claim_seen_at: Date | null;
  claim_person_id: string | null;
  claim_note: string | null;
}

function toClaim({ claim_kind: kind, claim_id: id, claim_seen_at: seenAt, claim_person_id: personId, claim_note: note }: ClaimRow): LocationClaim | null {
  return kind === null || id === null || seenAt === null ? null : { place: { kind, id }, seenAtMs: seenAt.getTime(), personId, note: note ?? '' };
}

const HAS_MATTER: Readonly<Record<MatterKind, string>> = { 'hand-over': 'i.hand_over_id is not null', disputed: 'i.disputed', missing: 'i.missing' };

/** Column of each field of the work state, with its parameter value. */
const WORK_COLUMNS: { [K in keyof ItemWorkState]-?: [string, (value: ItemWorkState[K]) => unknown] } = {
  urgency: ['urgency', (value) => value],
  startByMs: ['start_by', at],
  disposition: ['disposition', (value) => value],
  planningWeight: ['planning_weight', (value) => value],
  stabilisedAtMs: ['stabilised_at', at],
  nextStep: ['next_step', (value) => value],
  routePosition: ['route_position', (value) => value],
  waitingForOwner: ['waiting_for_owner', (value) => value],
  significance: ['significance', (value) => value],
  materialClass: ['material_class', (value) => value],
  wettedAtMs: ['wetted_at', at],
};

export class PgItemStore implements ItemStore {
  constructor(
    private readonly client: Client,
    private readonly networkId: string,
    private readonly personal: PersonalStore,
  ) {}

  private async records(rows: readonly ItemRow[]): Promise<ItemRecord[]> {
    const words = await openFamilyWords(this.personal, rows);
    return rows.map((row, index) => toRecord(row, words[index] ?? ''));
  }

  async lock(itemId: string): Promise<ItemRecord | null> {
    const { rows } = await this.client.query<ItemRow>({ name: 'item_lock', text: `${SELECT} where network_id = $1 and id = $2 for update`, values: [this.networkId, itemId] });
    return (await this.records(rows))[0] ?? null;
  }

  async lockMany(itemIds: readonly string[]): Promise<ItemRecord[]> {
    const { rows } = await this.client.query<ItemRow>(`${SELECT} where network_id = $1 and id = any($2::uuid[]) order by id for update`, [this.networkId, itemIds]);
    return this.records(rows);
  }

  async find(itemId: string): Promise<ItemRecord | null> {
    const { rows } = await this.client.query<ItemRow>({ name: 'item_find', text: `${SELECT} where network_id = $1 and id = $2`, values: [this.networkId, itemId] });
    return (await this.records(rows))[0] ?? null;
  }

  async findByTag(tagCode: string): Promise<ItemRecord | null> {
    const { rows } = await this.client.query<ItemRow>({
      name: 'item_by_tag',
      text: `with recursive line as (
               ${SELECT} where network_id = $1 and tag_code = $2 union select i.* from line l join item i on i.network_id = l.network_id and i.id = l.keeper_id where l.stage = 'merged'
             ) select * from line where stage <> 'merged'`,
      values: [this.networkId, tagCode],
    });
    return (await this.records(rows))[0] ?? null;
  }

  async page(incidentId: string, filter: ItemFilter, limit: number, afterId: string | null): Promise<ItemRecord[]> {
    const values: unknown[] = [this.networkId, incidentId];
    const where = ['network_id = $1', 'incident_id = $2'];
    const add = (condition: string, value: unknown) => {
      values.push(value);
      where.push(`${condition} $${values.length}`);
    };
    if (filter.stage) add('stage =', filter.stage);
    if (filter.urgency) add('urgency =', filter.urgency);
    if (filter.householdId) add('household_id =', filter.householdId);
    if (filter.keeper) {
      add('keeper_kind =', filter.keeper.kind);
      add('keeper_id =', filter.keeper.id);
    }
    if (afterId !== null) add('id >', afterId);
    values.push(limit);
    const { rows } = await this.client.query<ItemRow>(`${SELECT} where ${where.join(' and ')} order by id limit $${values.length}`, values);
    return this.records(rows);
  }

  async withMatters(incidentId: string, kind: MatterKind | null, limit: number, afterId: string | null): Promise<ItemWithMatters[]> {
    const { rows } = await this.client.query<ItemRow & ClaimRow>(
      `select i.*, c.place_kind as claim_kind, c.place_id as claim_id, c.seen_at as claim_seen_at, c.person_id as claim_person_id, c.note as claim_note
       from item i left join lateral (
         select * from sighting s where i.disputed and s.network_id = i.network_id and s.item_id = i.id and s.verdict = 'claims-elsewhere' order by s.recorded_at desc, s.id desc limit 1
       ) c on true
       where i.network_id = $1 and i.incident_id = $2 and (i.hand_over_id is not null or i.disputed or i.missing)${kind === null ? '' : ` and ${HAS_MATTER[kind]}`}
         and ($4::uuid is null or i.id > $4) order by i.id limit $3`,
      [this.networkId, incidentId, limit, afterId],
    );
    const items = await this.records(rows);
    return rows.flatMap((row, index) => (items[index] ? [{ item: items[index], latestClaim: toClaim(row) }] : []));
  }

  async insert(item: ItemRecord): Promise<void> {
    await this.client.query({
      name: 'item_insert',
      text: `insert into item (network_id, incident_id, id, household_id, site_id, tag_code, kind, count, split_from_id, description, family_words_sealed,
               photograph_ref, material_class, size_class, significance, arrived_at, wetted_at, seq, head_hash, keeper_kind, keeper_id, stage,
               urgency, start_by, disposition, planning_weight, stabilised_at, next_step, route_position, waiting_for_owner, version, created_at, updated_at, area_dm2, volume_l, dry_mass_g, last_seen_at, photographed_on)
             values ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11, $12, $13, $14, $15, $16, $17, $18, $19, $20, $21, $22, $23, $24, $25, $26, $27, $28, $29, $30, $31, $32, $33, $34, $35, $36, $37, $38::date)`,
      values: [
        this.networkId, item.incidentId, item.id, item.householdId, item.siteId, item.tagCode, item.kind, item.count, item.splitFromId, item.description, await sealFamilyWords(this.personal, item, item.familyWords),
        item.photographRef, item.materialClass, item.sizeClass, item.significance, at(item.arrivedAtMs), at(item.wettedAtMs), item.seq, item.headHash, item.keeper.kind, item.keeper.id, item.stage,
        item.urgency, at(item.startByMs), item.disposition, item.planningWeight, at(item.stabilisedAtMs), item.nextStep, item.routePosition, item.waitingForOwner, item.version, at(item.createdAtMs), at(item.updatedAtMs),
        item.areaDm2, item.volumeL, item.dryMassG, at(item.lastSeenAtMs), item.photographedOn,
      ],
    });
    await keepFamilyWords(this.client, this.personal, item, '', item.familyWords);
  }

  async saveWork(itemId: string, changed: Partial<ItemWorkState>, nowMs: number): Promise<number> {
    const values: unknown[] = [this.networkId, itemId, at(nowMs)];
    const set = ['version = version + 1', 'updated_at = $3'];
    for (const key of Object.keys(changed) as (keyof ItemWorkState)[]) {
      const [column, toParameter] = WORK_COLUMNS[key] as [string, (value: unknown) => unknown];
      values.push(toParameter(changed[key]));
      set.push(`${column} = $${values.length}`);
    }
    const { rows } = await this.client.query<{ version: number }>(`update item set ${set.join(', ')} where network_id = $1 and id = $2 returning version`, values);
    if (!rows[0]) throw new Error('saveWork: the item is gone although its row was locked');
    return rows[0].version;
  }

  async saveExtent(itemId: string, extent: LotExtent, nowMs: number): Promise<number> {
    const { rows } = await this.client.query<{ version: number }>(
      'update item set count = $3, area_dm2 = $4, volume_l = $5, dry_mass_g = $6, version = version + 1, updated_at = $7 where network_id = $1 and id = $2 returning version',
      [this.networkId, itemId, extent.count, extent.areaDm2, extent.volumeL, extent.dryMassG, at(nowMs)],
    );
    if (!rows[0]) throw new Error('saveExtent: the item is gone although its row was locked');
    return rows[0].version;
  }

  async saveWords(itemId: string, expectedVersion: number, changed: Partial<Pick<ItemRecord, 'description' | 'familyWords' | 'photographRef' | 'photographedOn'>>, nowMs: number): Promise<number | null> {
    const before = changed.familyWords === undefined ? null : await this.find(itemId);
    const sealed = before === null ? null : await sealFamilyWords(this.personal, before, changed.familyWords ?? '');
    const { rows } = await this.client.query<{ version: number }>(
      `update item set description = coalesce($4, description), photograph_ref = coalesce($6, photograph_ref), photographed_on = case when $8::boolean then $9::date else photographed_on end,
              family_words = case when $10::boolean then null else family_words end, family_words_sealed = case when $10::boolean then $5 else family_words_sealed end,
              version = version + 1, updated_at = $7
       where network_id = $1 and id = $2 and version = $3 returning version`,
      [this.networkId, itemId, expectedVersion, changed.description ?? null, sealed, changed.photographRef ?? null, at(nowMs), changed.photographedOn !== undefined, changed.photographedOn ?? null, changed.familyWords !== undefined],
    );
    if (rows[0] && before !== null) await keepFamilyWords(this.client, this.personal, before, before.familyWords, changed.familyWords ?? '');
    return rows[0]?.version ?? null;
  }
}
