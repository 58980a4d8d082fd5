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
  /** Who stood at the counter; null where nobody was noted. */
  personId: string | null;
  appointmentId: string | null;
  /** What the receiver had to say against it, and the lines of the pen; sealed for the household. */
  reservationsSealed: Uint8Array | null;
  signatureSealed: Uint8Array | null;
  /** The one-time code of the appointment was given. */
  codeUsed: boolean;
}

export interface HandBackStore {
  insert(handBack: HandBackRecord): Promise<void>;
  find(handBackId: string): Promise<HandBackRecord | null>;
  ofHousehold(householdId: string): Promise<HandBackRecord[]>;
}
