import type { MaterialClass, Significance, Urgency, WaterKind } from '#care';
import type { StandardItemKind } from '#climate';
import type { Stores } from './work.js';

/** What two networks agreed; each keeps its own record under the same id. Times are epoch milliseconds. */
export interface AidAgreementRecord {
  id: string;
  networkId: string;
  incidentId: string;
  role: 'giver' | 'receiver';
  state: 'invited' | 'agreed' | 'revoked';
  /** Null until the partner joins. */
  partnerNetworkId: string | null;
  partnerIncidentId: string | null;
  partnerName: string;
  /** Hex; of the giver only. */
  invitationSha256: string | null;
  /** The receiver's record under which the partner's things stand. */
  householdId: string | null;
  validToMs: number;
  createdAtMs: number;
  agreedAtMs: number | null;
  revokedAtMs: number | null;
}

/** What the giver says of a thing: nothing about its family. */
export interface AidFacts {
  tag: string;
  lot: boolean;
  count: number;
  description: string;
  materialClass: MaterialClass;
  sizeClass: StandardItemKind;
  significance: Significance;
  water: WaterKind;
  urgency: Urgency | null;
  wettedAtMs: number | null;
  startByMs: number | null;
}

export interface AidOfferRecord {
  id: string;
  networkId: string;
  incidentId: string;
  agreementId: string;
  direction: 'out' | 'in';
  kind: 'hand-over' | 'return';
  state: 'open' | 'accepted' | 'declined' | 'withdrawn';
  itemId: string | null;
  facts: AidFacts;
  offeredAtMs: number;
  expiresAtMs: number;
  answeredAtMs: number | null;
}

/** Where a command goes on in the other network. */
export interface Across {
  networkId: string;
  /** Vouches there for what is recorded: no id of the caller's own network leaves it. */
  agreementId: string;
  /** Only rows of this incident are seen there; null while no incident is known yet. */
  incidentId: string | null;
}

export interface AidStore {
  /** The name of the network that these stores are bound to, or null when it is suspended. */
  networkName(): Promise<string | null>;
  insertAgreement(agreement: AidAgreementRecord): Promise<void>;
  findAgreement(agreementId: string): Promise<AidAgreementRecord | null>;
  /** Locks the row until the transaction ends. */
  lockAgreement(agreementId: string): Promise<AidAgreementRecord | null>;
  saveAgreement(agreementId: string, changed: Partial<Pick<AidAgreementRecord, 'state' | 'partnerNetworkId' | 'partnerIncidentId' | 'partnerName' | 'agreedAtMs' | 'revokedAtMs'>>): Promise<void>;
  agreements(incidentId: string, limit: number, afterId: string | null): Promise<AidAgreementRecord[]>;
  insertOffer(offer: AidOfferRecord): Promise<void>;
  findOffer(offerId: string): Promise<AidOfferRecord | null>;
  /** The last offer of an item that was accepted; null when it never passed between networks. */
  lastAccepted(itemId: string): Promise<AidOfferRecord | null>;
  saveOffer(offerId: string, changed: { state: AidOfferRecord['state']; answeredAtMs: number; itemId?: string }): Promise<void>;
  offers(incidentId: string, filter: { open?: boolean }, limit: number, afterId: string | null): Promise<AidOfferRecord[]>;
  /** Answers to one thing of both networks take turns, whichever side they come from; until the transaction ends. */
  takeTurn(id: string): Promise<void>;
  /**
   * Goes on in the partner's network, in the same transaction and under the same policies, seeing only the incident of the agreement;
   * then comes back. The stores of the caller's network see nothing meanwhile. Not to be nested.
   */
  across<T>(partner: Across, work: (stores: Stores) => Promise<T>): Promise<T>;
  /** An entry in the audit of the network that these stores are bound to, for what its partner did there. */
  note(operation: string, subject: { kind: string; id: string }): Promise<void>;
}
