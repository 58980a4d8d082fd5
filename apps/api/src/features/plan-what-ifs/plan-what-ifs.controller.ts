import { Body, Controller, Get, Inject, Param, Post } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import type { z } from 'zod';
import { getPlanWhatIf, requestPlanWhatIf } from '#application';
import { IncidentParams, PlanWhatIfBody, PlanWhatIfParams, RequestPlanWhatIf } from '#contracts';
import { type Call, CallOf } from '../../http/call.js';
import { Operation } from '../../http/operation.decorator.js';
import { Runner } from '../../http/runner.js';
import { presentPlanWhatIf } from './plan-what-if.presenter.js';

@Controller({ version: '1' })
@ApiTags('Plans')
export class PlanWhatIfsController {
  constructor(@Inject(Runner) private readonly runner: Runner) {}

  @Post('incidents/:incidentId/plan-what-ifs')
  @Operation({
    id: 'requestPlanWhatIf',
    summary: 'Ask what more of something would save, or less would cost',
    description:
      'One more person, station, freezer or dehumidifier, more to dry on, a machine that fails, somebody who goes home: each change is planned against the incident as it stands, with and without it, and the difference is told with the things that it saves. Without `changes` it tries what is usually asked for where the plan is short. Worked out in the background; the plan in force is never touched.',
    access: { scope: 'plan:write' },
    command: true,
    speaks: true,
    problems: ['not_found', 'incident_closed', 'reference_unknown', 'command_refused'],
    success: { status: 202, description: 'It waits or will soon be reckoned.', body: PlanWhatIfBody },
  })
  request(@CallOf() call: Call, @Param({ schema: IncidentParams }) params: z.output<typeof IncidentParams>, @Body({ schema: RequestPlanWhatIf }) body: RequestPlanWhatIf) {
    return this.runner.command(call, requestPlanWhatIf, { ...params, ...body }, (whatIf) => ({ status: 202, body: presentPlanWhatIf({ whatIf, layout: null, labels: new Map() }, call.language), language: call.language, location: `/v1/plan-what-ifs/${whatIf.id}` }));
  }

  @Get('plan-what-ifs/:planWhatIfId')
  @Operation({
    id: 'getPlanWhatIf',
    summary: 'Read what changes would save',
    description: 'How far the reckoning is, and when it is done what each change saves or costs, with the things concerned, how sure the number is, and what the change asks of people. The newest ten of an incident are kept.',
    access: { scope: 'item:read' },
    speaks: true,
    problems: ['not_found'],
    success: { status: 200, description: 'The what-if.', body: PlanWhatIfBody },
  })
  read(@CallOf() call: Call, @Param({ schema: PlanWhatIfParams }) params: z.output<typeof PlanWhatIfParams>) {
    return this.runner.query(call, getPlanWhatIf, params, (view) => ({ body: presentPlanWhatIf(view, call.language), language: call.language }));
  }
}
