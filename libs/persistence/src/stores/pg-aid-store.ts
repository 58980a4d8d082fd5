import type { Across, AidAgreementRecord, AidFacts, AidOfferRecord, AidStore, CallContext, Stores } from '#application';
import type { Client } from '../pool.js';
import { at, msOrNull } from './row.js';

interface AgreementRow { id: string; network_id: string; incident_id: string; role: AidAgreementRecord['role']; state: AidAgreementRecord['state']; partner_network_id: string | null; partner_incident_id: string | null; partner_name: string; invitation_sha256: Buffer | null; household_id: string | null; valid_to: Date; created_at: Date; agreed_at: Date | null; revoked_at: Date | null }
interface OfferRow { id: string; network_id: string; incident_id: string; agreement_id: string; direction: AidOfferRecord['direction']; kind: AidOfferRecord['kind']; state: AidOfferRecord['state']; item_id: string | null; facts: AidFacts; offered_at: Date; expires_at: Date; answered_at: Date | null }

/** Makes the stores of another network on the same connection; given, because the list of all stores holds this one. */
export type StoresFor = (context: CallContext) => Stores;

const SETTINGS = "select set_config('app.network_id', $1, true), set_config('app.incident_id', $2, true)";

export class PgAidStore implements AidStore {
  private readonly networkId: string;

  constructor(
    private readonly client: Client,
    private readonly context: CallContext,
    private readonly storesFor: StoresFor,
  ) {
    this.networkId = context.networkId;
  }

  async networkName(): Promise<string | null> {
    const { rows } = await this.client.query<{ name: string }>('select name from network where network_id = $1 and suspended_at is null', [this.networkId]);
    return rows[0]?.name ?? null;
  }

  async insertAgreement(a: AidAgreementRecord): Promise<void> {
    await this.client.query(
      `insert into aid_agreement (network_id, incident_id, id, role, state, partner_network_id, partner_incident_id, partner_name, invitation_sha256, household_id, valid_to, created_at, agreed_at, revoked_at)
       values ($1, $2, $3, $4, $5, $6, $7, $8, decode($9, 'hex'), $10, $11, $12, $13, $14)`,
      [this.networkId, a.incidentId, a.id, a.role, a.state, a.partnerNetworkId, a.partnerIncidentId, a.partnerName, a.invitationSha256, a.householdId, at(a.validToMs), at(a.createdAtMs), at(a.agreedAtMs), at(a.revokedAtMs)],
    );
  }

  findAgreement(agreementId: string): Promise<AidAgreementRecord | null> {
    return this.agreement(agreementId, '');
  }

  lockAgreement(agreementId: string): Promise<AidAgreementRecord | null> {
    return this.agreement(agreementId, ' for no key update');
  }

  async saveAgreement(agreementId: string, changed: Parameters<AidStore['saveAgreement']>[1]): Promise<void> {
    await this.client.query(
      `update aid_agreement set state = coalesce($3, state), partner_network_id = coalesce($4, partner_network_id), partner_incident_id = coalesce($5, partner_incident_id),
              partner_name = coalesce($6, partner_name), agreed_at = coalesce($7, agreed_at), revoked_at = coalesce($8, revoked_at)
       where network_id = $1 and id = $2`,
      [this.networkId, agreementId, changed.state ?? null, changed.partnerNetworkId ?? null, changed.partnerIncidentId ?? null, changed.partnerName ?? null, at(changed.agreedAtMs ?? null), at(changed.revokedAtMs ?? null)],
    );
  }

  async agreements(incidentId: string, limit: number, afterId: string | null): Promise<AidAgreementRecord[]> {
    const { rows } = await this.client.query<AgreementRow>('select * from aid_agreement where network_id = $1 and incident_id = $2 and ($4::uuid is null or id > $4) order by id limit $3', [this.networkId, incidentId, limit, afterId]);
    return rows.map(toAgreement);
  }

  async insertOffer(o: AidOfferRecord): Promise<void> {
    await this.client.query(
      `insert into aid_offer (network_id, incident_id, id, agreement_id, direction, kind, state, item_id, facts, offered_at, expires_at, answered_at)
       values ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11, $12)`,
      [this.networkId, o.incidentId, o.id, o.agreementId, o.direction, o.kind, o.state, o.itemId, JSON.stringify(o.facts), at(o.offeredAtMs), at(o.expiresAtMs), at(o.answeredAtMs)],
    );
  }

  async findOffer(offerId: string): Promise<AidOfferRecord | null> {
    const { rows } = await this.client.query<OfferRow>('select * from aid_offer where network_id = $1 and id = $2', [this.networkId, offerId]);
    return rows[0] ? toOffer(rows[0]) : null;
  }

  async lastAccepted(itemId: string): Promise<AidOfferRecord | null> {
    const { rows } = await this.client.query<OfferRow>(`select * from aid_offer where network_id = $1 and item_id = $2 and state = 'accepted' order by answered_at desc, id desc limit 1`, [this.networkId, itemId]);
    return rows[0] ? toOffer(rows[0]) : null;
  }

  async saveOffer(offerId: string, { state, answeredAtMs, itemId }: { state: AidOfferRecord['state']; answeredAtMs: number; itemId?: string }): Promise<void> {
    await this.client.query('update aid_offer set state = $3, answered_at = $4, item_id = coalesce($5, item_id) where network_id = $1 and id = $2', [this.networkId, offerId, state, at(answeredAtMs), itemId ?? null]);
  }

  async offers(incidentId: string, filter: { open?: boolean }, limit: number, afterId: string | null): Promise<AidOfferRecord[]> {
    const { rows } = await this.client.query<OfferRow>(
      `select * from aid_offer where network_id = $1 and incident_id = $2 and ($4::uuid is null or id > $4) and ($5::boolean is null or (state = 'open') = $5) order by id limit $3`,
      [this.networkId, incidentId, limit, afterId, filter.open ?? null],
    );
    return rows.map(toOffer);
  }

  async takeTurn(id: string): Promise<void> {
    await this.client.query('select pg_advisory_xact_lock(hashtextextended($1, 7))', [`aid ${id}`]);
  }

  async across<T>(partner: Across, work: (stores: Stores) => Promise<T>): Promise<T> {
    const there: CallContext = { networkId: partner.networkId, incidentLimit: partner.incidentId, principalId: partner.agreementId, requestId: `aid ${partner.agreementId}`, traceparent: this.context.traceparent };
    await this.client.query(SETTINGS, [there.networkId, there.incidentLimit ?? '']);
    // After a failure the transaction is rolled back, and the settings with it.
    const result = await work(this.storesFor(there));
    await this.client.query(SETTINGS, [this.networkId, this.context.incidentLimit ?? '']);
    return result;
  }

  async note(operation: string, subject: { kind: string; id: string }): Promise<void> {
    await this.client.query(
      `insert into audit_entry (network_id, principal_id, operation, subject_kind, subject_id, outcome, request_id) values ($1, $2, $3, $4, $5, 'done', $6)`,
      [this.networkId, this.context.principalId, operation, subject.kind, subject.id, this.context.requestId],
    );
  }

  private async agreement(agreementId: string, lock: string): Promise<AidAgreementRecord | null> {
    const { rows } = await this.client.query<AgreementRow>(`select * from aid_agreement where network_id = $1 and id = $2${lock}`, [this.networkId, agreementId]);
    return rows[0] ? toAgreement(rows[0]) : null;
  }
}

function toAgreement(row: AgreementRow): AidAgreementRecord {
  return {
    id: row.id, networkId: row.network_id, incidentId: row.incident_id, role: row.role, state: row.state, partnerNetworkId: row.partner_network_id, partnerIncidentId: row.partner_incident_id, partnerName: row.partner_name,
    invitationSha256: row.invitation_sha256?.toString('hex') ?? null, householdId: row.household_id, validToMs: row.valid_to.getTime(), createdAtMs: row.created_at.getTime(), agreedAtMs: msOrNull(row.agreed_at), revokedAtMs: msOrNull(row.revoked_at),
  };
}

function toOffer(row: OfferRow): AidOfferRecord {
  return {
    id: row.id, networkId: row.network_id, incidentId: row.incident_id, agreementId: row.agreement_id, direction: row.direction, kind: row.kind, state: row.state, itemId: row.item_id, facts: row.facts,
    offeredAtMs: row.offered_at.getTime(), expiresAtMs: row.expires_at.getTime(), answeredAtMs: msOrNull(row.answered_at),
  };
}
