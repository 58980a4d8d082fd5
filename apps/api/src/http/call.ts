import { createParamDecorator, type ExecutionContext } from '@nestjs/common';
import type { FastifyReply, FastifyRequest } from 'fastify';
import type { CallContext } from '#application';
import type { Language } from '#care';
import { Problem, type Scope } from '#contracts';
import { languageFor } from './language.js';

const IDEMPOTENCY_KEY = /^"?([0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12})"?$/i;
/** Versions count from 1; 0 stands for what nobody has decided yet. */
const ETAG = /^"(0|[1-9][0-9]{0,8})(?:-[a-z]{2})?"$/;

/** What the guard learned about the caller; hung on the request. */
export interface Caller {
  context: CallContext;
  scopes: ReadonlySet<Scope>;
}

export type ApiRequest = FastifyRequest & { caller?: Caller; traceId: string; traceparent: string; operationId?: string };

/** One authenticated call as a controller hands it on. */
export class Call {
  constructor(
    readonly request: ApiRequest,
    readonly reply: FastifyReply,
  ) {}

  get context(): CallContext {
    if (!this.request.caller) throw new Error('a route that is not public ran without the guard');
    return this.request.caller.context;
  }

  get scopes(): ReadonlySet<Scope> {
    return this.request.caller?.scopes ?? new Set();
  }

  get operation(): string {
    return this.request.operationId ?? this.request.routeOptions.url ?? '';
  }

  /** For the sentences of the answer. */
  get language(): Language {
    return languageFor(this.request.headers);
  }

  /** The Idempotency-Key, quoted (structured field string) or bare. */
  idempotencyKey(): string {
    const header = this.request.headers['idempotency-key'];
    if (header === undefined) throw new Problem('idempotency_key_missing', 'Send an Idempotency-Key header with a fresh UUID; repeat it only to repeat this very command.');
    const match = typeof header === 'string' ? IDEMPOTENCY_KEY.exec(header) : null;
    if (!match?.[1]) throw new Problem('idempotency_key_malformed', 'Write the Idempotency-Key as a UUID, in quotes or bare.');
    return match[1].toLowerCase();
  }

  /** The version that If-Match names. Strong tags only; 428 without one. A tag that can never match is stale. */
  expectedVersion(): number {
    const header = this.request.headers['if-match'];
    if (header === undefined) throw new Problem('precondition_required', 'Read the resource first and send its ETag in If-Match, so that nobody\'s change is overwritten unseen.');
    const match = ETAG.exec(header.trim());
    return match?.[1] ? Number(match[1]) : -1;
  }
}

/** The call, as a controller parameter. */
export const CallOf = createParamDecorator((_: unknown, context: ExecutionContext): Call => {
  const http = context.switchToHttp();
  return new Call(http.getRequest<ApiRequest>(), http.getResponse<FastifyReply>());
});
