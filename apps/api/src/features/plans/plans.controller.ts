import { Body, Controller, Get, Inject, Param, Post, Query } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import type { z } from 'zod';
import { getPlan, getPlanRun, listPlanAssignments, listUnplannedItems, requestPlanRun } from '#application';
import { AssignmentListQuery, IncidentParams, pageOf, PlanAssignmentBody, PlanBody, PlanRunBody, PlanRunParams, RequestPlanRun, UnplannedItemBody, UnplannedListQuery } from '#contracts';
import { type Call, CallOf } from '../../http/call.js';
import { Operation } from '../../http/operation.decorator.js';
import { Pages } from '../../http/pages.js';
import { Runner } from '../../http/runner.js';
import { presentAssignment, presentPlan, presentPlanRun, presentUnplanned } from './plan.presenter.js';

@Controller({ version: '1' })
@ApiTags('Plans')
export class PlansController {
  constructor(
    @Inject(Runner) private readonly runner: Runner,
    @Inject(Pages) private readonly pages: Pages,
  ) {}

  @Post('incidents/:incidentId/plan-runs')
  @Operation({
    id: 'requestPlanRun',
    summary: 'Ask for a new plan',
    description: 'The planner works in the background; read the run to see when its plan is there. At most one run of an incident waits: while one does, it is answered instead of a second.',
    access: { scope: 'plan:write' },
    command: true,
    speaks: true,
    problems: ['not_found', 'incident_closed'],
    success: { status: 202, description: 'The run waits or will soon be at work.', body: PlanRunBody },
  })
  request(@CallOf() call: Call, @Param({ schema: IncidentParams }) params: z.output<typeof IncidentParams>, @Body({ schema: RequestPlanRun }) body: RequestPlanRun) {
    return this.runner.command(call, requestPlanRun, { ...params, ...body }, (run) => ({ status: 202, body: presentPlanRun(run, call.language), language: call.language, location: `/v1/plan-runs/${run.id}` }));
  }

  @Get('plan-runs/:planRunId')
  @Operation({
    id: 'getPlanRun',
    summary: 'Read a plan run',
    description: 'Whether the run waits, works, is done or has failed, and why.',
    access: { scope: 'item:read' },
    speaks: true,
    problems: ['not_found'],
    success: { status: 200, description: 'The run.', body: PlanRunBody },
  })
  run(@CallOf() call: Call, @Param({ schema: PlanRunParams }) params: z.output<typeof PlanRunParams>) {
    return this.runner.query(call, getPlanRun, params, (run) => ({ body: presentPlanRun(run, call.language), language: call.language }));
  }

  @Get('incidents/:incidentId/plan')
  @Operation({
    id: 'getPlan',
    summary: 'Read the plan in force',
    description: 'The newest plan that was published, which work follows: what is in time, what is not and why, and which resources are short; and whether a newer one waits to be published. 404 until the first plan of the incident is published.',
    access: { scope: 'item:read' },
    speaks: true,
    problems: ['not_found'],
    success: { status: 200, description: 'The plan in force.', body: PlanBody },
  })
  plan(@CallOf() call: Call, @Param({ schema: IncidentParams }) params: z.output<typeof IncidentParams>) {
    return this.runner.query(call, getPlan, params, (plan) => ({ body: presentPlan(plan, call.language), language: call.language }));
  }

  @Get('incidents/:incidentId/plan/assignments')
  @Operation({
    id: 'listPlanAssignments',
    summary: 'List who does what, where and when',
    description: 'Planned steps by start, item and position, of the plan in force or of another one by its number; can be limited to a station or an item. What goes into one bath together has the same `batchId`. All pages belong to the revision of the first.',
    access: { scope: 'item:read' },
    problems: ['not_found', 'cursor_invalid'],
    success: { status: 200, description: 'One page of assignments.', body: pageOf(PlanAssignmentBody) },
  })
  assignments(@CallOf() call: Call, @Param({ schema: IncidentParams }) params: z.output<typeof IncidentParams>, @Query({ schema: AssignmentListQuery }) query: z.output<typeof AssignmentListQuery>) {
    const { limit, cursor, revision = null, ...filter } = query;
    const shape = { ...params, ...filter, revision };
    const [revisionId = null, startsAtMs, itemId, position] = this.pages.read(call, cursor, shape) ?? [];
    const after = startsAtMs && itemId ? { startsAtMs: Number(startsAtMs), itemId, position: Number(position) } : null;
    return this.runner.query(call, listPlanAssignments, { ...params, revisionId, revision, filter, limit: limit + 1, after }, (page) => ({
      body: this.pages.answer(call, page.rows, limit, shape, (row) => [page.revisionId, String(row.startsAtMs), row.itemId, String(row.position)], presentAssignment),
    }));
  }

  @Get('incidents/:incidentId/plan/unplanned')
  @Operation({
    id: 'listUnplannedItems',
    summary: 'List the items that the plan has no place for',
    description: 'The greatest weight first, each with what stands in its way, of the plan in force or of another one by its number. All pages belong to the revision of the first.',
    access: { scope: 'item:read' },
    speaks: true,
    problems: ['not_found', 'cursor_invalid'],
    success: { status: 200, description: 'One page of unplanned items.', body: pageOf(UnplannedItemBody) },
  })
  unplanned(@CallOf() call: Call, @Param({ schema: IncidentParams }) params: z.output<typeof IncidentParams>, @Query({ schema: UnplannedListQuery }) query: z.output<typeof UnplannedListQuery>) {
    const { limit, cursor, revision = null } = query;
    const shape = { ...params, revision };
    const [revisionId = null, weight, itemId] = this.pages.read(call, cursor, shape) ?? [];
    const after = weight && itemId ? { weight: Number(weight), itemId } : null;
    return this.runner.query(call, listUnplannedItems, { ...params, revisionId, revision, limit: limit + 1, after }, (page) => ({
      body: this.pages.answer(call, page.rows, limit, shape, (row) => [page.revisionId, String(row.weight), row.itemId], (row) => presentUnplanned(row, call.language, page.atMs)),
      language: call.language,
    }));
  }
}
