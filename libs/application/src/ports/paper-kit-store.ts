export const SLIP_STATES = ['printed', 'keyed', 'void'] as const;
export type SlipState = (typeof SLIP_STATES)[number];
export const VOID_REASONS = ['unused', 'spoilt', 'lost'] as const;
export type VoidReason = (typeof VOID_REASONS)[number];

/** Slips that were printed for a power cut, with a tag for each. */
export interface PaperKitRecord {
  id: string;
  incidentId: string;
  siteId: string;
  tagBlockId: string;
  slips: number;
  createdAtMs: number;
  createdBy: string;
}

export interface SlipRecord {
  kitId: string;
  slipNo: number;
  tagCode: string;
  state: SlipState;
  fingerprint: string | null;
  itemId: string | null;
  voidReason: VoidReason | null;
  /** When it was written, as the slip says. */
  writtenAtMs: number | null;
  keyedAtMs: number | null;
  /** The person who keyed it. */
  keyedBy: string | null;
}

/** What was keyed from one slip. */
export interface KeyedSlip {
  slipNo: number;
  state: 'keyed' | 'void';
  fingerprint: string;
  itemId: string | null;
  voidReason: VoidReason | null;
  writtenAtMs: number | null;
  keyedAtMs: number;
  keyedBy: string;
  keyedWith: string;
}

export interface PaperKitStore {
  insert(kit: PaperKitRecord, tagCodes: readonly string[]): Promise<void>;
  find(kitId: string): Promise<PaperKitRecord | null>;
  /** As `find`, and nobody else keys its slips until the transaction ends. */
  lock(kitId: string): Promise<PaperKitRecord | null>;
  /** In the order of their numbers. */
  slips(kitId: string): Promise<SlipRecord[]>;
  key(kitId: string, slip: KeyedSlip): Promise<void>;
}
