import type { ClaimDecisionRecord, ClaimReason, ClaimState, DeclineReason, FoundItemRecord, FoundListRecord, FoundState, MarkLookRecord, OwnerMarkRecord, OwnershipClaimRecord, OwnershipStore, PersonalStore } from '#application';
import { TERMINAL_STAGES } from '#custody';
import type { Client } from '../pool.js';
import { sealAnew } from './seal-anew.js';
import { at, dayOrNull, msOrNull } from './row.js';

interface FoundRow { id: string; incident_id: string; item_id: string; found_on: Date; place: Uint8Array | null; finder: Uint8Array | null; recorded_by: string; recorded_at: Date; granted_claim_id: string | null }
interface MarkRow { id: string; incident_id: string; found_item_id: string; item_id: string; question: Uint8Array | null; answer: Uint8Array | null; recorded_by: string; recorded_with: string; recorded_at: Date }
interface ClaimRow { id: string; incident_id: string; found_item_id: string; household_id: string; state: ClaimState; reason: ClaimReason | null; answers: Uint8Array | null; taken_by: string; taken_with: string; taken_at: Date; ended_at: Date | null; version: number }
interface DecisionRow { id: string; incident_id: string; claim_id: string; person_id: string; principal_id: string; accepts: boolean; reason: DeclineReason | null; decided_at: Date }
interface LookRow { id: string; incident_id: string; found_item_id: string; claim_id: string; person_id: string; principal_id: string; looked_at: Date }

interface FoundListRow { id: string; incident_id: string; item_id: string; tag_code: string; description: string; material_class: FoundListRecord['materialClass']; count: number; found_on: Date; recorded_at: Date; state: FoundState; questions: number; open_claims: number; uncollected_id: string | null }

/** $4 the stages of what has left. An open claim holds up what was decided, so it comes first. */
const LISTED = `select f.id, f.incident_id, f.item_id, i.tag_code, i.description, i.material_class, i.count, f.found_on, f.recorded_at, u.id as uncollected_id, q.n as questions, c.n as open_claims,
    case when i.stage = any($4::text[]) then 'ended' when f.granted_claim_id is not null then 'decided' when c.n > 0 then 'claimed' when u.state = 'decided' then 'decided' else 'unclaimed' end as state
  from found_item f join item i on i.network_id = f.network_id and i.id = f.item_id
  cross join lateral (select count(*)::int as n from owner_mark m where m.network_id = f.network_id and m.found_item_id = f.id) q
  cross join lateral (select count(*)::int as n from ownership_claim o where o.network_id = f.network_id and o.found_item_id = f.id and o.state = 'open') c
  left join lateral (select p.id, p.state from uncollected p where p.network_id = f.network_id and p.item_id = f.item_id order by p.id desc limit 1) u on true
  where f.network_id = $1 and f.incident_id = $2 and ($5::uuid is null or f.id > $5)`;

function toFound(row: FoundRow): FoundItemRecord {
  return {
    id: row.id, incidentId: row.incident_id, itemId: row.item_id, foundOn: dayOrNull(row.found_on) ?? '', placeSealed: row.place, finderSealed: row.finder, recordedBy: row.recorded_by, recordedAtMs: row.recorded_at.getTime(), grantedClaimId: row.granted_claim_id,
  };
}

function toClaim(row: ClaimRow): OwnershipClaimRecord {
  return {
    id: row.id, incidentId: row.incident_id, foundItemId: row.found_item_id, householdId: row.household_id, state: row.state, reason: row.reason, answersSealed: row.answers, takenBy: row.taken_by, takenWith: row.taken_with,
    takenAtMs: row.taken_at.getTime(), endedAtMs: msOrNull(row.ended_at), version: row.version,
  };
}

/** Found things, their marks, claims and decisions. */
export class PgOwnershipStore implements OwnershipStore {
  constructor(
    private readonly client: Client,
    private readonly networkId: string,
    private readonly personal: PersonalStore,
  ) {}

  async page(incidentId: string, state: FoundState | null, limit: number, after: string | null): Promise<FoundListRecord[]> {
    const { rows } = await this.client.query<FoundListRow>(`select * from (${LISTED}) l where $6::text is null or l.state = $6 order by l.id limit $3`, [this.networkId, incidentId, limit, TERMINAL_STAGES, after, state]);
    return rows.map((row) => ({
      id: row.id, incidentId: row.incident_id, itemId: row.item_id, tagCode: row.tag_code, description: row.description, materialClass: row.material_class, count: row.count, foundOn: dayOrNull(row.found_on) ?? '', recordedAtMs: row.recorded_at.getTime(),
      state: row.state, questions: row.questions, openClaims: row.open_claims, uncollectedId: row.uncollected_id,
    }));
  }

  async heldByLaw(foundItemId: string): Promise<string | null> {
    const { rows } = await this.client.query<{ id: string }>(
      `select h.id from household_hold h where h.network_id = $1 and h.lifted_at is null and (
         h.household_id in (select i.household_id from found_item f join item i on i.network_id = f.network_id and i.id = f.item_id where f.network_id = $1 and f.id = $2)
         or h.household_id in (select c.household_id from ownership_claim c where c.network_id = $1 and c.found_item_id = $2)) order by h.id limit 1`,
      [this.networkId, foundItemId],
    );
    return rows[0]?.id ?? null;
  }

  async insertFound(found: FoundItemRecord): Promise<void> {
    await this.client.query(
      'insert into found_item (network_id, incident_id, id, item_id, found_on, place, finder, recorded_by, recorded_at) values ($1, $2, $3, $4, $5::date, $6, $7, $8, $9)',
      [this.networkId, found.incidentId, found.id, found.itemId, found.foundOn, found.placeSealed, found.finderSealed, found.recordedBy, at(found.recordedAtMs)],
    );
  }

  async findByItem(itemId: string): Promise<FoundItemRecord | null> {
    const { rows } = await this.client.query<FoundRow>('select * from found_item where network_id = $1 and item_id = $2', [this.networkId, itemId]);
    return rows[0] ? toFound(rows[0]) : null;
  }

  async lockFound(foundItemId: string): Promise<FoundItemRecord | null> {
    const { rows } = await this.client.query<FoundRow>('select * from found_item where network_id = $1 and id = $2 for no key update', [this.networkId, foundItemId]);
    return rows[0] ? toFound(rows[0]) : null;
  }

  async insertMark(mark: OwnerMarkRecord): Promise<void> {
    await this.client.query(
      'insert into owner_mark (network_id, incident_id, id, found_item_id, item_id, question, answer, recorded_by, recorded_with, recorded_at) values ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10)',
      [this.networkId, mark.incidentId, mark.id, mark.foundItemId, mark.itemId, mark.questionSealed, mark.answerSealed, mark.recordedBy, mark.recordedWith, at(mark.recordedAtMs)],
    );
  }

  async marks(foundItemId: string): Promise<OwnerMarkRecord[]> {
    const { rows } = await this.client.query<MarkRow>('select * from owner_mark where network_id = $1 and found_item_id = $2 order by id', [this.networkId, foundItemId]);
    return rows.map((row) => ({
      id: row.id, incidentId: row.incident_id, foundItemId: row.found_item_id, itemId: row.item_id, questionSealed: row.question, answerSealed: row.answer, recordedBy: row.recorded_by, recordedWith: row.recorded_with, recordedAtMs: row.recorded_at.getTime(),
    }));
  }

  async insertClaim(claim: OwnershipClaimRecord): Promise<boolean> {
    const { rowCount } = await this.client.query(
      `insert into ownership_claim (network_id, incident_id, id, found_item_id, household_id, state, answers, taken_by, taken_with, taken_at) values ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10)
       on conflict (network_id, found_item_id, household_id) where state = 'open' do nothing`,
      [this.networkId, claim.incidentId, claim.id, claim.foundItemId, claim.householdId, claim.state, claim.answersSealed, claim.takenBy, claim.takenWith, at(claim.takenAtMs)],
    );
    return rowCount === 1;
  }

  async findClaim(claimId: string): Promise<OwnershipClaimRecord | null> {
    const { rows } = await this.client.query<ClaimRow>('select * from ownership_claim where network_id = $1 and id = $2', [this.networkId, claimId]);
    return rows[0] ? toClaim(rows[0]) : null;
  }

  async claims(foundItemId: string): Promise<OwnershipClaimRecord[]> {
    const { rows } = await this.client.query<ClaimRow>('select * from ownership_claim where network_id = $1 and found_item_id = $2 order by id', [this.networkId, foundItemId]);
    return rows.map(toClaim);
  }

  async endClaim(claim: OwnershipClaimRecord): Promise<void> {
    const { rowCount } = await this.client.query(
      `update ownership_claim set state = $3, reason = $4, ended_at = $5, version = version + 1 where network_id = $1 and id = $2 and state = 'open'`,
      [this.networkId, claim.id, claim.state, claim.reason, at(claim.endedAtMs)],
    );
    if (rowCount !== 1) throw new Error('a claim ended twice although its thing was locked');
  }

  async tries(householdId: string, foundItemId: string, sinceMs: number): Promise<{ here: number; lately: number }> {
    const { rows } = await this.client.query<{ here: number; lately: number }>(
      'select count(*) filter (where found_item_id = $3)::int as here, count(*) filter (where taken_at > $4)::int as lately from ownership_claim where network_id = $1 and household_id = $2',
      [this.networkId, householdId, foundItemId, at(sinceMs)],
    );
    return rows[0] ?? { here: 0, lately: 0 };
  }

  async insertDecision(decision: ClaimDecisionRecord): Promise<void> {
    await this.client.query(
      'insert into claim_decision (network_id, incident_id, id, claim_id, person_id, principal_id, accepts, reason, decided_at) values ($1, $2, $3, $4, $5, $6, $7, $8, $9)',
      [this.networkId, decision.incidentId, decision.id, decision.claimId, decision.personId, decision.principalId, decision.accepts, decision.reason, at(decision.decidedAtMs)],
    );
  }

  async decisions(claimId: string): Promise<ClaimDecisionRecord[]> {
    const { rows } = await this.client.query<DecisionRow>('select * from claim_decision where network_id = $1 and claim_id = $2 order by id', [this.networkId, claimId]);
    return rows.map((row) => ({ id: row.id, incidentId: row.incident_id, claimId: row.claim_id, personId: row.person_id, principalId: row.principal_id, accepts: row.accepts, reason: row.reason, decidedAtMs: row.decided_at.getTime() }));
  }

  async insertLook(look: MarkLookRecord): Promise<void> {
    await this.client.query(
      `insert into mark_look (network_id, incident_id, id, found_item_id, claim_id, person_id, principal_id, looked_at) values ($1, $2, $3, $4, $5, $6, $7, $8)
       on conflict (network_id, claim_id, person_id, principal_id) do nothing`,
      [this.networkId, look.incidentId, look.id, look.foundItemId, look.claimId, look.personId, look.principalId, at(look.lookedAtMs)],
    );
  }

  async looks(foundItemId: string): Promise<MarkLookRecord[]> {
    const { rows } = await this.client.query<LookRow>('select * from mark_look where network_id = $1 and found_item_id = $2 order by id', [this.networkId, foundItemId]);
    return rows.map((row) => ({ id: row.id, incidentId: row.incident_id, foundItemId: row.found_item_id, claimId: row.claim_id, personId: row.person_id, principalId: row.principal_id, lookedAtMs: row.looked_at.getTime() }));
  }

  async endClaimsOf(householdId: string, reason: ClaimReason, nowMs: number): Promise<void> {
    await this.client.query(
      `update ownership_claim set state = 'withdrawn', reason = $3, ended_at = $4, version = version + 1 where network_id = $1 and household_id = $2 and state = 'open'`,
      [this.networkId, householdId, reason, at(nowMs)],
    );
  }

  async areaOf(incidentId: string): Promise<string> {
    const { rows } = await this.client.query<{ place: string }>('select place from incident where network_id = $1 and id = $2', [this.networkId, incidentId]);
    return rows[0]?.place ?? '';
  }

  async saveGranted(foundItemId: string, claimId: string): Promise<void> {
    await this.client.query('update found_item set granted_claim_id = $3 where network_id = $1 and id = $2', [this.networkId, foundItemId, claimId]);
  }

  async partsOf(itemId: string): Promise<string[]> {
    const { rows } = await this.client.query<{ id: string }>(
      `with recursive part as (
         select id, household_id from item where network_id = $1 and id = $2
         union select i.id, i.household_id from part p join item i on i.network_id = $1 and i.split_from_id = p.id and i.household_id = p.household_id
       ) select id from part where id <> $2 order by id`,
      [this.networkId, itemId],
    );
    return rows.map(({ id }) => id);
  }

  async giveTo(itemId: string, householdId: string, nowMs: number): Promise<number> {
    await sealAnew(this.client, this.personal, { networkId: this.networkId, itemId, householdId });
    const { rows } = await this.client.query<{ version: number }>(
      'update item set household_id = $3, version = version + 1, updated_at = $4 where network_id = $1 and id = $2 returning version',
      [this.networkId, itemId, householdId, at(nowMs)],
    );
    if (!rows[0]) throw new Error('giveTo: the item is gone although its row was locked');
    return rows[0].version;
  }
}
