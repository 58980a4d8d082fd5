import { Controller, Get, Inject, Param, Query } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import type { z } from 'zod';
import { getDryingList, getWorkList } from '#application';
import { DryingListBody, SiteParams, WorkListBody, WorkListQuery, WorkStationParams } from '#contracts';
import { type Call, CallOf } from '../../http/call.js';
import { Operation } from '../../http/operation.decorator.js';
import { Runner } from '../../http/runner.js';
import { presentDryingList, presentWorkList } from './work-list.presenter.js';

@Controller({ version: '1' })
@ApiTags('Stations')
export class WorkListsController {
  constructor(@Inject(Runner) private readonly runner: Runner) {}

  @Get('stations/:stationId/work-list')
  @Operation({
    id: 'getWorkList',
    summary: 'What a station does next',
    description: 'By the plan in force, in planned order: where the item is, how it is handled, what to wear, where it goes afterwards. Beside it what the station has in hand now. What dries is on the drying list of the site.',
    access: { scope: 'station:work' },
    speaks: true,
    problems: ['not_found'],
    success: { status: 200, description: 'The work of the station.', body: WorkListBody },
  })
  workList(@CallOf() call: Call, @Param({ schema: WorkStationParams }) params: z.output<typeof WorkStationParams>, @Query({ schema: WorkListQuery }) query: z.output<typeof WorkListQuery>) {
    return this.runner.query(call, getWorkList, { ...params, ...query }, (list) => ({ body: presentWorkList(list, call.language), language: call.language }));
  }

  @Get('sites/:siteId/drying-list')
  @Operation({
    id: 'getDryingList',
    summary: 'What to hang where, and what should be dry',
    description: 'Drying belongs to no station: what the plan in force hangs next on which place of the site, and everything that hangs there with the band in which the present air should have dried it.',
    access: { scope: 'station:work' },
    speaks: true,
    problems: ['not_found'],
    success: { status: 200, description: 'The drying of the site.', body: DryingListBody },
  })
  dryingList(@CallOf() call: Call, @Param({ schema: SiteParams }) params: z.output<typeof SiteParams>, @Query({ schema: WorkListQuery }) query: z.output<typeof WorkListQuery>) {
    return this.runner.query(call, getDryingList, { ...params, ...query }, (list) => ({ body: presentDryingList(list, call.language), language: call.language }));
  }
}
