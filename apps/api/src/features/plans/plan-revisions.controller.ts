import { Body, Controller, Get, Inject, Param, Post, Query } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import type { z } from 'zod';
import { getPlanRevision, listPlanChanges, listPlanRevisions, publishPlanRevision } from '#application';
import { IncidentParams, pageOf, PageQuery, PlanChangesBody, PlanChangesQuery, PlanRevisionBody, PlanRevisionDetailBody, PlanRevisionParams, PublishPlanRevision } from '#contracts';
import { type Call, CallOf } from '../../http/call.js';
import { Operation } from '../../http/operation.decorator.js';
import { Pages } from '../../http/pages.js';
import { Runner } from '../../http/runner.js';
import { presentChange, presentComparison, presentRevision, presentRevisionDetail } from './plan-revision.presenter.js';

/** The numbered plans of an incident, what is different between them, and which one work follows. */
@Controller({ version: '1' })
@ApiTags('Plans')
export class PlanRevisionsController {
  constructor(
    @Inject(Runner) private readonly runner: Runner,
    @Inject(Pages) private readonly pages: Pages,
  ) {}

  @Get('incidents/:incidentId/plan-revisions')
  @Operation({
    id: 'listPlanRevisions',
    summary: 'List the plans of an incident',
    description: 'All numbered plans, newest first: when each was made, whether work follows it, waits for it to be published or has left it behind, who published it, and what it had in time.',
    access: { scope: 'item:read' },
    problems: ['not_found', 'cursor_invalid'],
    success: { status: 200, description: 'One page of plans.', body: pageOf(PlanRevisionBody) },
  })
  list(@CallOf() call: Call, @Param({ schema: IncidentParams }) params: z.output<typeof IncidentParams>, @Query({ schema: PageQuery }) query: z.output<typeof PageQuery>) {
    const [number] = this.pages.read(call, query.cursor, params) ?? [];
    const before = number === undefined ? null : Number(number);
    return this.runner.query(call, listPlanRevisions, { ...params, limit: query.limit + 1, before }, (rows) => ({ body: this.pages.answer(call, rows, query.limit, params, (row) => [String(row.number)], presentRevision) }));
  }

  @Get('plan-revisions/:planRevisionId')
  @Operation({
    id: 'getPlanRevision',
    summary: 'Read one plan',
    description: 'A plan by its id, whether work follows it or not: what it has in time, what it has not and why, and which resources are short. Read a proposal here before you publish it.',
    access: { scope: 'item:read' },
    speaks: true,
    problems: ['not_found'],
    success: { status: 200, description: 'The plan.', body: PlanRevisionDetailBody },
  })
  read(@CallOf() call: Call, @Param({ schema: PlanRevisionParams }) params: z.output<typeof PlanRevisionParams>) {
    return this.runner.query(call, getPlanRevision, params, (detail) => ({ body: presentRevisionDetail(detail, call.language), language: call.language }));
  }

  @Get('plan-revisions/:planRevisionId/changes')
  @Operation({
    id: 'listPlanChanges',
    summary: 'Ask what a plan has otherwise than an earlier one',
    description: 'Item by item and in words, the greatest weight first, by pages: what is in time now, what has fallen out and why, what takes another way, and what has moved to another time or place; with the counts of the whole. The earlier plan is the one that work followed before, unless `since` names another. Only between plans whose assignments are still kept.',
    access: { scope: 'item:read' },
    speaks: true,
    problems: ['not_found', 'cursor_invalid'],
    success: { status: 200, description: 'One page of changes.', body: PlanChangesBody },
  })
  changes(@CallOf() call: Call, @Param({ schema: PlanRevisionParams }) params: z.output<typeof PlanRevisionParams>, @Query({ schema: PlanChangesQuery }) query: z.output<typeof PlanChangesQuery>) {
    const { limit, cursor, since = null, kind = null } = query;
    const shape = { ...params, since, kind };
    const [pinned, weight, itemId] = this.pages.read(call, cursor, shape) ?? [];
    const after = weight && itemId ? { weight: Number(weight), itemId } : null;
    return this.runner.query(call, listPlanChanges, { ...params, since: pinned || since, kind, limit: limit + 1, after }, (comparison) => ({
      body: { ...presentComparison(comparison), ...this.pages.answer(call, comparison.rows, limit, shape, (row) => [comparison.before?.id ?? '', String(row.weight), row.itemId], (row) => presentChange(row, call.language)) },
      language: call.language,
    }));
  }

  @Post('plan-revisions/:planRevisionId/publications')
  @Operation({
    id: 'publishPlanRevision',
    summary: 'Put a proposed plan into force',
    description: 'Where an incident publishes by hand, a new plan is a proposal: work lists follow the plan before until a lead publishes the new one. Only the newest plan of an incident can be published; an older one was made from what is not so any more.',
    access: { scope: 'plan:write' },
    command: true,
    problems: ['not_found', 'incident_closed', 'reference_unknown', 'already_exists', 'command_refused'],
    success: { status: 201, description: 'Work follows this plan now.', body: PlanRevisionBody },
  })
  publish(@CallOf() call: Call, @Param({ schema: PlanRevisionParams }) params: z.output<typeof PlanRevisionParams>, @Body({ schema: PublishPlanRevision }) body: PublishPlanRevision) {
    return this.runner.command(call, publishPlanRevision, { ...params, ...body }, (view) => ({ status: 201, body: presentRevision(view), location: `/v1/plan-revisions/${view.id}` }));
  }
}
