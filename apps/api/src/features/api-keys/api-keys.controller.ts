import { Body, Controller, Get, Inject, Param, Post, Query } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import type { z } from 'zod';
import { type ApiKeyRecord, type ConfigStores, createApiKey, type KeyCall, listApiKeys, revokeApiKey, rotateApiKey, type UseCaseCall } from '#application';
import { ApiKeyBody, ApiKeyListQuery, ApiKeyParams, CreateApiKey, NewApiKeyBody, pageOf, RevokeApiKey, RotateApiKey } from '#contracts';
import { makeApiKey, systemClock } from '#platform';
import { type Call, CallOf } from '../../http/call.js';
import { Operation } from '../../http/operation.decorator.js';
import { Pages } from '../../http/pages.js';
import { Runner } from '../../http/runner.js';
import { presentApiKey, presentNewApiKey } from './api-key.presenter.js';

type MakeKey<I> = (stores: ConfigStores, call: UseCaseCall, input: I, edge: KeyCall) => Promise<ApiKeyRecord>;

/** Keys live in real time: the clock of a demo must not let them last longer or end early. */
const realNowMs = () => systemClock.nowMs();

@Controller({ version: '1' })
@ApiTags('Keys')
export class ApiKeysController {
  constructor(
    @Inject(Runner) private readonly runner: Runner,
    @Inject(Pages) private readonly pages: Pages,
  ) {}

  @Post('keys')
  @Operation({
    id: 'createApiKey',
    summary: 'Create an API key',
    description: 'With scopes that your own key has, for the whole network or for one incident. The answer shows the key once; only its hash is kept. A repeated request answers the same without the key.',
    access: { scope: 'keys:manage' },
    command: true,
    problems: ['reference_unknown'],
    success: { status: 201, description: 'The key, shown this once.', body: NewApiKeyBody },
  })
  create(@CallOf() call: Call, @Body({ schema: CreateApiKey }) body: CreateApiKey) {
    return this.make(call, createApiKey, body);
  }

  @Get('keys')
  @Operation({
    id: 'listApiKeys',
    summary: 'List API keys',
    description: 'Newest first, ended ones too, never with their secrets. A key limited to one incident sees the keys with the same limit.',
    access: { scope: 'keys:manage' },
    problems: ['cursor_invalid'],
    success: { status: 200, description: 'One page of keys.', body: pageOf(ApiKeyBody) },
  })
  list(@CallOf() call: Call, @Query({ schema: ApiKeyListQuery }) query: z.output<typeof ApiKeyListQuery>) {
    const before = this.pages.read(call, query.cursor, {})?.[0] ?? null;
    const nowMs = realNowMs();
    return this.runner.configQuery(call, listApiKeys, { limit: query.limit + 1, before }, (rows) => ({
      body: this.pages.answer(call, rows, query.limit, {}, (key) => [key.id], (key) => presentApiKey(key, nowMs)),
    }));
  }

  @Post('keys/:keyId/rotate')
  @Operation({
    id: 'rotateApiKey',
    summary: 'Rotate an API key',
    description: 'Makes a successor with the same scopes and limit, shown once. The old key works on for the overlap (24 hours unless you say otherwise), never longer than it would have.',
    access: { scope: 'keys:manage' },
    command: true,
    problems: ['not_found', 'command_refused'],
    success: { status: 201, description: 'The successor, shown this once.', body: NewApiKeyBody },
  })
  rotate(@CallOf() call: Call, @Param({ schema: ApiKeyParams }) params: z.output<typeof ApiKeyParams>, @Body({ schema: RotateApiKey }) body: RotateApiKey) {
    return this.make(call, rotateApiKey, { ...body, ...params });
  }

  @Post('keys/:keyId/revoke')
  @Operation({
    id: 'revokeApiKey',
    summary: 'Revoke an API key',
    description: 'Ends it within seconds. The last working key that can manage keys cannot be revoked.',
    access: { scope: 'keys:manage' },
    command: true,
    problems: ['not_found', 'key_last_manager'],
    success: { status: 200, description: 'The key has ended.', body: ApiKeyBody },
  })
  revoke(@CallOf() call: Call, @Param({ schema: ApiKeyParams }) params: z.output<typeof ApiKeyParams>, @Body({ schema: RevokeApiKey }) _body: z.output<typeof RevokeApiKey>) {
    const nowMs = realNowMs();
    return this.runner.configCommand(call, (stores, about, input) => revokeApiKey(stores, about, input, nowMs), params, (key) => ({ body: presentApiKey(key, nowMs) }));
  }

  /** The secret joins the answer after it was stored, and only where this very request made the key. */
  private async make<I>(call: Call, useCase: MakeKey<I>, input: I): Promise<z.output<typeof NewApiKeyBody>> {
    const made = makeApiKey();
    const edge = { scopes: call.scopes, realNowMs: realNowMs(), made };
    const answer = await this.runner.configCommand(call, (stores, about, given: I) => useCase(stores, about, given, edge), input, (key) => ({ status: 201, body: presentNewApiKey(key, edge.realNowMs) }));
    const body = answer as z.output<typeof NewApiKeyBody>;
    return body.prefix === made.prefix ? { ...body, secret: made.text } : body;
  }
}
