import type { ConsentScope } from './consent-store.js';

export const QUESTION_KINDS = ['treat', 'freeze', 'refer', 'release', 'photograph', 'other'] as const satisfies readonly (ConsentScope | 'other')[];
export type QuestionKind = (typeof QUESTION_KINDS)[number];
export const OWNER_ANSWERS = ['yes', 'no', 'call-me'] as const;
export type OwnerAnswer = (typeof OWNER_ANSWERS)[number];
export const QUESTION_STATES = ['open', 'answered', 'expired', 'withdrawn'] as const;
export type QuestionState = (typeof QUESTION_STATES)[number];
/** What happens when nobody answers; never a way to let anything go. */
export const IF_NONE_ANSWERS = ['hold', 'general-word'] as const;
export type IfNoneAnswers = (typeof IF_NONE_ANSWERS)[number];

/** An amount in the smallest unit of its currency (ISO 4217). */
export interface Money {
  minor: number;
  currency: string;
}

export interface OwnerQuestionRecord {
  id: string;
  incidentId: string;
  householdId: string;
  itemId: string;
  kind: QuestionKind;
  askedBy: 'service' | 'person';
  askerId: string;
  /** What the asker added in both languages, sealed JSON. */
  ownWords: Uint8Array | null;
  answers: OwnerAnswer[];
  amount: Money | null;
  ifNone: IfNoneAnswers;
  askedAtMs: number;
  deadlineAtMs: number;
  toldAtMs: number | null;
  remindedAtMs: number | null;
  state: QuestionState;
  endedAtMs: number | null;
  answer: OwnerAnswer | null;
  answeredBy: 'link' | 'person' | null;
  answererId: string | null;
  consentId: string | null;
  lateAnswer: OwnerAnswer | null;
  lateAnsweredAtMs: number | null;
  version: number;
}

export interface OwnerQuestionStore {
  /** False when the same is open already; then nothing was written. */
  insert(question: OwnerQuestionRecord): Promise<boolean>;
  find(questionId: string): Promise<OwnerQuestionRecord | null>;
  lock(questionId: string): Promise<OwnerQuestionRecord | null>;
  ofHousehold(householdId: string): Promise<OwnerQuestionRecord[]>;
  page(incidentId: string, state: QuestionState | null, limit: number, afterId: string | null): Promise<OwnerQuestionRecord[]>;
  /** Saves how it stands and raises the version. */
  save(question: OwnerQuestionRecord): Promise<void>;
}
