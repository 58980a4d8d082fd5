import type { Answer, CallContext, CommandIdentity, Replayable, Stores, UnitOfWork } from '#application';
import type { MasterKeys } from '#platform';
import { retried, runOnce } from './idempotency.js';
import type { Client, Pool } from './pool.js';
import { commandRecord } from './command-record.js';
import { PgPersonalStore } from './stores/pg-personal-store.js';
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
  /** @param masters open and seal personal data; without them whatever needs it fails. */
  constructor(
    private readonly pool: Pool,
    private readonly masters: MasterKeys | null = null,
  ) {}

  read<T>(context: CallContext, work: (stores: Stores) => Promise<T>): Promise<T> {
    return this.transaction(context, true, (client) => work(storesOn(client, context, this.masters)));
  }

  write<T>(context: CallContext, work: (stores: Stores) => Promise<T>): Promise<T> {
    return retried(() => this.transaction(context, false, (client) => work(storesOn(client, context, this.masters))));
  }

  command(context: CallContext, identity: CommandIdentity, work: (stores: Stores) => Promise<Answer>): Promise<Replayable> {
    let stores: Stores | null = null;
    const record = commandRecord(context, identity, { of: (client) => new PgPersonalStore(client, context.networkId, this.masters), inWork: () => stores?.personal ?? null });
    return runOnce((inside) => this.transaction(context, false, inside), record, (client) => work((stores = storesOn(client, context, this.masters))));
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
