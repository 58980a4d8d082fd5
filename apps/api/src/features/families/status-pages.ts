import { createHash } from 'node:crypto';
import { Inject, Injectable, type OnModuleInit } from '@nestjs/common';
import { HttpAdapterHost } from '@nestjs/core';
import type { FastifyInstance, FastifyReply, FastifyRequest } from 'fastify';
import { answerByLink, checkPickUpCode, opens, OWNER_ANSWERS, recordConsent, statusPage, type AnswerOutcome, type ConsentScope, type StatusLinkRecord, type Stores, type UnitOfWork, type UseCaseCall } from '#application';
import { LANGUAGES, type Language } from '#care';
import { Problem } from '#contracts';
import { type Clock, type Logger, newId, pickUpCodeMatches, readStatusLink } from '#platform';
import type { ApiRequest } from '../../http/call.js';
import { CLOCK, LOGGER, UNIT_OF_WORK } from '../../http/tokens.js';
import { BRAKE, GuessBrake } from './guess-brake.js';
import { NOTICES, STOP_WORDS, type Notice } from './page-words.js';
import { closedHtml, PAGE_POLICY, statusHtml } from './status-page.html.js';

const NO_NETWORK = '00000000-0000-0000-0000-000000000000';
const UUID = /^[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}$/;
/** A form of the page has a few short fields; our own calibration. */
const FORM_BYTES = 4_096;
const CLOSED = closedHtml(false);
const BUSY = closedHtml(true);

type PageRequest = FastifyRequest<{ Params: { secret: string }; Querystring: { lang?: string; said?: string }; Body: unknown }>;

/** A link that opens, with whom it acts for. */
interface Opened {
  link: StatusLinkRecord;
  networkId: string;
  secret: string;
  language: Language | null;
}

/**
 * The pages that families see behind their links, outside of the API: who has the link needs no key, and what it opens is that household's state in
 * one incident. The secret stands in the path alone; no log, audit entry or trace holds a path. Forms need no further token: whoever can write the
 * address of a form has the secret already.
 */
@Injectable()
export class StatusPages implements OnModuleInit {
  private readonly brake = new GuessBrake(BRAKE);

  constructor(
    @Inject(HttpAdapterHost) private readonly host: HttpAdapterHost,
    @Inject(UNIT_OF_WORK) private readonly work: UnitOfWork,
    @Inject(CLOCK) private readonly clock: Clock,
    @Inject(LOGGER) private readonly logger: Logger,
  ) {}

  onModuleInit(): void {
    const fastify = this.host.httpAdapter.getInstance<FastifyInstance>();
    const options = { bodyLimit: FORM_BYTES };
    fastify.get<PageRoute>('/s/:secret', (request, reply) => this.answer(request, reply, (opened) => this.show(opened, request, reply)));
    fastify.post<PageRoute>('/s/:secret/answers', options, (request, reply) => this.answer(request, reply, (opened) => this.takeAnswer(opened, request, reply)));
    fastify.post<PageRoute>('/s/:secret/words', options, (request, reply) => this.answer(request, reply, (opened) => this.takeWord(opened, request, reply)));
    fastify.post<PageRoute>('/s/:secret/more', options, (request, reply) => this.answer(request, reply, (opened) => this.showMore(opened, request, reply)));
  }

  private async answer(request: PageRequest, reply: FastifyReply, page: (opened: Opened) => Promise<FastifyReply>): Promise<FastifyReply> {
    try {
      const opened = await this.open(request);
      if (opened === 'busy') return html(reply.header('retry-after', '5'), 503, BUSY);
      if (opened !== null) return await page(opened);
      if ((await this.brake.missed(request.ip)) === 'answer') return html(reply, 404, CLOSED);
      return html(reply.header('retry-after', '60'), 429, BUSY);
    } catch (error) {
      // A form that names what is not this household's is answered like a link that opens nothing.
      if (error instanceof Problem && (error.status === 404 || error.code === 'reference_unknown')) return html(reply, 404, CLOSED);
      this.logger.error({ requestId: request.id, operation: 'statusPage', err: error instanceof Error ? error.name : 'unknown' }, 'status page failed');
      return html(reply.header('retry-after', '5'), 503, BUSY);
    }
  }

  /** One look-up, whatever was sent: an address that never was a link takes the same way as one whose link has ended. */
  private async open(request: PageRequest): Promise<Opened | 'busy' | null> {
    const { secret } = request.params;
    const { networkId, sha256 } = readStatusLink(secret) ?? { networkId: NO_NETWORK, sha256: createHash('sha256').update(secret).digest() };
    const context = { networkId, incidentLimit: null, principalId: NO_NETWORK, requestId: request.id, traceparent: (request as unknown as ApiRequest).traceparent };
    const found = await this.brake.inTurn(async () => ({ link: await this.work.read(context, (stores) => stores.statusLinks.findBySecret(sha256)) }));
    if (found === null) return 'busy';
    const { link } = found;
    if (link === null || !opens(link, this.clock.nowMs())) return null;
    const { lang } = request.query;
    return { link, networkId, secret, language: LANGUAGES.find((known) => known === lang) ?? null };
  }

  private callOf({ link, networkId }: Opened, request: PageRequest): UseCaseCall {
    const context = { networkId, incidentLimit: link.incidentId, principalId: link.id, requestId: request.id, traceparent: (request as unknown as ApiRequest).traceparent };
    return { context, env: { nowMs: this.clock.nowMs(), newId: () => newId() } };
  }

  private async show(opened: Opened, request: PageRequest, reply: FastifyReply, known = false, said: string | undefined = request.query.said): Promise<FastifyReply> {
    const call = this.callOf(opened, request);
    const page = await this.work.read(call.context, (stores) => statusPage(stores, call, { link: opened.link, language: opened.language, known }));
    if (page === null) return html(reply, 404, CLOSED);
    const notice = said !== undefined && Object.hasOwn(NOTICES, said) ? (said as Notice) : null;
    return html(reply.header('content-language', page.language), 200, statusHtml({ page, path: `/s/${opened.secret}`, notice }));
  }

  private async takeAnswer(opened: Opened, request: PageRequest, reply: FastifyReply): Promise<FastifyReply> {
    const { question = '', answer: sent, code = '' } = fieldsOf(request.body);
    const answer = OWNER_ANSWERS.find((known) => known === sent);
    if (!UUID.test(question) || answer === undefined) return html(reply, 404, CLOSED);
    const checked = code.trim() === '' ? 'none' : await this.check(opened, request, code);
    if (checked === 'wrong' || checked === 'locked') return back(opened, reply, checked === 'wrong' ? 'code' : 'locked');
    const input = { link: opened.link, questionId: question, answer, withCode: checked === 'right' };
    const outcome = await this.once<AnswerOutcome | 'code-needed'>(opened, request, 'answerByLink', [question, answer, checked], { kind: 'owner-questions', id: question }, (stores, call) => answerByLink(stores, call, input));
    return back(opened, reply, outcome === 'code-needed' ? 'code' : outcome);
  }

  private async takeWord(opened: Opened, request: PageRequest, reply: FastifyReply): Promise<FastifyReply> {
    const { item = '', scope: sent = '' } = fieldsOf(request.body);
    if (!UUID.test(item) || !Object.hasOwn(STOP_WORDS, sent)) return html(reply, 404, CLOSED);
    const scope = sent as ConsentScope;
    const call = this.callOf(opened, request);
    const { householdId } = opened.link;
    const standing = await this.work.read(call.context, async (stores) => (await stores.consents.ofHousehold(householdId)).findLast((word) => word.scope === scope && word.itemId === item));
    // Sent twice it is one word; taken back, given and taken back again, it is another one.
    if (standing?.given === false) return back(opened, reply, 'word');
    const input = { householdId, itemId: item, scope, given: false, manner: 'link' as const, note: '' };
    await this.once(opened, request, 'withdrawByLink', [item, scope, standing?.id ?? ''], { kind: 'households', id: householdId }, async (stores, inside) => (await recordConsent(stores, inside, input)).scope);
    return back(opened, reply, 'word');
  }

  private async showMore(opened: Opened, request: PageRequest, reply: FastifyReply): Promise<FastifyReply> {
    const checked = await this.check(opened, request, fieldsOf(request.body)['code'] ?? '');
    return this.show(opened, request, reply, checked === 'right', checked === 'right' ? undefined : checked === 'wrong' ? 'code' : 'locked');
  }

  private async check(opened: Opened, request: PageRequest, typed: string): Promise<'right' | 'wrong' | 'locked'> {
    const call = this.callOf(opened, request);
    const checked = await this.brake.inTurn(() => this.work.write(call.context, (stores) => checkPickUpCode(stores, call, { linkId: opened.link.id, matches: (kept) => pickUpCodeMatches(kept, typed) })));
    return checked ?? 'wrong';
  }

  /** A command under a key made of what was sent: a double tap, or a page that is sent again, does it once. */
  private async once<T extends string>(opened: Opened, request: PageRequest, operation: string, parts: readonly string[], subject: { kind: string; id: string }, work: (stores: Stores, call: UseCaseCall) => Promise<T>): Promise<T | 'busy'> {
    const call = this.callOf(opened, request);
    const fingerprint = createHash('sha256').update(JSON.stringify(parts)).digest('hex');
    const key = [fingerprint.slice(0, 8), fingerprint.slice(8, 12), `4${fingerprint.slice(13, 16)}`, `8${fingerprint.slice(17, 20)}`, fingerprint.slice(20, 32)].join('-');
    try {
      const { body } = await this.work.command(call.context, { operation, key, fingerprint, subjectOf: () => subject }, async (stores) => ({ status: 200, body: await work(stores, call), headers: {} }));
      return body as T;
    } catch (error) {
      if (error instanceof Problem && error.code === 'command_running') return 'busy';
      throw error;
    }
  }
}

interface PageRoute {
  Params: { secret: string };
  Querystring: { lang?: string; said?: string };
  Body: unknown;
}

function fieldsOf(body: unknown): Record<string, string> {
  if (typeof body !== 'object' || body === null) return {};
  return Object.fromEntries(Object.entries(body).filter((entry): entry is [string, string] => typeof entry[1] === 'string'));
}

function html(reply: FastifyReply, status: number, text: string): FastifyReply {
  return reply.status(status).headers({ 'content-security-policy': PAGE_POLICY, 'x-robots-tag': 'noindex, nofollow', 'cache-control': 'no-store', 'referrer-policy': 'no-referrer' }).type('text/html; charset=utf-8').send(text);
}

/** After a form the browser is sent back to the page, so that loading it again sends nothing. */
function back({ secret, language }: Opened, reply: FastifyReply, said: Notice): FastifyReply {
  const query = new URLSearchParams({ ...(language === null ? {} : { lang: language }), said });
  return reply.headers({ 'referrer-policy': 'no-referrer', 'cache-control': 'no-store', 'x-robots-tag': 'noindex, nofollow' }).redirect(`/s/${secret}?${query}`, 303);
}
