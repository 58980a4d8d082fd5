import { Body, Controller, Get, Inject, Param, Post, Query } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import type { z } from 'zod';
import { listPlanWishes, recordPlanWish, recordStationWish, withdrawPlanWish, type PlanWishView } from '#application';
import { IncidentParams, pageOf, PlanWishBody, PlanWishListQuery, PlanWishParams, RecordPlanWish, RecordStationWish, WithdrawPlanWish, WorkStationParams } from '#contracts';
import { type Call, CallOf } from '../../http/call.js';
import { Operation } from '../../http/operation.decorator.js';
import { Pages } from '../../http/pages.js';
import { Runner } from '../../http/runner.js';
import { presentWish } from './plan-wish.presenter.js';

/** What people want of the plan. */
@Controller({ version: '1' })
@ApiTags('Plans')
export class PlanWishesController {
  constructor(
    @Inject(Runner) private readonly runner: Runner,
    @Inject(Pages) private readonly pages: Pages,
  ) {}

  @Post('incidents/:incidentId/plan-wishes')
  @Operation({
    id: 'recordPlanWish',
    summary: 'Say what the plan is to heed for an item',
    description: 'A coordinator pins an item as the plan in force has it, puts it first, lets nothing of it begin before a moment, or rules out a station or a way for it. Every plan heeds it from the next one on, which is asked for with this. It stays on record with who, when and why until it is withdrawn; a pin ends by itself when it cannot hold any more.',
    access: { scope: 'plan:write' },
    command: true,
    speaks: true,
    problems: ['not_found', 'incident_closed', 'item_terminal', 'reference_unknown', 'already_exists', 'command_refused'],
    success: { status: 201, description: 'The next plan heeds it.', body: PlanWishBody },
  })
  record(@CallOf() call: Call, @Param({ schema: IncidentParams }) params: z.output<typeof IncidentParams>, @Body({ schema: RecordPlanWish }) body: RecordPlanWish) {
    const { stationId = null, step = null, disposition = null, notBefore, ...rest } = body;
    return this.runner.command(call, recordPlanWish, { ...params, ...rest, stationId, step, disposition, notBeforeMs: momentOf(notBefore) }, created(call));
  }

  @Post('stations/:stationId/plan-wishes')
  @Operation({
    id: 'recordStationWish',
    summary: 'Refuse or reorder a piece of work at a station',
    description: "The lead of a station's site says why the station does not do a thing, or not before a moment, or takes it before the others. It is recorded as what coordinators want of the plan is, and a new plan is asked for. Only a lead of the site of the station.",
    access: { scope: 'station:work' },
    command: true,
    speaks: true,
    problems: ['not_found', 'incident_closed', 'item_terminal', 'reference_unknown', 'already_exists', 'command_refused'],
    success: { status: 201, description: 'The next plan heeds it.', body: PlanWishBody },
  })
  recordAtStation(@CallOf() call: Call, @Param({ schema: WorkStationParams }) params: z.output<typeof WorkStationParams>, @Body({ schema: RecordStationWish }) body: RecordStationWish) {
    const { step = null, notBefore, ...rest } = body;
    return this.runner.command(call, recordStationWish, { atStationId: params.stationId, ...rest, step, notBeforeMs: momentOf(notBefore) }, created(call));
  }

  @Get('incidents/:incidentId/plan-wishes')
  @Operation({
    id: 'listPlanWishes',
    summary: 'List what people want of the plan',
    description: 'Newest first, by pages: what, for which item, who wanted it, when and why, and how it ended. Those that stand, unless others are asked for; can be limited to an item.',
    access: { scope: 'item:read' },
    speaks: true,
    problems: ['not_found', 'cursor_invalid'],
    success: { status: 200, description: 'One page of wishes.', body: pageOf(PlanWishBody) },
  })
  list(@CallOf() call: Call, @Param({ schema: IncidentParams }) params: z.output<typeof IncidentParams>, @Query({ schema: PlanWishListQuery }) query: z.output<typeof PlanWishListQuery>) {
    const { limit, cursor, ...filter } = query;
    const shape = { ...params, ...filter };
    const before = this.pages.read(call, cursor, shape)?.[0] ?? null;
    return this.runner.query(call, listPlanWishes, { ...params, filter, limit: limit + 1, before }, (rows) => ({ body: this.pages.answer(call, rows, limit, shape, (row) => [row.id], (row) => presentWish(row, call.language)), language: call.language }));
  }

  @Post('plan-wishes/:planWishId/withdrawals')
  @Operation({
    id: 'withdrawPlanWish',
    summary: 'Withdraw what the plan was to heed',
    description: 'The wish ends, stays on record with who withdrew it, when and why, and a new plan is asked for.',
    access: { scope: 'plan:write' },
    command: true,
    speaks: true,
    problems: ['not_found', 'incident_closed', 'reference_unknown', 'already_exists', 'command_refused'],
    success: { status: 201, description: 'The next plan does not heed it any more.', body: PlanWishBody },
  })
  withdraw(@CallOf() call: Call, @Param({ schema: PlanWishParams }) params: z.output<typeof PlanWishParams>, @Body({ schema: WithdrawPlanWish }) body: WithdrawPlanWish) {
    return this.runner.command(call, withdrawPlanWish, { ...params, ...body }, created(call));
  }
}

function created(call: Call) {
  return (wish: PlanWishView) => ({ status: 201, body: presentWish(wish, call.language), language: call.language });
}

function momentOf(instant: string | undefined): number | null {
  return instant === undefined ? null : Date.parse(instant);
}
