import type { Message, StepKind } from '#care';

export const FAMILY_MATTER_KINDS = ['consent-withdrawn', 'question-expired', 'answer-late', 'call-asked', 'message-unclear', 'message-given-up', 'address-not-reached', 'partner-word', 'partner-not-told'] as const;
export type FamilyMatterKind = (typeof FAMILY_MATTER_KINDS)[number];

/** Something about a family that a person must see to. */
export interface FamilyMatterRecord {
  id: string;
  incidentId: string;
  householdId: string;
  kind: FamilyMatterKind;
  itemId: string | null;
  questionId: string | null;
  messageId: string | null;
  consentId: string | null;
  /** The step that was under way when the owner withdrew. */
  step: StepKind | null;
  advice: Message;
  openedAtMs: number;
  settledAtMs: number | null;
  settledBy: string | null;
  /** Sealed. */
  settlement: Uint8Array | null;
}

export interface FamilyMatterStore {
  insert(matter: FamilyMatterRecord): Promise<void>;
  lock(matterId: string): Promise<FamilyMatterRecord | null>;
  /** Open matters first by age; `settled` asks for the others. */
  page(incidentId: string, settled: boolean, limit: number, afterId: string | null): Promise<FamilyMatterRecord[]>;
  /** The open withdrawal about an item whose step was under way, if there is one. */
  stopOf(itemId: string): Promise<FamilyMatterRecord | null>;
  settle(matter: FamilyMatterRecord): Promise<void>;
}
