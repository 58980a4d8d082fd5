import type { ConfigStores, OutboxMessage, PlanRunRecord } from '#application';
import type { PlanRun, Prisma } from '../generated/prisma/client.js';
import { toMessage, toMessageOrNull } from '../stores/message-columns.js';
import { at, msOrNull } from '../stores/row.js';
import type { Transaction } from './client.js';

// Asking for plans from a change of the configuration: the same rows as `PgPlanStore` and `PgOutboxStore` write.

export class PrismaPlanStore {
  constructor(
    private readonly transaction: Transaction,
    private readonly networkId: string,
  ) {}

  async requestRun(run: PlanRunRecord): ReturnType<ConfigStores['plans']['requestRun']> {
    const { networkId } = this;
    const { count } = await this.transaction.planRun.createMany({ data: [{ networkId, incidentId: run.incidentId, id: run.id, state: 'queued', reason: run.reason.text, ...(run.reason.values && { reasonValues: run.reason.values as Prisma.InputJsonObject }), requestedAt: at(run.requestedAtMs) }], skipDuplicates: true });
    if (count === 1) return { run, created: true };
    const waiting = await this.transaction.planRun.findFirst({ where: { networkId, incidentId: run.incidentId, state: 'queued' } });
    // The waiting run may have begun between the two statements; then ours is needed after all.
    return waiting ? { run: toRun(waiting), created: false } : this.requestRun(run);
  }
}

export class PrismaOutboxStore implements Pick<ConfigStores['outbox'], 'append' | 'hasten'> {
  constructor(
    private readonly transaction: Transaction,
    private readonly networkId: string,
  ) {}

  /** Leases and delays are reckoned by the clock of the database, which the ORM has no word for. */
  async append({ id, incidentId, kind, subjectId, traceparent }: OutboxMessage, delayMs = 0): Promise<void> {
    await this.transaction.$executeRaw`
      insert into outbox (network_id, id, incident_id, kind, subject_id, traceparent, leased_until)
      values (${this.networkId}::uuid, ${id}::uuid, ${incidentId}::uuid, ${kind}, ${subjectId}::uuid, ${traceparent}, case when ${delayMs}::int > 0 then clock_timestamp() + ${delayMs}::int * interval '1 ms' end)`;
  }

  async hasten(subjectId: string, delayMs: number): Promise<void> {
    await this.transaction.$executeRaw`
      update outbox set leased_until = clock_timestamp() + ${delayMs}::int * interval '1 ms'
      where network_id = ${this.networkId}::uuid and subject_id = ${subjectId}::uuid and done_at is null and dead_at is null and tries = 0
        and leased_until > clock_timestamp() + ${delayMs}::int * interval '1 ms'`;
  }
}

function toRun(row: PlanRun): PlanRunRecord {
  return {
    id: row.id, incidentId: row.incidentId, state: row.state as PlanRunRecord['state'], reason: toMessage(row.reason, row.reasonValues), requestedAtMs: row.requestedAt.getTime(),
    startedAtMs: msOrNull(row.startedAt), finishedAtMs: msOrNull(row.finishedAt), revisionId: row.revisionId, failure: toMessageOrNull(row.failure, row.failureValues), epoch: row.epoch === null ? null : Number(row.epoch),
    rounds: row.roundsInAll === null ? null : { done: row.roundsDone ?? 0, inAll: row.roundsInAll },
  };
}
