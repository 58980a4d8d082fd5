import { Controller, Get, Inject, Param, Query } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import type { z } from 'zod';
import { getPlanExplanation, type PlanReckoner } from '#application';
import { ItemParams, PlanExplanationBody, PlanExplanationQuery } from '#contracts';
import { type Call, CallOf } from '../../http/call.js';
import { Operation } from '../../http/operation.decorator.js';
import { Runner } from '../../http/runner.js';
import { PLANS } from '../../http/tokens.js';
import { presentPlanExplanation } from './plan-explanation.presenter.js';

@Controller({ version: '1' })
@ApiTags('Plans')
export class PlanExplanationsController {
  constructor(@Inject(Runner) private readonly runner: Runner, @Inject(PLANS) private readonly plans: PlanReckoner) {}

  @Get('items/:itemId/plan-explanation')
  @Operation({
    id: 'getPlanExplanation',
    summary: 'Ask why the plan has an item when and where it has it',
    description:
      'What it waits for at each step and until when, which other stations and places could have taken it and why they did not, why a better way was passed over, or what keeps it out. With `before` also why it comes before or after another item. It is explained by what the plan in force was made from, as of when it was made; what would get it in is worked out by a what-if about the item (`POST /v1/incidents/{incidentId}/plan-what-ifs`).',
    access: { scope: 'item:read' },
    speaks: true,
    problems: ['not_found', 'reference_unknown', 'validation_failed', 'unavailable'],
    success: { status: 200, description: 'The explanation.', body: PlanExplanationBody },
  })
  explain(@CallOf() call: Call, @Param({ schema: ItemParams }) params: z.output<typeof ItemParams>, @Query({ schema: PlanExplanationQuery }) query: z.output<typeof PlanExplanationQuery>) {
    return this.runner.query(call, getPlanExplanation, { ...params, ...query }, async (read) => ({ body: presentPlanExplanation(read, await this.plans.explain(call.context.networkId, read), call.language), language: call.language }));
  }
}
