import { type Answer, type CallContext, type CommandIdentity, type PersonalStore, personalField } from '#application';
import type { CommandRecord, Verdict } from './idempotency.js';
import type { Client } from './pool.js';

/** Who seals and opens the answers: on a client of its own, and the one that the command itself worked with. */
export interface Sealers {
  of(client: Client): PersonalStore;
  inWork(): PersonalStore | null;
}

type SealedVerdict = Verdict & { body_sealed: Uint8Array | null; household_ids: string[] | null };

const REMEMBER = `
  insert into idempotency_record (network_id, principal_id, operation, idempotency_key, fingerprint, status, body, headers, body_sealed, household_ids)
  values ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10::uuid[])`;

/** What is answered to the repetition of a command about a household that was erased. */
export const ERASED_ANSWER = { status: 409, body: { problem: { code: 'household_erased', detail: 'What was known of this household has been erased, and with it the answer to this command.', extras: {} } } } as const;

/** The field under which the answer of a command is sealed. */
export const answerField = (principalId: string, operation: string, key: string): string => personalField('idempotency_record.body', `${principalId}:${operation}:${key}`);

/** Whose key seals an answer about these; null for that of the network. */
export const sealerOf = (households: readonly string[]): string | null => (households.length === 1 ? (households[0] ?? null) : null);

/**
 * The record of a command. An answer that was made with words of households is sealed, as they are: for the household, or for the network when there were
 * several; it says which, so that an erasure finds it.
 */
export function commandRecord(context: CallContext, identity: CommandIdentity, sealers: Sealers): CommandRecord<Client> {
  const { principalId, networkId } = context;
  const field = answerField(principalId, identity.operation, identity.key);
  const remembered = async ({ status, body, headers }: Answer, personal: PersonalStore | null) => {
    const households = personal?.touched() ?? [];
    const text = JSON.stringify(body ?? null);
    const sealed = personal === null || households.length === 0 ? null : await personal.seal(sealerOf(households), field, text);
    return [networkId, principalId, identity.operation, identity.key, identity.fingerprint, status, sealed === null ? text : null, JSON.stringify(headers), sealed, households];
  };
  return {
    async begin(client) {
      const { rows } = await client.query<SealedVerdict>({
        name: 'begin_command',
        text: 'select verdict, status, body, headers, body_sealed, household_ids from begin_command($1, $2, $3, $4)',
        values: [principalId, identity.operation, identity.key, identity.fingerprint],
      });
      const [row] = rows;
      if (!row || row.body_sealed === null) return row;
      const text = await sealers.of(client).open(sealerOf(row.household_ids ?? []), field, row.body_sealed);
      return text === null ? { ...row, ...ERASED_ANSWER } : { ...row, body: JSON.parse(text) as unknown };
    },
    async finish(client, answer) {
      const subject = identity.subjectOf(answer);
      await client.query({
        name: 'finish_command',
        text: `with remembered as (${REMEMBER})
               insert into audit_entry (network_id, principal_id, operation, subject_kind, subject_id, outcome, request_id)
               values ($1, $2, $3, $11, $12, 'done', $13)`,
        values: [...(await remembered(answer, sealers.inWork())), subject.kind, subject.id, context.requestId],
      });
    },
    async refuse(client, answer) {
      await client.query({ name: 'refuse_command', text: REMEMBER, values: await remembered(answer, null) });
    },
  };
}
