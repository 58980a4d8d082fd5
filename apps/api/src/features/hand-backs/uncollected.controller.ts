import { Body, Controller, Get, Inject, Param, Post, Query } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import type { z } from 'zod';
import { decideUncollected, listUncollected, openUncollected, recordReminder } from '#application';
import { DecideUncollected, HouseholdParams, IncidentParams, OpenUncollected, PageQuery, pageOf, RecordReminder, UncollectedBody, UncollectedParams } from '#contracts';
import { type Call, CallOf } from '../../http/call.js';
import { Operation } from '../../http/operation.decorator.js';
import { Pages } from '../../http/pages.js';
import { Runner } from '../../http/runner.js';
import { msOf } from '../../presenters/time.js';
import { presentUncollected } from './appointment.presenter.js';

/** What is ready and nobody fetches: reminders by date, then a named person decides. Nothing is let go by it. */
@Controller({ version: '1' })
@ApiTags('Hand-backs')
export class UncollectedController {
  constructor(
    @Inject(Runner) private readonly runner: Runner,
    @Inject(Pages) private readonly pages: Pages,
  ) {}

  @Post('households/:householdId/uncollected')
  @Operation({
    id: 'openUncollected',
    summary: 'Begin to wait for a household that does not fetch its things',
    description: 'Sets the dates of two reminders and of a decision, and names the person who decides then. The days are our own calibration unless you give others. A missed appointment begins it by itself.',
    access: { scope: 'household:write' },
    command: true,
    problems: ['not_found', 'already_exists', 'reference_unknown', 'command_refused', 'owner_unknown'],
    success: { status: 201, description: 'The dates.', body: UncollectedBody },
  })
  open(@CallOf() call: Call, @Param({ schema: HouseholdParams }) params: z.output<typeof HouseholdParams>, @Body({ schema: OpenUncollected }) body: z.output<typeof OpenUncollected>) {
    const { readyAt, ...rest } = body;
    return this.runner.command(call, openUncollected, { ...params, ...rest, readyAtMs: msOf(readyAt) }, (path) => ({ status: 201, body: presentUncollected(path, path.openedAtMs) }));
  }

  @Get('incidents/:incidentId/uncollected')
  @Operation({
    id: 'listUncollected',
    summary: 'List what nobody has fetched',
    description: 'Open ones first, the longest open first, each with what is due now. Those with `itemId` are of found things that nobody claims.',
    access: { scope: 'household:read' },
    problems: ['not_found', 'cursor_invalid'],
    success: { status: 200, description: 'One page.', body: pageOf(UncollectedBody) },
  })
  list(@CallOf() call: Call, @Param({ schema: IncidentParams }) params: z.output<typeof IncidentParams>, @Query({ schema: PageQuery }) query: z.output<typeof PageQuery>) {
    const [ended, id] = this.pages.read(call, query.cursor, params) ?? [];
    const after = ended === undefined || id === undefined ? null : { ended: ended === '1', id };
    return this.runner.query(call, listUncollected, { ...params, limit: query.limit + 1, after }, (rows) => ({
      body: this.pages.answer(call, rows, query.limit, params, (row) => [row.state === 'open' ? '0' : '1', row.id], (row) => presentUncollected(row, null)),
    }));
  }

  @Post('uncollected/:uncollectedId/reminders')
  @Operation({
    id: 'recordReminder',
    summary: 'Record that a family was reminded',
    description: 'Two at most. How and with what words stands with the messages. For a found thing: that the notice at the desk was looked after.',
    access: { scope: 'household:write' },
    command: true,
    problems: ['not_found', 'already_exists', 'command_refused'],
    success: { status: 200, description: 'The dates, with the reminder.', body: UncollectedBody },
  })
  remind(@CallOf() call: Call, @Param({ schema: UncollectedParams }) params: z.output<typeof UncollectedParams>, @Body({ schema: RecordReminder }) _body: z.output<typeof RecordReminder>) {
    return this.runner.command(call, recordReminder, params, (path) => ({ body: presentUncollected(path, path.remindedAtMs) }));
  }

  @Post('uncollected/:uncollectedId/decisions')
  @Operation({
    id: 'decideUncollected',
    summary: 'Decide about things that nobody fetched',
    description: 'By the person who was named for it, once the time has passed. To let things go is none of the decisions: that needs the word of the owner for each item. What stays with us is waited for anew, with new dates.',
    access: { scope: 'household:write' },
    command: true,
    problems: ['not_found', 'already_exists', 'command_refused', 'household_erased'],
    success: { status: 200, description: 'The path as it ended.', body: UncollectedBody },
  })
  decide(@CallOf() call: Call, @Param({ schema: UncollectedParams }) params: z.output<typeof UncollectedParams>, @Body({ schema: DecideUncollected }) body: z.output<typeof DecideUncollected>) {
    return this.runner.command(call, decideUncollected, { ...params, ...body }, (path) => ({ body: presentUncollected(path, path.endedAtMs) }));
  }
}
