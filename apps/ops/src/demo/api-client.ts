import { setTimeout as pause } from 'node:timers/promises';
import { newId } from '#platform';
import { PLAY } from './calibration.js';

/** A definite refusal by the API: nothing was changed. */
export class ApiRefusal extends Error {
  constructor(
    readonly operation: string,
    readonly status: number,
    readonly code: string,
    readonly detail: string,
    readonly members: Readonly<Record<string, unknown>>,
  ) {
    super(`${operation}: ${status} ${code}: ${detail}`);
    this.name = 'ApiRefusal';
  }
}

/** An answer of 2xx. */
export interface ApiAnswer<T> {
  status: number;
  body: T;
  /** The answer was stored before: an earlier sending of this very command had come through. */
  replayed: boolean;
}

/** What the client has been through; shown at the end. */
export interface Traffic {
  requests: number;
  /** Sent again because no definite answer came: connection lost, 503, 429, or still running. */
  sentAgain: number;
  /** Answers that were stored by a sending whose answer was lost. */
  replayed: number;
}

interface Sending {
  method: 'GET' | 'POST' | 'PATCH';
  path: string;
  body?: string | Uint8Array<ArrayBuffer>;
  headers: Record<string, string>;
}

const FIRST_PAUSE_MS = 40;
const LONGEST_PAUSE_MS = 1_000;
/** Then the sending counts as lost; the same command is sent again. */
const ANSWER_WITHIN_MS = 60_000;

/**
 * The public API as a careful partner calls it: each command has one Idempotency-Key for good, and is sent again under it until
 * a definite answer comes, so that a killed process neither loses nor doubles a command. Several API processes take turns.
 */
export class ApiClient {
  private turn = 0;

  constructor(
    private readonly urls: readonly string[],
    private readonly key: string,
    readonly traffic: Traffic,
  ) {}

  async get<T>(path: string): Promise<T> {
    return (await this.persist<T>({ method: 'GET', path, headers: {} })).body;
  }

  /** All pages of a list. */
  async list<T>(path: string): Promise<T[]> {
    const all: T[] = [];
    for (let cursor: string | null = ''; cursor !== null; ) {
      const joined: string = `${path}${path.includes('?') ? '&' : '?'}limit=200${cursor === '' ? '' : `&cursor=${encodeURIComponent(cursor)}`}`;
      const page: { items: T[]; nextCursor: string | null } = await this.get(joined);
      all.push(...page.items);
      cursor = page.nextCursor;
    }
    return all;
  }

  /** `version` for a command on something that must still be as it was read. */
  post<T>(path: string, body: object, version?: number): Promise<ApiAnswer<T>> {
    return this.command({ method: 'POST', path, body: JSON.stringify(body), headers: { 'content-type': 'application/json', ...(version === undefined ? {} : { 'if-match': `"${version}"` }) } });
  }

  /** A change of something that was read at `version`. */
  patch<T>(path: string, version: number, body: object): Promise<ApiAnswer<T>> {
    return this.command({ method: 'PATCH', path, body: JSON.stringify(body), headers: { 'content-type': 'application/merge-patch+json', 'if-match': `"${version}"` } });
  }

  /** A file as it is. */
  upload<T>(path: string, mediaType: string, content: Buffer): Promise<ApiAnswer<T>> {
    return this.command({ method: 'POST', path, body: new Uint8Array(content), headers: { 'content-type': mediaType } });
  }

  private command<T>(sending: Sending): Promise<ApiAnswer<T>> {
    return this.persist<T>({ ...sending, headers: { ...sending.headers, 'idempotency-key': `"${newId()}"` } });
  }

  /** Sends until the answer is definite. @throws ApiRefusal, or Error when nothing definite came in all the time */
  private async persist<T>(sending: Sending): Promise<ApiAnswer<T>> {
    const giveUpAtMs = Date.now() + PLAY.persistS * 1_000;
    for (let pauseMs = FIRST_PAUSE_MS; ; pauseMs = Math.min(pauseMs * 2, LONGEST_PAUSE_MS)) {
      const outcome = await this.sendOnce<T>(sending);
      if ('status' in outcome) return outcome;
      if (Date.now() > giveUpAtMs) throw new Error(`${sending.method} ${sending.path}: no definite answer in ${PLAY.persistS} s (${outcome.why})`);
      this.traffic.sentAgain += 1;
      await pause(outcome.afterMs ?? pauseMs);
    }
  }

  private async sendOnce<T>(sending: Sending): Promise<ApiAnswer<T> | { why: string; afterMs?: number }> {
    const url = this.urls[(this.turn += 1) % this.urls.length] ?? '';
    this.traffic.requests += 1;
    let status: number;
    let text: string;
    let headers: Headers;
    try {
      const response = await fetch(url + sending.path, {
        method: sending.method,
        headers: { authorization: `Bearer ${this.key}`, ...sending.headers },
        signal: AbortSignal.timeout(ANSWER_WITHIN_MS),
        ...(sending.body === undefined ? {} : { body: sending.body }),
      });
      ({ status, headers } = response);
      text = await response.text();
    } catch (error) {
      return { why: error instanceof Error ? `${error.message}: ${String(error.cause ?? '')}` : String(error) };
    }
    if (status >= 200 && status < 300) {
      const replayed = headers.get('idempotency-replayed') === 'true';
      if (replayed) this.traffic.replayed += 1;
      return { status, replayed, body: (headers.get('content-type')?.includes('json') ? JSON.parse(text) : text) as T };
    }
    return judge(sending, status, text, headers);
  }
}

/** Not definite: too busy, starting, or the first sending of the same command still at work. */
function judge(sending: Sending, status: number, text: string, headers: Headers): { why: string; afterMs?: number } {
  const problem = parseProblem(text);
  if (status === 503 || status === 429 || status === 502 || status === 504 || problem.code === 'command_running') {
    const retryAfterS = Number(headers.get('retry-after'));
    return { why: `${status} ${problem.code}`, ...(retryAfterS > 0 && status === 429 ? { afterMs: retryAfterS * 1_000 } : {}) };
  }
  throw new ApiRefusal(`${sending.method} ${sending.path}`, status, problem.code, `${problem.detail}${problem.errors === undefined ? '' : ` ${JSON.stringify(problem.errors).slice(0, 500)}`}`, problem);
}

function parseProblem(text: string): { code: string; detail: string; errors?: unknown } & Record<string, unknown> {
  try {
    return { code: 'none', detail: '', ...(JSON.parse(text) as Record<string, unknown>) };
  } catch {
    return { code: 'none', detail: text.slice(0, 300) };
  }
}

/** Works through a list with a bounded number at once; the first failure ends it when those under way have ended. */
export async function eachOf<T>(list: readonly T[], parallel: number, work: (entry: T, index: number) => Promise<void>): Promise<void> {
  let next = 0;
  let failure: unknown = null;
  const worker = async () => {
    while (next < list.length && failure === null) {
      const index = next;
      next += 1;
      try {
        await work(list[index]!, index);
      } catch (error) {
        failure ??= error;
      }
    }
  };
  await Promise.all(Array.from({ length: Math.min(parallel, list.length) }, worker));
  if (failure !== null) throw failure;
}
