import { Body, Controller, Get, Inject, Param, Post, Query } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import type { z } from 'zod';
import { listUnsuitedSteps, recordStepResult } from '#application';
import { IncidentParams, ItemParams, PageQuery, pageOf, RecordStepResult, StepReportBody, UnsuitedStepBody } from '#contracts';
import { type Call, CallOf } from '../../http/call.js';
import { Operation } from '../../http/operation.decorator.js';
import { Pages } from '../../http/pages.js';
import { Runner } from '../../http/runner.js';
import { msOf } from '../../presenters/time.js';
import { presentStepReport } from './step-report.presenter.js';
import { presentUnsuitedStep } from './unsuited-step.presenter.js';

@Controller({ version: '1' })
@ApiTags('Stations')
export class StepResultsController {
  constructor(
    @Inject(Runner) private readonly runner: Runner,
    @Inject(Pages) private readonly pages: Pages,
  ) {}

  @Post('items/:itemId/step-results')
  @Operation({
    id: 'recordStepResult',
    summary: 'Record how a step ended',
    description:
      'Done, failed, or what was found. In one go: what is known of the item changes and it is triaged anew, its next step moves on, and custody follows. What was in work goes to `to`, or else to the waiting area of the zone where it goes on; `dry` ends the drying, `freeze` needs a freezer in `to`, `thaw` starts a new round of work, mould sends it to quarantine. ' +
      'A step is done when it is the next one; findings are taken for every step of the route. `assess` and `colour-test` are recorded with what was seen by their own routes; reported here afterwards they close the work at the station. Everything but `done` asks for a new plan. ' +
      'Who reports a step as done, and whoever helped, must be suited for it: skill, declared restrictions, age, a valid respirator fit, hours on shift, heat and weight. Else the answer says why and what they can do instead; a lead may answer for it in `override`. Findings and failures are taken from everybody.',
    access: { scope: 'station:work' },
    command: true,
    speaks: true,
    problems: ['not_found', 'incident_closed', 'wrong_stage', 'item_terminal', 'hand_over_open', 'location_disputed', 'item_missing', 'capacity_full', 'company_refused', 'consent_missing', 'reference_unknown', 'person_not_suited', 'command_refused'],
    success: { status: 201, description: 'The item as it is now, its next step, and what changed.', body: StepReportBody },
  })
  record(@CallOf() call: Call, @Param({ schema: ItemParams }) params: z.output<typeof ItemParams>, @Body({ schema: RecordStepResult }) body: RecordStepResult) {
    const { startedAt, finishedAt, ...rest } = body;
    const input = { ...params, ...rest, startedAtMs: msOf(startedAt), finishedAtMs: msOf(finishedAt) };
    return this.runner.command(call, recordStepResult, input, (report) => ({ status: 201, body: presentStepReport(report, call.language), language: call.language, version: report.item.version, location: `/v1/items/${report.item.id}` }));
  }

  @Get('incidents/:incidentId/unsuited-steps')
  @Operation({
    id: 'listUnsuitedSteps',
    summary: 'List steps done by people who should not do them',
    description: 'In the order in which they were recorded, by pages: why the people were not suited, and the lead who answers for it. Where a name comes back often, a skill, a fit test or another pair of hands is missing.',
    access: { scope: 'report:read' },
    speaks: true,
    problems: ['not_found', 'cursor_invalid'],
    success: { status: 200, description: 'One page of such steps.', body: pageOf(UnsuitedStepBody) },
  })
  unsuited(@CallOf() call: Call, @Param({ schema: IncidentParams }) params: z.output<typeof IncidentParams>, @Query({ schema: PageQuery }) query: z.output<typeof PageQuery>) {
    const after = this.pages.read(call, query.cursor, params)?.[0] ?? null;
    return this.runner.query(call, listUnsuitedSteps, { ...params, limit: query.limit + 1, after }, (rows) => ({ body: this.pages.answer(call, rows, query.limit, params, (row) => [row.id], (row) => presentUnsuitedStep(row, call.language)), language: call.language }));
  }
}
