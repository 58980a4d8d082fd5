import type { Answer, CallContext, CommandIdentity, ConfigStores, ConfigWork, Replayable } from '#application';
import type { PrismaClient } from '../generated/prisma/client.js';
import { type CommandRecord, retried, runOnce, type Verdict } from '../idempotency.js';
import type { Pool } from '../pool.js';
import { createClient, inNetwork, type Transaction } from './client.js';
import { PrismaApiKeyStore } from './prisma-api-key-store.js';
import { PrismaCalibration } from './prisma-calibration.js';
import { PrismaLayoutStore } from './prisma-layout-store.js';
import { PrismaOutboxStore, PrismaPlanStore } from './prisma-plan-requests.js';

/** The unit of work of the configuration: one transaction bound to one network, on the ORM. */
export class PrismaConfigWork implements ConfigWork {
  private readonly client: PrismaClient;

  constructor(pool: Pool) {
    this.client = createClient(pool);
  }

  read<T>(context: CallContext, work: (stores: ConfigStores) => Promise<T>): Promise<T> {
    return retried(() => inNetwork(this.client, context, true, (transaction) => work(storesOn(transaction, context))));
  }

  command(context: CallContext, identity: CommandIdentity, work: (stores: ConfigStores) => Promise<Answer>): Promise<Replayable> {
    return runOnce((inside) => inNetwork(this.client, context, false, inside), commandRecord(context, identity), (transaction) => work(storesOn(transaction, context)));
  }

  /** Gives the ORM's own resources back; the pool is the caller's. */
  async close(): Promise<void> {
    await this.client.$disconnect();
  }
}

function storesOn(transaction: Transaction, context: CallContext): ConfigStores {
  return {
    layout: new PrismaLayoutStore(transaction, context.networkId),
    keys: new PrismaApiKeyStore(transaction, context.networkId, context.incidentLimit),
    plans: new PrismaPlanStore(transaction, context.networkId),
    outbox: new PrismaOutboxStore(transaction, context.networkId),
    calibration: new PrismaCalibration(transaction, context.networkId),
  };
}

function commandRecord(context: CallContext, identity: CommandIdentity): CommandRecord<Transaction> {
  return {
    async begin(transaction) {
      const rows = await transaction.$queryRaw<Verdict[]>`
        select verdict, status, body, headers
        from begin_command(${context.principalId}::uuid, ${identity.operation}, ${identity.key}::uuid, ${identity.fingerprint})`;
      return rows[0];
    },
    async finish(transaction, answer) {
      const subject = identity.subjectOf(answer);
      await this.refuse(transaction, answer);
      await transaction.$executeRaw`
        insert into audit_entry (network_id, principal_id, operation, subject_kind, subject_id, outcome, request_id)
        values (${context.networkId}::uuid, ${context.principalId}::uuid, ${identity.operation}, ${subject.kind}, ${subject.id}::uuid, 'done', ${context.requestId})`;
    },
    async refuse(transaction, answer) {
      await transaction.$executeRaw`
        insert into idempotency_record (network_id, principal_id, operation, idempotency_key, fingerprint, status, body, headers)
        values (${context.networkId}::uuid, ${context.principalId}::uuid, ${identity.operation}, ${identity.key}::uuid, ${identity.fingerprint},
                ${answer.status}, ${JSON.stringify(answer.body ?? null)}::jsonb, ${JSON.stringify(answer.headers)}::jsonb)`;
    },
  };
}
