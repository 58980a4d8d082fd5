import type { IfNoneAnswers, OwnerAnswer, OwnerQuestionRecord, OwnerQuestionStore, QuestionKind, QuestionState } from '#application';
import type { Client } from '../pool.js';
import { at, msOrNull } from './row.js';

interface QuestionRow {
  id: string;
  incident_id: string;
  household_id: string;
  item_id: string;
  kind: QuestionKind;
  asked_by: 'service' | 'person';
  asker_id: string;
  own_words: Buffer | null;
  answers: OwnerAnswer[];
  amount_minor: string | null;
  amount_currency: string | null;
  if_none: IfNoneAnswers;
  asked_at: Date;
  deadline_at: Date;
  told_at: Date | null;
  reminded_at: Date | null;
  state: QuestionState;
  ended_at: Date | null;
  answer: OwnerAnswer | null;
  answered_by: 'link' | 'person' | null;
  answerer_id: string | null;
  consent_id: string | null;
  late_answer: OwnerAnswer | null;
  late_answered_at: Date | null;
  version: number;
}

function toRecord(row: QuestionRow): OwnerQuestionRecord {
  return {
    id: row.id, incidentId: row.incident_id, householdId: row.household_id, itemId: row.item_id, kind: row.kind, askedBy: row.asked_by, askerId: row.asker_id, ownWords: row.own_words, answers: row.answers,
    amount: row.amount_minor === null || row.amount_currency === null ? null : { minor: Number(row.amount_minor), currency: row.amount_currency },
    ifNone: row.if_none, askedAtMs: row.asked_at.getTime(), deadlineAtMs: row.deadline_at.getTime(), toldAtMs: msOrNull(row.told_at), remindedAtMs: msOrNull(row.reminded_at),
    state: row.state, endedAtMs: msOrNull(row.ended_at), answer: row.answer, answeredBy: row.answered_by, answererId: row.answerer_id, consentId: row.consent_id,
    lateAnswer: row.late_answer, lateAnsweredAtMs: msOrNull(row.late_answered_at), version: row.version,
  };
}

export class PgOwnerQuestionStore implements OwnerQuestionStore {
  constructor(
    private readonly client: Client,
    private readonly networkId: string,
  ) {}

  async insert(question: OwnerQuestionRecord): Promise<boolean> {
    const { rowCount } = await this.client.query({
      name: 'owner_question_insert',
      text: `insert into owner_question (network_id, incident_id, id, household_id, item_id, kind, asked_by, asker_id, own_words, answers, amount_minor, amount_currency, if_none, asked_at, deadline_at, state)
             values ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11, $12, $13, $14, $15, 'open')
             on conflict (network_id, item_id, kind) where state = 'open' and kind <> 'other' do nothing`,
      values: [
        this.networkId, question.incidentId, question.id, question.householdId, question.itemId, question.kind, question.askedBy, question.askerId, question.ownWords, question.answers,
        question.amount?.minor ?? null, question.amount?.currency ?? null, question.ifNone, at(question.askedAtMs), at(question.deadlineAtMs),
      ],
    });
    return rowCount === 1;
  }

  async find(questionId: string): Promise<OwnerQuestionRecord | null> {
    const { rows } = await this.client.query<QuestionRow>('select * from owner_question where network_id = $1 and id = $2', [this.networkId, questionId]);
    return rows[0] ? toRecord(rows[0]) : null;
  }

  async lock(questionId: string): Promise<OwnerQuestionRecord | null> {
    const { rows } = await this.client.query<QuestionRow>('select * from owner_question where network_id = $1 and id = $2 for no key update', [this.networkId, questionId]);
    return rows[0] ? toRecord(rows[0]) : null;
  }

  async ofHousehold(householdId: string): Promise<OwnerQuestionRecord[]> {
    const { rows } = await this.client.query<QuestionRow>({ name: 'owner_questions_of', text: 'select * from owner_question where network_id = $1 and household_id = $2 order by id', values: [this.networkId, householdId] });
    return rows.map(toRecord);
  }

  async page(incidentId: string, state: QuestionState | null, limit: number, afterId: string | null): Promise<OwnerQuestionRecord[]> {
    const { rows } = await this.client.query<QuestionRow>(
      'select * from owner_question where network_id = $1 and incident_id = $2 and ($3::text is null or state = $3) and ($5::uuid is null or id > $5) order by id limit $4',
      [this.networkId, incidentId, state, limit, afterId],
    );
    return rows.map(toRecord);
  }

  async save(question: OwnerQuestionRecord): Promise<void> {
    await this.client.query({
      name: 'owner_question_save',
      text: `update owner_question set told_at = $3, reminded_at = $4, state = $5, ended_at = $6, answer = $7, answered_by = $8, answerer_id = $9, consent_id = $10,
               late_answer = $11, late_answered_at = $12, version = version + 1 where network_id = $1 and id = $2`,
      values: [
        this.networkId, question.id, at(question.toldAtMs), at(question.remindedAtMs), question.state, at(question.endedAtMs), question.answer, question.answeredBy, question.answererId,
        question.consentId, question.lateAnswer, at(question.lateAnsweredAtMs),
      ],
    });
  }
}
