import { Controller, Get, Inject, Param, Query } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import type { z } from 'zod';
import { getReferralList } from '#application';
import { IncidentParams, ReferralListBody, ReferralListQuery } from '#contracts';
import { type Call, CallOf } from '../../http/call.js';
import { Operation } from '../../http/operation.decorator.js';
import { Runner } from '../../http/runner.js';
import { presentReferralList } from './referral-list.presenter.js';

/** What the plan sends away. */
@Controller({ version: '1' })
@ApiTags('Plans')
export class ReferralListController {
  constructor(@Inject(Runner) private readonly runner: Runner) {}

  @Get('incidents/:incidentId/referral-list')
  @Operation({
    id: 'getReferralList',
    summary: 'What the plan sends to specialists',
    description: 'By the plan in force, in the order in which things should be with them: which thing, to whom, when, what is to be done before, and what the rules of consent still ask for. Only what is still here and still goes that way. Plans reckon with specialists of whom it is known what they can take (`changeSpecialist`). Nothing is sent by this: record a referral with `referItem`.',
    access: { scope: 'item:read' },
    speaks: true,
    problems: ['not_found'],
    success: { status: 200, description: 'The referrals of the plan.', body: ReferralListBody },
  })
  list(@CallOf() call: Call, @Param({ schema: IncidentParams }) params: z.output<typeof IncidentParams>, @Query({ schema: ReferralListQuery }) query: z.output<typeof ReferralListQuery>) {
    return this.runner.query(call, getReferralList, { ...params, ...query }, (list) => ({ body: presentReferralList(list, call.language), language: call.language }));
  }
}
