import { Body, Controller, Get, Inject, Param, Post, Query } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import type { z } from 'zod';
import { getRetentionRun, listRetentionRuns, previewRetention, startRetention } from '#application';
import { IncidentParams, PageQuery, pageOf, RetentionPreviewBody, RetentionRunBody, RetentionRunParams, StartRetention } from '#contracts';
import { type Call, CallOf } from '../../http/call.js';
import { Operation } from '../../http/operation.decorator.js';
import { Pages } from '../../http/pages.js';
import { Runner } from '../../http/runner.js';
import { presentHouseholdPreview, presentRetentionPreview, presentRetentionRun } from './retention.presenter.js';

/** What is personal has its time: shown first, then let go by the worker. The periods stand with our own calibration, library `retention`. */
@Controller({ version: '1' })
@ApiTags('Privacy')
export class RetentionController {
  constructor(
    @Inject(Runner) private readonly runner: Runner,
    @Inject(Pages) private readonly pages: Pages,
  ) {}

  @Get('incidents/:incidentId/retention-preview')
  @Operation({
    id: 'previewRetention',
    summary: 'See what has had its time',
    description: 'The dry run: what a run at this moment would take of each household, counted by kind, and why the rest stays (a legal hold, things that are still with us, an open question, matter or claim, a file being read in, or time that is left). It changes nothing. The periods are our own calibration (library `retention` of `/v1/calibration`) and no advice about the law.',
    access: { scope: 'privacy:manage' },
    speaks: true,
    problems: ['not_found', 'cursor_invalid'],
    success: { status: 200, description: 'One page of households, with totals on the first.', body: RetentionPreviewBody },
  })
  preview(@CallOf() call: Call, @Param({ schema: IncidentParams }) params: z.output<typeof IncidentParams>, @Query({ schema: PageQuery }) query: z.output<typeof PageQuery>) {
    const after = this.pages.read(call, query.cursor, params)?.[0] ?? null;
    return this.runner.query(call, previewRetention, { ...params, limit: query.limit + 1, after }, (preview) => ({
      body: presentRetentionPreview(preview, this.pages.answer(call, preview.households, query.limit, params, ({ householdId }) => [householdId], presentHouseholdPreview), call.language), language: call.language,
    }));
  }

  @Post('incidents/:incidentId/retention-runs')
  @Operation({
    id: 'startRetention',
    summary: 'Let go what has had its time',
    description: 'For a lead who has read the dry run: the worker takes what it shows, as of now, household by household. Where all of a household has had its time it is erased. It cannot be undone; whatever came under a legal hold or back to us meanwhile stays. Refused when the numbers of the network were changed since the dry run. With `scheduleEveryDays` of library `retention` the worker does it by itself, at the hour `scheduleHour` of the network\'s time zone.',
    access: { scope: 'privacy:manage' },
    command: true,
    problems: ['not_found', 'reference_unknown', 'command_refused'],
    success: { status: 201, description: 'The worker has it in hand.', body: RetentionRunBody },
  })
  start(@CallOf() call: Call, @Param({ schema: IncidentParams }) params: z.output<typeof IncidentParams>, @Body({ schema: StartRetention }) body: z.output<typeof StartRetention>) {
    return this.runner.command(call, startRetention, { ...params, ...body }, (run) => ({ status: 201, body: presentRetentionRun(run), location: `/v1/retention-runs/${run.id}` }));
  }

  @Get('incidents/:incidentId/retention-runs')
  @Operation({
    id: 'listRetentionRuns',
    summary: 'List the retention runs of an incident',
    description: 'Who let go what, when and by which periods, newest first. Numbers alone; they stay.',
    access: { scope: 'privacy:manage' },
    problems: ['not_found', 'cursor_invalid'],
    success: { status: 200, description: 'One page.', body: pageOf(RetentionRunBody) },
  })
  list(@CallOf() call: Call, @Param({ schema: IncidentParams }) params: z.output<typeof IncidentParams>, @Query({ schema: PageQuery }) query: z.output<typeof PageQuery>) {
    const before = this.pages.read(call, query.cursor, params)?.[0] ?? null;
    return this.runner.query(call, listRetentionRuns, { ...params, limit: query.limit + 1, before }, (rows) => ({ body: this.pages.answer(call, rows, query.limit, params, ({ id }) => [id], presentRetentionRun) }));
  }

  @Get('retention-runs/:retentionRunId')
  @Operation({
    id: 'getRetentionRun',
    summary: 'Read one retention run',
    description: 'How far it is, or what it did.',
    access: { scope: 'privacy:manage' },
    problems: ['not_found'],
    success: { status: 200, description: 'The run.', body: RetentionRunBody },
  })
  read(@CallOf() call: Call, @Param({ schema: RetentionRunParams }) params: z.output<typeof RetentionRunParams>) {
    return this.runner.query(call, getRetentionRun, params, (run) => ({ body: presentRetentionRun(run) }));
  }
}
