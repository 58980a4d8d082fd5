import { Controller, Get, Inject, Param, Query } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import type { z } from 'zod';
import { getPlanLoad, getPlanProgress, getStationPlan, getStationPlanned, type PlanReckoner, reckonPlanProgress, stationPlan } from '#application';
import { lanesSvg, loadSvg } from '#climate';
import { IncidentParams, PlanLoadBody, PlanLoadQuery, PlanProgressBody, PlanProgressQuery, StationPlanBody, StationPlanQuery, WorkStationParams } from '#contracts';
import { type Call, CallOf } from '../../http/call.js';
import { Operation } from '../../http/operation.decorator.js';
import { asPicture, SVG } from '../../http/picture.js';
import { Runner } from '../../http/runner.js';
import { PLANS } from '../../http/tokens.js';
import { drawPlanLoad, presentPlanLoad } from './plan-load.presenter.js';
import { presentPlanProgress } from './plan-progress.presenter.js';
import { drawStationPlan, presentStationPlan } from './station-plan.presenter.js';

type StationQuery = z.output<typeof StationPlanQuery>;
type LoadQuery = z.output<typeof PlanLoadQuery>;

@Controller({ version: '1' })
export class PlanChartsController {
  constructor(@Inject(Runner) private readonly runner: Runner, @Inject(PLANS) private readonly plans: PlanReckoner) {}

  @Get('stations/:stationId/plan-chart')
  @ApiTags('Stations')
  @Operation({
    id: 'getStationPlan',
    summary: 'The work of a station over time',
    description: 'What the plan in force gives a station in the time asked for, row by row, and how each piece of it stands by what was reported: still to come, in work, done, late, or dropped. Things that are done together are one piece. What the station had in hand when the plan was made, or has in hand beside it, is there too.',
    access: { scope: 'station:work' },
    speaks: true,
    problems: ['not_found', 'unavailable'],
    success: { status: 200, description: 'The work of the station.', body: StationPlanBody },
  })
  async station(@CallOf() call: Call, @Param({ schema: WorkStationParams }) params: z.output<typeof WorkStationParams>, @Query({ schema: StationPlanQuery }) query: StationQuery) {
    return this.runner.query(call, getStationPlan, await this.questionOf(call, params, query), (parts) => ({ body: presentStationPlan(stationPlan(parts), call.language), language: call.language }));
  }

  @Get('stations/:stationId/plan-chart/plot')
  @ApiTags('Stations')
  @Operation({
    id: 'plotStationPlan',
    summary: 'The work of a station as a picture',
    description: 'The same as `getStationPlan`, drawn: a row for each place of the station, a bar for each piece of work with tag and step, closed hours shaded, and the present moment. Times are those of the network. SVG 1.1 with its main numbers in words in `title` and `desc`; it holds no script and loads nothing.',
    access: { scope: 'station:work' },
    speaks: true,
    problems: ['not_found', 'unavailable'],
    success: { status: 200, description: 'The picture.', body: null, mediaType: SVG },
  })
  async stationPlot(@CallOf() call: Call, @Param({ schema: WorkStationParams }) params: z.output<typeof WorkStationParams>, @Query({ schema: StationPlanQuery }) query: StationQuery) {
    const picture = await this.runner.query(call, getStationPlan, await this.questionOf(call, params, query), (parts) => ({ body: lanesSvg(drawStationPlan(stationPlan(parts), call.language)), language: call.language }));
    return asPicture(call, picture);
  }

  @Get('incidents/:incidentId/plan-load')
  @ApiTags('Plans')
  @Operation({
    id: 'getPlanLoad',
    summary: 'What the plan uses of a resource over time',
    description: 'By the plan in force: stations of a step, people with a skill, drying area or water to the air of a room, volume of a freezer, a courier or specialist. What had begun before the plan was made is counted.',
    access: { scope: 'item:read' },
    speaks: true,
    problems: ['not_found', 'reference_unknown', 'unavailable'],
    success: { status: 200, description: 'The load.', body: PlanLoadBody },
  })
  load(@CallOf() call: Call, @Param({ schema: IncidentParams }) params: z.output<typeof IncidentParams>, @Query({ schema: PlanLoadQuery }) query: LoadQuery) {
    return this.runner.query(call, getPlanLoad, { ...params, ...loadOf(query) }, async (parts) => ({ body: presentPlanLoad(await this.plans.load(call.context.networkId, parts), call.language), language: call.language }));
  }

  @Get('incidents/:incidentId/plan-load/plot')
  @ApiTags('Plans')
  @Operation({
    id: 'plotPlanLoad',
    summary: 'The load of a resource as a picture',
    description: 'The same as `getPlanLoad`, drawn: use as steps, what there is as a line, overload hatched. Times are those of the network. SVG 1.1 with its main numbers in words in `title` and `desc`; it holds no script and loads nothing.',
    access: { scope: 'item:read' },
    speaks: true,
    problems: ['not_found', 'reference_unknown', 'unavailable'],
    success: { status: 200, description: 'The picture.', body: null, mediaType: SVG },
  })
  async loadPlot(@CallOf() call: Call, @Param({ schema: IncidentParams }) params: z.output<typeof IncidentParams>, @Query({ schema: PlanLoadQuery }) query: LoadQuery) {
    const picture = await this.runner.query(call, getPlanLoad, { ...params, ...loadOf(query) }, async (parts) => ({ body: loadSvg(drawPlanLoad(await this.plans.load(call.context.networkId, parts), call.language)), language: call.language }));
    return asPicture(call, picture);
  }

  @Get('incidents/:incidentId/plan-progress')
  @ApiTags('Plans')
  @Operation({
    id: 'getPlanProgress',
    summary: 'Planned against done',
    description: 'For the plan in force and for the last 24 hours: whether work began when it was to begin, how long it took, whether things go the way that was planned, and whether what was to be safe in time is. In numbers and in words. Only plans whose detail is kept count; `since` says from when on.',
    access: { scope: 'item:read' },
    speaks: true,
    problems: ['not_found', 'unavailable'],
    success: { status: 200, description: 'The progress.', body: PlanProgressBody },
  })
  progress(@CallOf() call: Call, @Param({ schema: IncidentParams }) params: z.output<typeof IncidentParams>, @Query({ schema: PlanProgressQuery }) query: z.output<typeof PlanProgressQuery>) {
    return this.runner.query(call, getPlanProgress, { ...params, ...query }, async (read) => ({ body: presentPlanProgress(await reckonPlanProgress(read, call.context.networkId, this.plans), call.language), language: call.language }));
  }

  /** The plan is unpacked between two reads, so that no transaction waits for it. */
  private async questionOf(call: Call, params: z.output<typeof WorkStationParams>, { toleranceMinutes, ...window }: StationQuery) {
    const { packed, ...found } = await this.runner.find(call, getStationPlanned, params);
    const ground = packed && (await this.plans.station(call.context.networkId, { packed, stationId: params.stationId }));
    return { ...found, ground, toleranceMinutes, ...windowOf(window) };
  }
}

function windowOf({ from, hours }: { from?: string | undefined; hours: number }): { fromMs: number | null; hours: number } {
  return { fromMs: from === undefined ? null : Date.parse(from), hours };
}

function loadOf({ resource, what, siteId, ...window }: LoadQuery) {
  return { resource, what, siteId, ...windowOf(window) };
}
