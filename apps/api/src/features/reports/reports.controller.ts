import { Controller, Get, Inject, Param, Query } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import type { z } from 'zod';
import { householdReport, reconcile, situationReport } from '#application';
import { HouseholdParams, HouseholdReportBody, IncidentParams, ReconciliationBody, SituationQuery, SituationReportBody } from '#contracts';
import type { Clock } from '#platform';
import { type Call, CallOf } from '../../http/call.js';
import { Operation } from '../../http/operation.decorator.js';
import { Runner } from '../../http/runner.js';
import { CLOCK } from '../../http/tokens.js';
import { presentHouseholdReport, presentReconciliation, presentSituation } from './report.presenter.js';

/** One operational period ahead (commonly 12 h in incident-command doctrine; from memory). */
const PERIOD_MS = 12 * 3_600_000;

@Controller({ version: '1' })
@ApiTags('Reports')
export class ReportsController {
  constructor(
    @Inject(Runner) private readonly runner: Runner,
    @Inject(CLOCK) private readonly clock: Clock,
  ) {}

  @Get('incidents/:incidentId/situation-report')
  @Operation({
    id: 'getSituationReport',
    summary: 'The situation of an incident',
    description: 'What is stabilised, waiting and at risk, how full places and how damp rooms are, and what the plan is short of.',
    access: { scope: 'report:read' },
    speaks: true,
    problems: ['not_found'],
    success: { status: 200, description: 'The situation now.', body: SituationReportBody },
  })
  situation(@CallOf() call: Call, @Param({ schema: IncidentParams }) params: z.output<typeof IncidentParams>, @Query({ schema: SituationQuery }) query: z.output<typeof SituationQuery>) {
    const untilMs = query.until === undefined ? this.clock.nowMs() + PERIOD_MS : Date.parse(query.until);
    return this.runner.query(call, situationReport, { ...params, untilMs }, (report) => ({ body: presentSituation(report, call.language), language: call.language }));
  }

  @Get('incidents/:incidentId/reconciliation')
  @Operation({
    id: 'getReconciliation',
    summary: 'Add up every item and verify every custody chain',
    description: 'Reads all custody events of the incident; meant for the end of an operational period, not for a dashboard.',
    access: { scope: 'report:read' },
    problems: ['not_found'],
    success: { status: 200, description: 'The sums and every fault found.', body: ReconciliationBody },
  })
  reconciliation(@CallOf() call: Call, @Param({ schema: IncidentParams }) params: z.output<typeof IncidentParams>) {
    return this.runner.query(call, reconcile, params, (found) => ({ body: presentReconciliation(found) }));
  }

  @Get('households/:householdId/situation-report')
  @Operation({
    id: 'getHouseholdReport',
    summary: 'What a household may be told',
    description: 'Its own things in plain words, and which of them wait for its decision.',
    access: { scope: 'household:read' },
    speaks: true,
    problems: ['not_found', 'owner_unknown'],
    success: { status: 200, description: 'The household\'s things.', body: HouseholdReportBody },
  })
  household(@CallOf() call: Call, @Param({ schema: HouseholdParams }) params: z.output<typeof HouseholdParams>) {
    return this.runner.query(call, householdReport, params, (report) => ({ body: presentHouseholdReport(report, call.language), language: call.language }));
  }
}
