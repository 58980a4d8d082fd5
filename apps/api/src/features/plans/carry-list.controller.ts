import { Controller, Get, Inject, Param, Query } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import type { z } from 'zod';
import { getCarryList } from '#application';
import { CarryListBody, CarryListQuery, IncidentParams } from '#contracts';
import { type Call, CallOf } from '../../http/call.js';
import { Operation } from '../../http/operation.decorator.js';
import { Runner } from '../../http/runner.js';
import { presentCarryList } from './carry-list.presenter.js';

/** What the plan has carried. */
@Controller({ version: '1' })
@ApiTags('Plans')
export class CarryListController {
  constructor(@Inject(Runner) private readonly runner: Runner) {}

  @Get('incidents/:incidentId/carry-list')
  @Operation({
    id: 'getCarryList',
    summary: 'What vehicles take to other sites next',
    description: 'By the plan in force, in the order of leaving: which vehicle, from where to where, and which things go with it, with what they are reckoned to weigh and how many people lift them. Only what still waits where the ride begins and still goes that way. Plans reckon with vehicles of which rides and load are known (`changeVehicle`). Nothing is moved by this: make a manifest of the ride, load it and let it depart.',
    access: { scope: 'item:read' },
    speaks: true,
    problems: ['not_found'],
    success: { status: 200, description: 'The rides of the plan.', body: CarryListBody },
  })
  list(@CallOf() call: Call, @Param({ schema: IncidentParams }) params: z.output<typeof IncidentParams>, @Query({ schema: CarryListQuery }) query: z.output<typeof CarryListQuery>) {
    return this.runner.query(call, getCarryList, { ...params, ...query }, (list) => ({ body: presentCarryList(list, call.language), language: call.language }));
  }
}
