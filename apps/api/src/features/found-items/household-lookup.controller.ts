import { Body, Controller, Inject, Param, Post } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import type { z } from 'zod';
import { lookUpHouseholds } from '#application';
import { HouseholdLookupBody, IncidentParams, LookUpHouseholds } from '#contracts';
import { type Call, CallOf } from '../../http/call.js';
import { Operation } from '../../http/operation.decorator.js';
import { RateLimits } from '../../http/rate-limits.js';
import { Runner } from '../../http/runner.js';
import { presentLookup } from './found-items.presenter.js';

@Controller({ version: '1' })
@ApiTags('Households')
export class HouseholdLookupController {
  constructor(
    @Inject(Runner) private readonly runner: Runner,
    @Inject(RateLimits) private readonly limits: RateLimits,
  ) {}

  @Post('incidents/:incidentId/household-lookups')
  @Operation({
    id: 'lookUpHouseholds',
    summary: 'Find a household by name, phone or e-mail',
    description: 'For the desk and the telephone. Whole values only, as `how` says; what is asked for stands in the body, so that no log holds it. Stores nothing but an entry of the audit that somebody looked; 30 look-ups of a key within a minute (our own limit), then 429.',
    access: { scope: 'household:read' },
    speaks: true,
    problems: ['not_found', 'command_refused'],
    success: { status: 200, description: 'Households that match.', body: HouseholdLookupBody },
  })
  async lookUp(@CallOf() call: Call, @Param({ schema: IncidentParams }) params: z.output<typeof IncidentParams>, @Body({ schema: LookUpHouseholds }) body: z.output<typeof LookUpHouseholds>) {
    await this.limits.takeLookUp(call.context);
    return this.runner.auditedQuery(call, lookUpHouseholds, { ...params, ...body }, (found) => ({ body: presentLookup(found, call.language), language: call.language }));
  }
}
