import type { Answer, Replayable } from '#application';
import { Problem } from '#contracts';

const RETRIES = 3;
/**
 * Serialisation failure and deadlock, and a unique key that somebody took between our look and our insert: the whole
 * command may run again, because it has changed nothing, and then it sees what is there.
 */
const TRANSIENT = new Set(['40001', '40P01', '23505']);
/** Refusals that are an answer to this very command; others (401, 403, 429, 5xx) are not about it. */
const STORED = new Set([404, 409, 412, 422]);
const NOT_ABOUT_IT = new Set<string>(['command_running', 'idempotency_key_reused']);

/** What the SQL function `begin_command` says about a key. */
export interface Verdict {
  verdict: 'new' | 'running' | 'mismatch' | 'replay';
  status: number | null;
  body: unknown;
  headers: Record<string, string> | null;
}

/** The record of one command, as a unit of work reads and writes it inside a transaction of its own kind. */
export interface CommandRecord<T> {
  begin(transaction: T): Promise<Verdict | undefined>;
  /** Stores the answer of a finished command, and that it took place: one entry of the audit. */
  finish(transaction: T, answer: Answer): Promise<void>;
  /** Stores a refusal. Nothing took place, so the audit has no entry of it. */
  refuse(transaction: T, answer: Answer): Promise<void>;
}

type Transact<T> = <R>(work: (transaction: T) => Promise<R>) => Promise<R>;

interface StoredProblem {
  problem: { code: Problem['code']; detail: string; extras: Problem['extras'] };
}

/** Does a command once for its key: replays the stored answer or refusal, else works and stores, in one transaction. */
export async function runOnce<T>(transact: Transact<T>, record: CommandRecord<T>, work: (transaction: T) => Promise<Answer>): Promise<Replayable> {
  try {
    return await retried(() =>
      transact(async (transaction) => {
        const earlier = replayOf(await record.begin(transaction));
        if (earlier) return earlier;
        const answer = await work(transaction);
        await record.finish(transaction, answer);
        return { ...answer, replayed: false };
      }),
    );
  } catch (error) {
    if (error instanceof Problem && isKept(error)) return refuse(transact, record, error);
    throw error;
  }
}

/** Runs again what the database asks to run again, a few times with a random pause. */
export async function retried<T>(attempt: () => Promise<T>): Promise<T> {
  for (let tries = 1; ; tries += 1) {
    try {
      return await attempt();
    } catch (error) {
      if (tries >= RETRIES || !TRANSIENT.has(sqlState(error))) throw error;
      await new Promise((resume) => setTimeout(resume, 5 + Math.random() * 20 * tries));
    }
  }
}

function sqlState(error: unknown): string {
  return typeof error === 'object' && error !== null && 'code' in error && typeof error.code === 'string' ? error.code : '';
}

function isKept(problem: Problem): boolean {
  return STORED.has(problem.status) && !NOT_ABOUT_IT.has(problem.code) && !problem.extras.replayed;
}

/**
 * Stores a refusal after its transaction was rolled back, and only then says it. Meanwhile another sending of the same command may have found other
 * things and been carried out: then its answer is the answer. While one is still at it, nothing is decided, and a refusal that cannot be stored is none.
 * @throws Problem the refusal, or that the command is still running
 */
async function refuse<T>(transact: Transact<T>, record: CommandRecord<T>, problem: Problem): Promise<Replayable> {
  const body: StoredProblem = { problem: { code: problem.code, detail: problem.detail, extras: problem.extras } };
  const earlier = await retried(() =>
    transact(async (transaction) => {
      const found = replayOf(await record.begin(transaction));
      if (found === null) await record.refuse(transaction, { status: problem.status, body, headers: {} });
      return found;
    }),
  );
  if (earlier !== null) return earlier;
  throw problem;
}

/** The stored answer, null for a new command; throws the stored refusal, or why the key cannot be used now. */
function replayOf(row: Verdict | undefined): Replayable | null {
  if (!row || row.verdict === 'new') return null;
  if (row.verdict === 'running') throw new Problem('command_running', 'A request with this Idempotency-Key is still running. Wait a moment and send it again.', { retryAfterS: 1 });
  if (row.verdict === 'mismatch') throw new Problem('idempotency_key_reused', 'This Idempotency-Key came before with other content. Use a new key for a new command.');
  const status = row.status ?? 500;
  if (status >= 400) {
    const { problem } = row.body as StoredProblem;
    throw new Problem(problem.code, problem.detail, { ...problem.extras, replayed: true });
  }
  return { status, body: row.body, headers: row.headers ?? {}, replayed: true };
}
