import type { FastifyInstance, FastifyReply, FastifyRequest } from 'fastify';
import { type CallContext, openFile } from '#application';
import { notFound, Problem } from '#contracts';
import { newId } from '#platform';
import type { ApiParts } from './app.module.js';
import type { ApiRequest } from './http/call.js';
import { byteRange } from './http/byte-range.js';
import { FileLinks } from './http/file-links.js';
import type { ProblemFilter } from './http/problem.filter.js';

/** Files that are opened at the same time; each is held in memory as long as it is sent. Our own calibration. */
const AT_A_TIME = 8;
const RETRY_AFTER_S = 2;
/** Who follows a link is no key. */
const NOBODY = '00000000-0000-0000-0000-000000000000';

/** Where links to files lead: no key, no cookie, and one answer for everything that leads nowhere (any more). */
export function serveFiles(fastify: FastifyInstance, parts: ApiParts, problems: Pick<ProblemFilter, 'reply'>): void {
  const links = new FileLinks(parts.settings);
  let open = 0;
  fastify.get('/files/:token', async (request: FastifyRequest<{ Params: { token: string } }>, reply) => {
    if (open >= AT_A_TIME) return problems.reply(new Problem('unavailable', 'Many files are being fetched at the moment. Try again.', { retryAfterS: RETRY_AFTER_S }), request as unknown as ApiRequest, reply);
    open += 1;
    try {
      return await send(parts, links, request, reply);
    } catch (error) {
      // Withdrawn, deleted, sensitive, of another network: whoever has only a link learns none of it.
      return problems.reply(error instanceof Problem && error.status < 500 && error.code !== 'range_not_satisfiable' ? leadsNowhere() : error, request as unknown as ApiRequest, reply);
    } finally {
      open -= 1;
    }
  });
}

const leadsNowhere = () => new Problem('not_found', 'This link leads nowhere (any more). Ask for a new one.');

async function send(parts: ApiParts, links: FileLinks, request: FastifyRequest<{ Params: { token: string } }>, reply: FastifyReply) {
  const link = links.read(request.params.token);
  if (link === null) throw notFound('file');
  const context: CallContext = { networkId: link.networkId, incidentLimit: null, principalId: NOBODY, requestId: request.id, traceparent: (request as unknown as ApiRequest).traceparent };
  const { file, mediaType, bytes } = await openFile({ unitOfWork: parts.unitOfWork, vault: parts.vault }, { context, env: { nowMs: parts.clock.nowMs(), newId: () => newId() } }, link);
  const whole = Buffer.from(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  reply.headers({
    'content-type': mediaType === 'text/plain' ? 'text/plain; charset=utf-8' : mediaType,
    'content-disposition': `${link.download ? 'attachment' : 'inline'}; filename="${file.kind}-${file.id.slice(0, 8)}.${EXTENSIONS[mediaType] ?? 'bin'}"`,
    'content-security-policy': "default-src 'none'; frame-ancestors 'none'; sandbox", 'x-content-type-options': 'nosniff', 'cache-control': 'no-store', 'x-robots-tag': 'noindex',
  });
  return mediaType.startsWith('audio/') ? sendPart(request, reply, whole) : reply.send(whole);
}

/** Players skip in a recording by asking for parts of it. What is sent is kept nowhere, so there is nothing that `If-Range` could match (RFC 9110, section 13.1.5). */
function sendPart(request: FastifyRequest, reply: FastifyReply, whole: Buffer) {
  reply.header('accept-ranges', 'bytes');
  const range = request.headers['if-range'] === undefined ? byteRange(request.headers.range, whole.length) : 'whole';
  if (range === 'whole') return reply.send(whole);
  if (range === 'outside') {
    reply.header('content-range', `bytes */${whole.length}`).removeHeader('content-disposition');
    throw new Problem('range_not_satisfiable', `The recording has ${whole.length} bytes; ask for some of them.`);
  }
  return reply.status(206).header('content-range', `bytes ${range.from}-${range.to}/${whole.length}`).send(whole.subarray(range.from, range.to + 1));
}

const EXTENSIONS: Readonly<Record<string, string>> = { 'image/jpeg': 'jpg', 'audio/wav': 'wav', 'audio/mpeg': 'mp3', 'audio/mp4': 'm4a', 'audio/ogg': 'ogg', 'audio/webm': 'webm', 'text/plain': 'txt' };
