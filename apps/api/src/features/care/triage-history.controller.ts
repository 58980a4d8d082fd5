import { Controller, Get, Inject, Param, Query } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import type { z } from 'zod';
import { getPrecedence, listDispositionOverrides, listTriageHistory, type TriageHistoryEntry } from '#application';
import { DispositionOverrideBody, IncidentParams, ItemParams, PageQuery, pageOf, PrecedenceBody, PrecedenceQuery, TriageHistoryEntryBody, TriageHistoryQuery } from '#contracts';
import { type Call, CallOf } from '../../http/call.js';
import { Operation } from '../../http/operation.decorator.js';
import { Pages } from '../../http/pages.js';
import { Runner } from '../../http/runner.js';
import { presentPrecedence } from '../../presenters/precedence.presenter.js';
import { presentHistoryEntry, presentOverride } from './triage-history.presenter.js';

/** What was decided of items, what changed, and why. */
@Controller({ version: '1' })
@ApiTags('Care')
export class TriageHistoryController {
  constructor(
    @Inject(Runner) private readonly runner: Runner,
    @Inject(Pages) private readonly pages: Pages,
  ) {}

  @Get('items/:itemId/triage/history')
  @Operation({
    id: 'listTriageHistory',
    summary: 'List how the triage of an item changed',
    description: 'Every triage on record, newest first, by pages: what it changed against the one before it and why, in words and as data, and the reason where a look corrected an earlier one.',
    access: { scope: 'item:read' },
    speaks: true,
    problems: ['not_found', 'cursor_invalid'],
    success: { status: 200, description: 'One page of the history.', body: pageOf(TriageHistoryEntryBody) },
  })
  history(@CallOf() call: Call, @Param({ schema: ItemParams }) params: z.output<typeof ItemParams>, @Query({ schema: TriageHistoryQuery }) query: z.output<typeof TriageHistoryQuery>) {
    const [createdAtMs, id] = this.pages.read(call, query.cursor, params) ?? [];
    const before = createdAtMs === undefined || id === undefined ? null : { createdAtMs: Number(createdAtMs), id };
    const key = ({ triage }: TriageHistoryEntry) => [String(triage.createdAtMs), triage.id];
    return this.runner.query(call, listTriageHistory, { ...params, limit: query.limit + 1, before }, (rows) => ({
      body: this.pages.answer(call, rows, query.limit, params, key, (entry) => presentHistoryEntry(entry, call.language)), language: call.language,
    }));
  }

  @Get('items/:itemId/precedence')
  @Operation({
    id: 'getPrecedence',
    summary: 'Ask why one item comes before another',
    description: 'Of two items the one that scarce hands take first, by their latest triage: time left, how hard the damage is to undo, what it means to the family, whether it is the only copy, arrival; and which of these decides.',
    access: { scope: 'item:read' },
    speaks: true,
    problems: ['not_found'],
    success: { status: 200, description: 'Both items in their order, and why.', body: PrecedenceBody },
  })
  precedence(@CallOf() call: Call, @Param({ schema: ItemParams }) params: z.output<typeof ItemParams>, @Query({ schema: PrecedenceQuery }) query: z.output<typeof PrecedenceQuery>) {
    return this.runner.query(call, getPrecedence, { ...params, ...query }, (view) => ({ body: presentPrecedence(view, call.language), language: call.language }));
  }

  @Get('incidents/:incidentId/disposition-overrides')
  @Operation({
    id: 'listDispositionOverrides',
    summary: 'List what leads chose against the rule book',
    description: 'Newest first, by pages: who chose what instead of what, when and why, what the rule book says of the item now, and what became of it. Where leads often choose the same way for good reasons, the rule book should be looked at.',
    access: { scope: 'item:read' },
    speaks: true,
    problems: ['not_found', 'cursor_invalid'],
    success: { status: 200, description: 'One page of such choices.', body: pageOf(DispositionOverrideBody) },
  })
  overrides(@CallOf() call: Call, @Param({ schema: IncidentParams }) params: z.output<typeof IncidentParams>, @Query({ schema: PageQuery }) query: z.output<typeof PageQuery>) {
    const before = this.pages.read(call, query.cursor, params)?.[0] ?? null;
    return this.runner.query(call, listDispositionOverrides, { ...params, limit: query.limit + 1, before }, (rows) => ({
      body: this.pages.answer(call, rows, query.limit, params, ({ override }) => [override.id], (one) => presentOverride(one, call.language)), language: call.language,
    }));
  }
}
