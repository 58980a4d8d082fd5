import type { Money } from './owner-question-store.js';

/** What a specialist offers to do with one thing, for how much, until when. */
export interface QuoteRecord {
  id: string;
  incidentId: string;
  itemId: string;
  specialistId: string;
  amount: Money;
  validUntilMs: number;
  /** About the thing, never about people. */
  work: string;
  state: 'open' | 'approved' | 'declined';
  /** On what a yes rests: the limit that the owner named before, or what was said when asked. */
  basis: 'consent-limit' | 'owner-asked' | null;
  consentId: string | null;
  recordedAtMs: number;
  recordedBy: string;
  decidedAtMs: number | null;
  decidedBy: string | null;
  version: number;
}

export interface QuoteStore {
  insert(quote: QuoteRecord): Promise<void>;
  lock(quoteId: string): Promise<QuoteRecord | null>;
  /** Newest first. */
  ofItem(itemId: string): Promise<QuoteRecord[]>;
  save(quote: QuoteRecord): Promise<void>;
  /** Whether the quote was carried out already. */
  usedBy(quoteId: string): Promise<string | null>;
}
