import { Controller, Get, Inject, Query } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import type { z } from 'zod';
import { listAuditEntries } from '#application';
import { AuditEntryBody, AuditEntryListQuery, pageOf } from '#contracts';
import { type Call, CallOf } from '../../http/call.js';
import { Operation } from '../../http/operation.decorator.js';
import { Pages } from '../../http/pages.js';
import { Runner } from '../../http/runner.js';
import { presentAuditEntry } from './audit-entry.presenter.js';

@Controller({ version: '1' })
@ApiTags('Audit')
export class AuditController {
  constructor(
    @Inject(Runner) private readonly runner: Runner,
    @Inject(Pages) private readonly pages: Pages,
  ) {}

  @Get('audit-entries')
  @Operation({
    id: 'listAuditEntries',
    summary: 'List who did what',
    description: 'Every command that was carried out, once, newest first: by which key, on what, when. Repeats and refusals of a command are not listed. A key limited to one incident sees the commands of keys with the same limit.',
    access: { scope: 'keys:manage' },
    problems: ['cursor_invalid'],
    success: { status: 200, description: 'One page of entries.', body: pageOf(AuditEntryBody) },
  })
  list(@CallOf() call: Call, @Query({ schema: AuditEntryListQuery }) query: z.output<typeof AuditEntryListQuery>) {
    const before = this.pages.read(call, query.cursor, {})?.[0] ?? null;
    return this.runner.query(call, listAuditEntries, { limit: query.limit + 1, before }, (rows) => ({ body: this.pages.answer(call, rows, query.limit, {}, (entry) => [entry.id], presentAuditEntry) }));
  }
}
