import { createHash } from 'node:crypto';
import { Inject, Injectable } from '@nestjs/common';
import type { Answer, CommandIdentity, ConfigStores, ConfigWork, Replayable, Stores, UnitOfWork, UseCaseCall } from '#application';
import type { Language } from '#care';
import { newId, type Clock } from '#platform';
import { canonicalJson } from './canonical-json.js';
import { subjectOf } from './audit-subject.js';
import type { Call } from './call.js';
import { entityTag, languageHeaders } from './language.js';
import { type ApiSettings, CLOCK, CONFIG_WORK, SETTINGS, UNIT_OF_WORK } from './tokens.js';

export type UseCase<S, I, R> = (stores: S, call: UseCaseCall, input: I) => Promise<R>;

/** How a result becomes an answer: body, and when it differs from 200, the status; version for the ETag; path for Location; language of its sentences. */
export interface Presented {
  body: unknown;
  language?: Language;
  status?: number;
  version?: number;
  location?: string;
}

/** Runs use cases: the one place where commands get their transaction, idempotence and headers. */
@Injectable()
export class Runner {
  constructor(
    @Inject(UNIT_OF_WORK) private readonly work: UnitOfWork,
    @Inject(CONFIG_WORK) private readonly config: ConfigWork,
    @Inject(CLOCK) private readonly clock: Clock,
    @Inject(SETTINGS) private readonly settings: ApiSettings,
  ) {}

  /** A command on the item side (prepared SQL). */
  command<I, R>(call: Call, useCase: UseCase<Stores, I, R>, input: I, present: (result: R) => Presented): Promise<unknown> {
    return this.run(call, input, (identity) => this.work.command(call.context, identity, async (stores) => toAnswer(present(await useCase(stores, this.about(call), input)))));
  }

  /** A command on the configuration side (ORM). */
  configCommand<I, R>(call: Call, useCase: UseCase<ConfigStores, I, R>, input: I, present: (result: R) => Presented): Promise<unknown> {
    return this.run(call, input, (identity) => this.config.command(call.context, identity, async (stores) => toAnswer(present(await useCase(stores, this.about(call), input)))));
  }

  /** What another read of the same request goes on from; it answers nothing by itself. */
  find<I, R>(call: Call, useCase: UseCase<Stores, I, R>, input: I): Promise<R> {
    return this.work.read(call.context, (stores) => useCase(stores, this.about(call), input));
  }

  /** A read of the item side; what is worked out in `present` holds no transaction. */
  async query<I, R>(call: Call, useCase: UseCase<Stores, I, R>, input: I, present: (result: R) => Presented | Promise<Presented>): Promise<unknown> {
    const result = await this.find(call, useCase, input);
    return send(call, { ...toAnswer(await present(result)), replayed: false });
  }

  /** A read of what is personal: the look is committed to the audit before anything is shown, and nothing is shown when it cannot be. */
  async auditedQuery<I, R>(call: Call, useCase: UseCase<Stores, I, R>, input: I, present: (result: R) => Presented): Promise<unknown> {
    const { request } = call;
    const subject = subjectOf(request.routeOptions.url ?? '', request.params as Record<string, string>, null);
    const result = await this.work.write(call.context, async (stores) => {
      const found = await useCase(stores, this.about(call), input);
      await stores.audit.noteLook({ principalId: call.context.principalId, operation: call.operation, subjectKind: subject.kind, subjectId: subject.id, requestId: call.context.requestId });
      return found;
    });
    return send(call, { ...toAnswer(present(result)), replayed: false });
  }

  /** A read of the configuration. */
  async configQuery<I, R>(call: Call, useCase: UseCase<ConfigStores, I, R>, input: I, present: (result: R) => Presented): Promise<unknown> {
    const result = await this.config.read(call.context, (stores) => useCase(stores, this.about(call), input));
    return send(call, { ...toAnswer(present(result)), replayed: false });
  }

  /** Who calls, the time and new ids, as use cases take them. */
  about(call: Call): UseCaseCall {
    const { climateGatherMs, files, claims } = this.settings;
    return { context: call.context, env: { nowMs: this.clock.nowMs(), newId: () => newId(), ...(climateGatherMs !== undefined && { climateGatherMs }), ...(files !== undefined && { files }), ...(claims !== undefined && { claims }) } };
  }

  private async run<I>(call: Call, input: I, execute: (identity: CommandIdentity) => Promise<Replayable>): Promise<unknown> {
    const key = call.idempotencyKey();
    const fingerprint = createHash('sha256').update(canonicalJson(input)).digest('hex');
    call.reply.header('idempotency-key', `"${key}"`);
    const { request } = call;
    const about = (answer: Answer) => subjectOf(request.routeOptions.url ?? '', request.params as Record<string, string>, answer.body);
    return send(call, await execute({ operation: call.operation, key, fingerprint, subjectOf: about }));
  }
}

function toAnswer(presented: Presented): Answer {
  const headers: Record<string, string> = presented.language === undefined ? {} : languageHeaders(presented.language);
  if (presented.version !== undefined) headers['etag'] = entityTag(presented.version, presented.language);
  if (presented.location !== undefined) headers['location'] = presented.location;
  return { status: presented.status ?? 200, body: presented.body, headers };
}

function send(call: Call, answer: Replayable): unknown {
  call.reply.status(answer.status);
  for (const [name, value] of Object.entries(answer.headers)) call.reply.header(name, value);
  if (answer.replayed) call.reply.header('idempotency-replayed', 'true');
  return answer.body;
}
