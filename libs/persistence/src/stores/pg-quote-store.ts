import type { QuoteRecord, QuoteStore } from '#application';
import type { Client } from '../pool.js';
import { at, msOrNull } from './row.js';

interface QuoteRow {
  id: string;
  incident_id: string;
  item_id: string;
  specialist_id: string;
  amount_minor: string;
  currency: string;
  valid_until: Date;
  work: string;
  state: QuoteRecord['state'];
  basis: QuoteRecord['basis'];
  consent_id: string | null;
  recorded_at: Date;
  recorded_by: string;
  decided_at: Date | null;
  decided_by: string | null;
  version: number;
}

function toRecord(row: QuoteRow): QuoteRecord {
  return {
    id: row.id, incidentId: row.incident_id, itemId: row.item_id, specialistId: row.specialist_id, amount: { minor: Number(row.amount_minor), currency: row.currency }, validUntilMs: row.valid_until.getTime(), work: row.work,
    state: row.state, basis: row.basis, consentId: row.consent_id, recordedAtMs: row.recorded_at.getTime(), recordedBy: row.recorded_by, decidedAtMs: msOrNull(row.decided_at), decidedBy: row.decided_by, version: row.version,
  };
}

export class PgQuoteStore implements QuoteStore {
  constructor(
    private readonly client: Client,
    private readonly networkId: string,
  ) {}

  async insert(quote: QuoteRecord): Promise<void> {
    await this.client.query(
      `insert into referral_quote (network_id, incident_id, id, item_id, specialist_id, amount_minor, currency, valid_until, work, state, recorded_at, recorded_by) values ($1, $2, $3, $4, $5, $6, $7, $8, $9, 'open', $10, $11)`,
      [this.networkId, quote.incidentId, quote.id, quote.itemId, quote.specialistId, quote.amount.minor, quote.amount.currency, at(quote.validUntilMs), quote.work, at(quote.recordedAtMs), quote.recordedBy],
    );
  }

  async lock(quoteId: string): Promise<QuoteRecord | null> {
    const { rows } = await this.client.query<QuoteRow>('select * from referral_quote where network_id = $1 and id = $2 for update', [this.networkId, quoteId]);
    return rows[0] ? toRecord(rows[0]) : null;
  }

  async ofItem(itemId: string): Promise<QuoteRecord[]> {
    const { rows } = await this.client.query<QuoteRow>('select * from referral_quote where network_id = $1 and item_id = $2 order by id desc', [this.networkId, itemId]);
    return rows.map(toRecord);
  }

  async save(quote: QuoteRecord): Promise<void> {
    await this.client.query(
      'update referral_quote set state = $3, basis = $4, consent_id = $5, decided_at = $6, decided_by = $7, version = version + 1 where network_id = $1 and id = $2',
      [this.networkId, quote.id, quote.state, quote.basis, quote.consentId, at(quote.decidedAtMs), quote.decidedBy],
    );
  }

  async usedBy(quoteId: string): Promise<string | null> {
    const { rows } = await this.client.query<{ id: string }>('select id from referral where network_id = $1 and quote_id = $2', [this.networkId, quoteId]);
    return rows[0]?.id ?? null;
  }
}
