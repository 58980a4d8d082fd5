import type { Answer, CallContext, CommandIdentity, Replayable, Stores, UnitOfWork } from '#application';
import { type CommandRecord, retried, runOnce, type Verdict } from './idempotency.js';
import type { Client, Pool } from './pool.js';
import { storesOn } from './stores/index.js';

const UUID = /^[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}$/;

/** A literal for the one statement that cannot take parameters; refuses anything but a UUID. */
function uuidLiteral(value: string): string {
  if (!UUID.test(value)) throw new Error('not a UUID');
  return `'${value}'`;
}

/** `begin` and the tenant in one round trip; the settings end with the transaction. */
function openStatement(context: CallContext, readOnly: boolean): string {
  const incident = context.incidentLimit === null ? "''" : uuidLiteral(context.incidentLimit);
  return `begin${readOnly ? ' read only' : ''}; select set_config('app.network_id', ${uuidLiteral(context.networkId)}, true), set_config('app.incident_id', ${incident}, true), set_config('app.principal_id', ${uuidLiteral(context.principalId)}, true)`;
}

/** The only way to the tenant tables for commands: one transaction bound to one network. */
export class PgUnitOfWork implements UnitOfWork {
  constructor(private readonly pool: Pool) {}

  read<T>(context: CallContext, work: (stores: Stores) => Promise<T>): Promise<T> {
    return this.transaction(context, true, (client) => work(storesOn(client, context)));
  }

  write<T>(context: CallContext, work: (stores: Stores) => Promise<T>): Promise<T> {
    return retried(() => this.transaction(context, false, (client) => work(storesOn(client, context))));
  }

  command(context: CallContext, identity: CommandIdentity, work: (stores: Stores) => Promise<Answer>): Promise<Replayable> {
    return runOnce((inside) => this.transaction(context, false, inside), commandRecord(context, identity), (client) => work(storesOn(client, context)));
  }

  private async transaction<T>(context: CallContext, readOnly: boolean, work: (client: Client) => Promise<T>): Promise<T> {
    const client = await this.pool.connect();
    let broken: Error | undefined;
    try {
      await client.query(openStatement(context, readOnly));
      const result = await work(client);
      await client.query('commit');
      return result;
    } catch (error) {
      // A connection that cannot even roll back is thrown away, never handed to the next caller.
      await client.query('rollback').catch((failure: Error) => {
        broken = failure;
      });
      throw error;
    } finally {
      client.release(broken);
    }
  }
}

const REMEMBER = `
  insert into idempotency_record (network_id, principal_id, operation, idempotency_key, fingerprint, status, body, headers)
  values ($1, $2, $3, $4, $5, $6, $7, $8)`;

function commandRecord(context: CallContext, identity: CommandIdentity): CommandRecord<Client> {
  const remembered = ({ status, body, headers }: Answer) => [
    context.networkId, context.principalId, identity.operation, identity.key, identity.fingerprint, status, JSON.stringify(body ?? null), JSON.stringify(headers),
  ];
  return {
    async begin(client) {
      const { rows } = await client.query<Verdict>({
        name: 'begin_command',
        text: 'select verdict, status, body, headers from begin_command($1, $2, $3, $4)',
        values: [context.principalId, identity.operation, identity.key, identity.fingerprint],
      });
      return rows[0];
    },
    async finish(client, answer) {
      const subject = identity.subjectOf(answer);
      await client.query({
        name: 'finish_command',
        text: `with remembered as (${REMEMBER})
               insert into audit_entry (network_id, principal_id, operation, subject_kind, subject_id, outcome, request_id)
               values ($1, $2, $3, $9, $10, 'done', $11)`,
        values: [...remembered(answer), subject.kind, subject.id, context.requestId],
      });
    },
    async refuse(client, answer) {
      await client.query({ name: 'refuse_command', text: REMEMBER, values: remembered(answer) });
    },
  };
}
