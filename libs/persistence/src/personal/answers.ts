/** Answers that are kept for whoever repeats a command: what they say of a household goes with it, and the repetition is told that it was erased. */
import { ERASED_ANSWER } from '../command-record.js';
import type { Client } from '../pool.js';

const PAGE = 500;
/** Ids in a text. */
export const UUID = /[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}/g;

const BLANK_ANSWER = `update idempotency_record set fingerprint = 'erased', status = $2, body = $3, body_sealed = null, headers = '{}', household_ids = '{}' where network_id = $1 and`;
const blankAnswer = (client: Client, networkId: string, where: string, values: unknown[]) => client.query(`${BLANK_ANSWER} ${where}`, [networkId, ERASED_ANSWER.status, JSON.stringify(ERASED_ANSWER.body), ...values]);

/** Answers that were sealed for the household, or for the network with words of it. */
export async function blankSealedAnswers(client: Client, networkId: string, householdId: string): Promise<void> {
  await blankAnswer(client, networkId, 'household_ids && array[$4::uuid]', [householdId]);
}

/** Answers of the hand-backs of a household: they repeat the signature. */
export async function blankHandBackAnswers(client: Client, networkId: string, householdId: string): Promise<void> {
  await blankAnswer(client, networkId, `operation = 'handBack' and body ->> 'id' in (select id::text from hand_back where network_id = $1 and household_id = $4)`, [householdId]);
}

/** Answers in the clear in which one of the ids stands. */
export async function blankAnswersNaming(client: Client, networkId: string, ids: readonly string[]): Promise<void> {
  if (ids.length === 0) return;
  const sought = new Set(ids);
  // Insensitive: what is blanked meanwhile does not move the others.
  await client.query('declare answers insensitive no scroll cursor for select principal_id, operation, idempotency_key, body::text || headers::text as text from idempotency_record where network_id = $1 and body is not null', [networkId]);
  for (;;) {
    const { rows } = await client.query<{ principal_id: string; operation: string; idempotency_key: string; text: string }>(`fetch ${PAGE} from answers`);
    for (const { principal_id: principal, operation, idempotency_key: key, text } of rows) {
      if ((text.match(UUID) ?? []).some((id) => sought.has(id))) await blankAnswer(client, networkId, 'principal_id = $4 and operation = $5 and idempotency_key = $6', [principal, operation, key]);
    }
    if (rows.length < PAGE) break;
  }
  await client.query('close answers');
}
