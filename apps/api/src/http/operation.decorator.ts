import { applyDecorators, HttpCode, SetMetadata } from '@nestjs/common';
import { ApiBearerAuth, ApiHeader, ApiOperation, ApiResponse } from '@nestjs/swagger';
import type { z } from 'zod';
import { PROBLEMS, ProblemBody, type ProblemCode, type Scope } from '#contracts';
import { AcceptLanguage, LANGUAGE_HEADERS } from './language.js';

export const ACCESS = 'wrackline:access';
export const OPERATION_ID = 'wrackline:operation-id';

/** `public`, or the one scope a key needs. */
export type Access = { public: true } | { scope: Scope };

export interface OperationOptions {
  /** camelCase verb and noun; also the name of the test folder. */
  id: string;
  summary: string;
  description: string;
  access: Access;
  /** Status and body of success. `body: null` for 204. */
  success: { status: number; description: string; body: z.ZodType | null; mediaType?: string };
  /** A second success, for instance 200 when a repeated file answers the earlier import. */
  alsoSuccess?: { status: number; description: string; body: z.ZodType };
  /** Problems beyond the ones every route has. */
  problems?: ProblemCode[];
  /** POST commands: Idempotency-Key is required. */
  command?: boolean;
  /** Changes of a versioned resource: If-Match is required. */
  conditional?: boolean;
  /** The answer holds sentences for people, in the language they ask for. */
  speaks?: boolean;
}

const ALWAYS: ProblemCode[] = ['validation_failed', 'rate_limited', 'internal', 'unavailable'];
const WITH_KEY: ProblemCode[] = ['key_missing', 'key_invalid', 'scope_missing', 'network_suspended'];
const COMMAND: ProblemCode[] = ['idempotency_key_missing', 'idempotency_key_malformed', 'command_running', 'idempotency_key_reused', 'body_too_large', 'media_type_unsupported'];
const CONDITIONAL: ProblemCode[] = ['precondition_required', 'version_stale'];

/** Everything a route says about itself: access, documentation, success, problems, required headers. */
export function Operation(options: OperationOptions): MethodDecorator {
  const isPublic = 'public' in options.access;
  const scope = 'scope' in options.access ? options.access.scope : null;
  const codes = new Set<ProblemCode>([...ALWAYS, ...(isPublic ? [] : WITH_KEY), ...(options.command ? COMMAND : []), ...(options.conditional ? CONDITIONAL : []), ...(options.problems ?? [])]);
  const byStatus = new Map<number, ProblemCode[]>();
  for (const code of codes) byStatus.set(PROBLEMS[code].status, [...(byStatus.get(PROBLEMS[code].status) ?? []), code]);
  return applyDecorators(
    SetMetadata(ACCESS, options.access),
    SetMetadata(OPERATION_ID, options.id),
    HttpCode(options.success.status),
    ApiOperation({ operationId: options.id, summary: options.summary, description: scope ? `${options.description}\n\nNeeds the scope \`${scope}\`.` : options.description }),
    ...(isPublic ? [] : [ApiBearerAuth('apiKey')]),
    successResponse(options.success, options.speaks),
    ...(options.alsoSuccess ? [successResponse(options.alsoSuccess, options.speaks)] : []),
    ...(options.speaks ? [AcceptLanguage] : []),
    ...(options.command ? [ApiHeader({ name: 'Idempotency-Key', required: true, description: 'A fresh UUID for each command; the same one repeats the answer.', schema: { type: 'string', format: 'uuid' } })] : []),
    ...(options.conditional ? [ApiHeader({ name: 'If-Match', required: true, description: 'The ETag that was read.', schema: { type: 'string', examples: ['"3"'] } })] : []),
    ...[...byStatus].sort(([a], [b]) => a - b).map(([status, list]) =>
      ApiResponse({ status, description: list.map((code) => `\`${code}\`: ${PROBLEMS[code].title}.`).join(' '), content: { 'application/problem+json': { schema: { $ref: '#/components/schemas/Problem' } } } }),
    ),
  );
}

function successResponse({ status, description, body, mediaType }: { status: number; description: string; body: z.ZodType | null; mediaType?: string }, speaks = false): MethodDecorator {
  const about = { status, description, ...(speaks ? { headers: LANGUAGE_HEADERS } : {}) };
  if (body === null) return ApiResponse({ ...about, ...(mediaType ? { content: { [mediaType]: { schema: { type: 'string' } } } } : {}) });
  return ApiResponse({ ...about, standardSchema: body });
}

export { ProblemBody };
