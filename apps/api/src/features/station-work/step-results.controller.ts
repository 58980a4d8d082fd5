import { Body, Controller, Inject, Param, Post } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import type { z } from 'zod';
import { recordStepResult } from '#application';
import { ItemParams, RecordStepResult, StepReportBody } from '#contracts';
import { type Call, CallOf } from '../../http/call.js';
import { Operation } from '../../http/operation.decorator.js';
import { Runner } from '../../http/runner.js';
import { msOf } from '../../presenters/time.js';
import { presentStepReport } from './step-report.presenter.js';

@Controller({ version: '1' })
@ApiTags('Stations')
export class StepResultsController {
  constructor(@Inject(Runner) private readonly runner: Runner) {}

  @Post('items/:itemId/step-results')
  @Operation({
    id: 'recordStepResult',
    summary: 'Record how a step ended',
    description:
      'Done, failed, or what was found. In one go: what is known of the item changes and it is triaged anew, its next step moves on, and custody follows. What was in work goes to `to`, or else to the waiting area of the zone where it goes on; `dry` ends the drying, `freeze` needs a freezer in `to`, `thaw` starts a new round of work, mould sends it to quarantine. ' +
      'A step is done when it is the next one; findings are taken for every step of the route. `assess` and `colour-test` are recorded with what was seen by their own routes; reported here afterwards they close the work at the station. Everything but `done` asks for a new plan.',
    access: { scope: 'station:work' },
    command: true,
    problems: ['not_found', 'wrong_stage', 'item_terminal', 'capacity_full', 'consent_missing', 'reference_unknown', 'command_refused'],
    success: { status: 201, description: 'The item as it is now, its next step, and what changed.', body: StepReportBody },
  })
  record(@CallOf() call: Call, @Param({ schema: ItemParams }) params: z.output<typeof ItemParams>, @Body({ schema: RecordStepResult }) body: RecordStepResult) {
    const { startedAt, finishedAt, ...rest } = body;
    const input = { ...params, ...rest, startedAtMs: msOf(startedAt), finishedAtMs: msOf(finishedAt) };
    return this.runner.command(call, recordStepResult, input, (report) => ({ status: 201, body: presentStepReport(report), version: report.item.version, location: `/v1/items/${report.item.id}` }));
  }
}
