import { type ArgumentsHost, Catch, type ExceptionFilter, HttpException, Inject } from '@nestjs/common';
import type { FastifyReply } from 'fastify';
import { renderWithin } from '#care';
import { Problem, PROBLEMS, type ProblemCode } from '#contracts';
import type { Logger } from '#platform';
import type { ApiRequest } from './call.js';
import { languageFor } from './language.js';
import { LOGGER } from './tokens.js';

/** Errors of Fastify and Nest that are the caller's, by their code or status. */
const BY_CODE: Record<string, [ProblemCode, string]> = {
  FST_ERR_CTP_INVALID_JSON_BODY: ['body_malformed', 'The body is not valid JSON. Check commas, quotes and brackets.'],
  FST_ERR_CTP_EMPTY_JSON_BODY: ['body_malformed', 'The body is empty although its media type says JSON.'],
  FST_ERR_CTP_INVALID_MEDIA_TYPE: ['media_type_unsupported', 'Send the media type that the documentation names for this route, usually application/json.'],
  FST_ERR_CTP_BODY_TOO_LARGE: ['body_too_large', 'Send less at once: many items belong into a bulk file.'],
  FST_ERR_CTP_INVALID_CONTENT_LENGTH: ['body_malformed', 'The body does not have the announced length.'],
};
const BY_STATUS: Record<number, [ProblemCode, string]> = {
  400: ['body_malformed', 'The request could not be read. Check that it is well-formed JSON.'],
  404: ['route_not_found', 'Check the address against /openapi.json.'],
  405: ['method_not_allowed', 'Check the method against /openapi.json.'],
  413: ['body_too_large', 'Send less at once: many items belong into a bulk file.'],
  415: ['media_type_unsupported', 'Send the media type that the documentation names for this route.'],
};
/** SQLSTATE and network codes that mean the database is away or overloaded, not that something is wrong. */
const AWAY = new Set(['ECONNREFUSED', 'ECONNRESET', 'EPIPE', 'ETIMEDOUT', '57P01', '57P02', '57P03', '53300', '55P03', '57014', '08006', '08003', '08001', '40001', '40P01']);

/** The one place where anything thrown becomes a problem document (RFC 9457). Unknown errors are 500 with nothing inside. */
@Catch()
export class ProblemFilter implements ExceptionFilter {
  constructor(@Inject(LOGGER) private readonly logger: Logger) {}

  catch(error: unknown, host: ArgumentsHost): void {
    const http = host.switchToHttp();
    this.reply(error, http.getRequest<ApiRequest>(), http.getResponse<FastifyReply>());
  }

  /** Also used by Fastify's own error handler, for what fails before Nest. */
  reply(error: unknown, request: ApiRequest, reply: FastifyReply): void {
    const problem = toProblem(error);
    if (problem.status >= 500) this.logger.error({ requestId: request.id, operation: request.operationId, err: error instanceof Error ? { name: error.name, message: error.message, stack: error.stack } : String(error) }, 'request failed');
    if (problem.status === 401) reply.header('www-authenticate', 'Bearer realm="wrackline"');
    if (problem.extras.retryAfterS !== undefined) reply.header('retry-after', String(problem.extras.retryAfterS));
    if (problem.extras.replayed) reply.header('idempotency-replayed', 'true');
    reply.status(problem.status).header('content-type', 'application/problem+json; charset=utf-8').header('cache-control', 'no-store').send(JSON.stringify(document(problem, request)));
  }
}

function document(problem: Problem, request: ApiRequest): Record<string, unknown> {
  return {
    type: problem.code === 'rate_limited' ? 'https://iana.org/assignments/http-problem-types#quota-exceeded' : `/problems/${problem.code}`,
    title: PROBLEMS[problem.code].title,
    status: problem.status,
    detail: problem.detail,
    instance: `urn:uuid:${request.id}`,
    code: problem.code,
    traceId: request.traceId,
    ...(renderWithin(problem.extras.members ?? {}, languageFor(request.headers)) as Record<string, unknown>),
    ...(problem.extras.errors ? { errors: problem.extras.errors } : {}),
  };
}

function toProblem(error: unknown): Problem {
  if (error instanceof Problem) return error;
  const code = codeOf(error);
  const byCode = BY_CODE[code];
  if (byCode) return new Problem(...byCode);
  if (AWAY.has(code) || /timeout exceeded when trying to connect|Connection terminated/.test(error instanceof Error ? error.message : '')) {
    return new Problem('unavailable', 'The database does not answer at the moment. Send the same request again, with the same Idempotency-Key.', { retryAfterS: 2 });
  }
  const status = error instanceof HttpException ? error.getStatus() : statusOf(error);
  const byStatus = BY_STATUS[status];
  return byStatus ? new Problem(...byStatus) : new Problem('internal', 'The request was not carried out. It is logged with this instance; send it again or report the instance.');
}

function codeOf(error: unknown): string {
  return typeof error === 'object' && error !== null && 'code' in error && typeof error.code === 'string' ? error.code : '';
}

function statusOf(error: unknown): number {
  return typeof error === 'object' && error !== null && 'statusCode' in error && typeof error.statusCode === 'number' ? error.statusCode : 500;
}
