export interface HandBackRecord {
  id: string;
  incidentId: string;
  householdId: string;
  receiver: 'contact' | 'named-representative';
  identityCheck: 'document-seen' | 'known-in-person' | 'pickup-code';
  signatureRef: string;
  /** What the paper says: items, condition notes, storage advice, residual risks. No personal data. */
  receipt: unknown;
  handedBy: string;
  handedAtMs: number;
  recordedAtMs: number;
  items: { itemId: string; conditionNote: string }[];
}

export interface HandBackStore {
  insert(handBack: HandBackRecord): Promise<void>;
  find(handBackId: string): Promise<HandBackRecord | null>;
  ofHousehold(householdId: string): Promise<HandBackRecord[]>;
}
