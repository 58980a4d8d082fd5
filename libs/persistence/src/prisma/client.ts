import { PrismaPg } from '@prisma/adapter-pg';
import type { CallContext } from '#application';
import { Prisma, PrismaClient } from '../generated/prisma/client.js';
import type { Pool } from '../pool.js';

export type Transaction = Prisma.TransactionClient;

/** Waits for a connection a little longer than the pool does, so that the pool's own sentence is the one that is told. */
const MAX_WAIT_MS = 4_000;
/** Longer than the statement timeout of the pool: one slow statement fails as itself. */
const TIMEOUT_MS = 20_000;

/** A failure of the database as the rest of the program knows it: `code` is the SQLSTATE, nothing of the ORM leaves here. */
export class ConfigDatabaseError extends Error {
  constructor(
    readonly code: string,
    message: string,
  ) {
    super(message);
    this.name = 'ConfigDatabaseError';
  }
}

/** The ORM on a pool of ours; closing it leaves the pool open. */
export function createClient(pool: Pool): PrismaClient {
  return new PrismaClient({ adapter: new PrismaPg(pool) });
}

/** One transaction bound to one network; the settings end with it. A read sees one moment and cannot write. */
export async function inNetwork<T>(client: PrismaClient, context: CallContext, readOnly: boolean, work: (transaction: Transaction) => Promise<T>): Promise<T> {
  const isolationLevel = readOnly ? Prisma.TransactionIsolationLevel.RepeatableRead : Prisma.TransactionIsolationLevel.ReadCommitted;
  try {
    return await client.$transaction(
      async (transaction) => {
        await transaction.$queryRaw`
          select set_config('app.network_id', ${context.networkId}, true) as network,
                 set_config('app.incident_id', ${context.incidentLimit ?? ''}, true) as incident,
                 set_config('app.principal_id', ${context.principalId}, true) as principal,
                 set_config('transaction_read_only', ${readOnly ? 'on' : 'off'}, true) as read_only`;
        return await work(transaction);
      },
      { maxWait: MAX_WAIT_MS, timeout: TIMEOUT_MS, isolationLevel },
    );
  } catch (error) {
    throw translated(error);
  }
}

/** Codes of the ORM that mean the database is away or has no connection to give; 08006 is "connection failure". */
const AWAY = new Set(['P1001', 'P1002', 'P1008', 'P1017', 'P2024', 'P2028']);

function translated(error: unknown): unknown {
  if (error instanceof Prisma.PrismaClientKnownRequestError) {
    const state = originalState(error.meta) ?? (AWAY.has(error.code) ? '08006' : error.code);
    return new ConfigDatabaseError(state, lastLine(error.message));
  }
  if (error instanceof Prisma.PrismaClientInitializationError) return new ConfigDatabaseError('08006', lastLine(error.message));
  if (error instanceof Prisma.PrismaClientUnknownRequestError || error instanceof Prisma.PrismaClientRustPanicError || error instanceof Prisma.PrismaClientValidationError) {
    return new ConfigDatabaseError('XX000', lastLine(error.message));
  }
  // What `pg` says when the connection is lost between two statements.
  if (error instanceof Error && /connection error|connection terminated/i.test(error.message)) return new ConfigDatabaseError('08006', error.message);
  return error;
}

/** The SQLSTATE that the adapter put below the ORM's own code. */
function originalState(meta: Record<string, unknown> | undefined): string | null {
  const cause = (meta?.['driverAdapterError'] as { cause?: { originalCode?: unknown } } | undefined)?.cause;
  return typeof cause?.originalCode === 'string' ? cause.originalCode : null;
}

/** The ORM prints the call above its sentence; values of the call stay out of the log. */
function lastLine(message: string): string {
  return message.trim().split('\n').at(-1) ?? '';
}
