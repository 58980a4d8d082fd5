import { randomUUID } from 'node:crypto';
import helmet from '@fastify/helmet';
import type { NestFastifyApplication } from '@nestjs/platform-fastify';
import { FastifyAdapter } from '@nestjs/platform-fastify';
import type { FastifyInstance } from 'fastify';
import { FILE_MEDIA_TYPES } from '#contracts';
import { continueTrace, traceparent } from '#platform';
import type { ApiRequest } from './call.js';

/** Commands and documents of an incident; files have their own limit on their own route. */
export const BODY_LIMIT_BYTES = 1_048_576;
export const FILE_LIMIT_BYTES = 10 * 1_048_576;

/** Media type of a part of an upload; tus 1.0, "PATCH". */
export const UPLOAD_PART = 'application/offset+octet-stream';

/** The HTTP server: every wait and size is bounded; request ids are ours, traces continue the caller's. */
export function createAdapter(): FastifyAdapter {
  return new FastifyAdapter({
    bodyLimit: BODY_LIMIT_BYTES,
    requestTimeout: 30_000,
    connectionTimeout: 60_000,
    keepAliveTimeout: 10_000,
    trustProxy: false,
    return503OnClosing: true,
    genReqId: () => randomUUID(),
    routerOptions: { maxParamLength: 200 },
  });
}

/** Headers, traces and the media types that commands and files come in. */
export async function configureFastify(app: NestFastifyApplication): Promise<void> {
  const fastify = app.getHttpAdapter().getInstance() as unknown as FastifyInstance;
  await app.register(helmet as never, {
    contentSecurityPolicy: { directives: { defaultSrc: ["'none'"], frameAncestors: ["'none'"] } },
    referrerPolicy: { policy: 'no-referrer' },
  });
  fastify.addHook('onRequest', async (request, reply) => {
    const trace = continueTrace(request.headers.traceparent as string | undefined);
    const own = request as unknown as ApiRequest;
    own.traceId = trace.traceId;
    own.traceparent = traceparent(trace);
    reply.header('x-request-id', request.id).header('traceparent', own.traceparent).header('cache-control', 'no-store');
  });
  const asBuffer = { parseAs: 'buffer' as const, bodyLimit: FILE_LIMIT_BYTES };
  fastify.addContentTypeParser(['text/csv', 'application/x-ndjson'], asBuffer, (_request, body, done) => done(null, body));
  fastify.addContentTypeParser(Object.keys(FILE_MEDIA_TYPES), asBuffer, (_request, body, done) => done(null, body));
  // A part of an upload is taken piece by piece; whoever reads it counts.
  fastify.addContentTypeParser(UPLOAD_PART, (_request, payload, done) => done(null, payload));
  fastify.addContentTypeParser('application/merge-patch+json', { parseAs: 'string', bodyLimit: BODY_LIMIT_BYTES }, fastify.getDefaultJsonParser('error', 'error') as never);
}
