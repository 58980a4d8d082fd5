import type { FoundItems, LyingCompanion, LyingThing, PersonalStore, UnseenBefore, UnseenItem, Whereabouts, WhereStep, WhereStore, WordGroups } from '#application';
import type { Keeper, Stage } from '#custody';
import type { Client } from '../pool.js';
import { withBlindWords } from './family-words.js';
import { toMatters, type MatterRow } from './pg-custody-store.js';
import { at } from './row.js';
import { COMPANION, COMPANIONS } from './company-sql.js';
import { CONTENTS, WAY_OUT, WHEREABOUTS } from './where-sql.js';
import { findByWords } from './word-search.js';

interface WhereRow extends MatterRow { id: string; tag_code: string; description: string; household_id: string; household_code: string; photograph_ref: string; photographed_on: string | null; stage: Stage; version: number; last_seen_at: Date; since: Date }
interface StepRow { item_id: string; kind: Keeper['kind']; id: string; code: string; name: string; site_name: string | null }
interface LyingRow extends MatterRow { thing: LyingThing['thing']; id: string; tag_code: string; description: string; keeper_kind: Keeper['kind']; keeper_id: string; depth: number; stage: Stage | null; last_seen_at: Date }
interface UnseenRow extends MatterRow { id: string; tag_code: string; description: string; household_id: string; stage: Stage; keeper_kind: Keeper['kind']; keeper_id: string; last_seen_at: Date }

/** Open things whose stage names a moment ($3 stages, $4 moments) and that were last seen before it. `last_seen_at` is bounded by the latest moment, for the index. */
const UNSEEN = `from item i join unnest($3::text[], $4::timestamptz[]) as b (stage, before) on b.stage = i.stage
  where i.network_id = $1 and i.incident_id = $2 and i.stage not in ('released', 'handed-back', 'merged') and i.last_seen_at < b.before and i.last_seen_at < (select max(m) from unnest($4::timestamptz[]) as m)`;

export class PgWhereStore implements WhereStore {
  constructor(
    private readonly client: Client,
    private readonly networkId: string,
    private readonly personal: PersonalStore,
  ) {}

  async words(text: string): Promise<string[]> {
    const { rows } = await this.client.query<{ words: string[] }>({ name: 'search_words', text: 'select search_words($1) as words', values: [text] });
    return rows[0]?.words ?? [];
  }

  async byWords(incidentId: string, groups: WordGroups, limit: number): Promise<FoundItems> {
    return findByWords(this.client, this.networkId, incidentId, await withBlindWords(this.personal, groups), limit);
  }

  async byHousehold(incidentId: string, codes: readonly string[], limit: number): Promise<FoundItems> {
    const { rows } = await this.client.query<{ id: string }>({
      name: 'items_of_household_code',
      // By itself for each household, so that the index gives the newest and nothing is sorted.
      text: `select i.id from household h cross join lateral (
               select i.id from item i where i.network_id = $1 and i.household_id = h.id order by i.id desc limit $4
             ) i where h.network_id = $1 and h.incident_id = $2 and h.code = any($3::text[]) order by i.id desc limit $4`,
      values: [this.networkId, incidentId, codes, limit + 1],
    });
    return { itemIds: rows.slice(0, limit).map((row) => row.id), more: rows.length > limit };
  }

  async whereabouts(incidentId: string, itemIds: readonly string[]): Promise<Whereabouts[]> {
    const values = [this.networkId, incidentId, itemIds];
    const { rows } = await this.client.query<WhereRow>({ name: 'whereabouts', text: WHEREABOUTS, values });
    const way = await this.client.query<StepRow>({ name: 'way_out', text: WAY_OUT, values });
    const steps = new Map<string, WhereStep[]>();
    for (const { item_id, kind, id, code, name, site_name } of way.rows) steps.set(item_id, [...(steps.get(item_id) ?? []), { keeper: { kind, id }, code, name, siteName: site_name }]);
    const byId = new Map(rows.map((row) => [row.id, row]));
    return itemIds.flatMap((id) => {
      const row = byId.get(id);
      return row ? [{
        itemId: id, tagCode: row.tag_code, description: row.description, householdId: row.household_id, householdCode: row.household_code, photographRef: row.photograph_ref, photographedOn: row.photographed_on,
        stage: row.stage, version: row.version, matters: toMatters(row), lastSeenAtMs: row.last_seen_at.getTime(), sinceMs: row.since.getTime(), steps: steps.get(id) ?? [],
      }] : [];
    });
  }

  async contents(keeper: Keeper, limit: number, afterId: string | null): Promise<LyingThing[]> {
    const { rows } = await this.client.query<LyingRow>({ name: 'place_contents', text: CONTENTS, values: [this.networkId, keeper.kind, keeper.id, limit, afterId] });
    return rows.map((row) => ({
      thing: row.thing, id: row.id, tagCode: row.tag_code, description: row.description, keeper: { kind: row.keeper_kind, id: row.keeper_id }, depth: row.depth, stage: row.stage, matters: toMatters(row), lastSeenAtMs: row.last_seen_at.getTime(),
    }));
  }

  async companions(keeper: Keeper, limit: number): Promise<LyingCompanion[]> {
    const { rows } = await this.client.query<LyingCompanion>({ name: 'place_companions', text: COMPANIONS, values: [this.networkId, keeper.kind, keeper.id, limit] });
    return rows;
  }

  async companion(itemId: string): Promise<LyingCompanion | null> {
    const { rows } = await this.client.query<LyingCompanion>({ name: 'companion', text: COMPANION, values: [this.networkId, itemId] });
    return rows[0] ?? null;
  }

  async unseen(incidentId: string, before: UnseenBefore, limit: number, after: { lastSeenAtMs: number; itemId: string } | null): Promise<UnseenItem[]> {
    const { rows } = await this.client.query<UnseenRow>({
      name: 'items_unseen',
      text: `select i.id, i.tag_code, i.description, i.household_id, i.stage, i.keeper_kind, i.keeper_id, i.last_seen_at, i.hand_over_id, i.hand_over_to_kind, i.hand_over_to_id, i.disputed, i.missing
             ${UNSEEN} and ($6::timestamptz is null or (i.last_seen_at, i.id) > ($6::timestamptz, $7::uuid)) order by i.last_seen_at, i.id limit $5`,
      values: [this.networkId, incidentId, ...columnsOf(before), limit, at(after?.lastSeenAtMs ?? null), after?.itemId ?? null],
    });
    return rows.map((row) => ({
      itemId: row.id, tagCode: row.tag_code, description: row.description, householdId: row.household_id, stage: row.stage, keeper: { kind: row.keeper_kind, id: row.keeper_id }, matters: toMatters(row), lastSeenAtMs: row.last_seen_at.getTime(),
    }));
  }

  async countUnseen(incidentId: string, before: UnseenBefore): Promise<{ items: number; households: number }> {
    const { rows } = await this.client.query<{ items: number; households: number }>({
      name: 'items_unseen_count',
      text: `select count(*)::int as items, count(distinct i.household_id)::int as households ${UNSEEN}`,
      values: [this.networkId, incidentId, ...columnsOf(before)],
    });
    return rows[0] ?? { items: 0, households: 0 };
  }
}

function columnsOf(before: UnseenBefore): [string[], Date[]] {
  const entries = Object.entries(before);
  return [entries.map(([stage]) => stage), entries.map(([, ms]) => at(ms))];
}
