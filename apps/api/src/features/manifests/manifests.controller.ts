import { Body, Controller, Get, Inject, Param, Post, Query } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import type { z } from 'zod';
import { arriveManifest, createManifest, departManifest, getManifest, listManifestExceptions, loadManifest, type ManifestView, settleManifestException } from '#application';
import { ArriveManifest, CreateManifest, DepartManifest, IncidentParams, LoadManifest, ManifestBody, ManifestExceptionBody, ManifestExceptionParams, ManifestExceptionQuery, ManifestParams, pageOf, SettleException } from '#contracts';
import { type Call, CallOf } from '../../http/call.js';
import { Operation } from '../../http/operation.decorator.js';
import { Pages } from '../../http/pages.js';
import { Runner } from '../../http/runner.js';
import { msOf } from '../../presenters/time.js';
import { presentManifest, presentManifestException } from './manifest.presenter.js';

const answer = (view: ManifestView) => ({ status: 201, body: presentManifest(view), version: view.manifest.version, location: `/v1/manifests/${view.manifest.id}` });

/** What travels on vehicles and in containers, and what differs. */
@Controller({ version: '1' })
@ApiTags('Custody')
export class ManifestsController {
  constructor(
    @Inject(Runner) private readonly runner: Runner,
    @Inject(Pages) private readonly pages: Pages,
  ) {}

  @Post('incidents/:incidentId/manifests')
  @Operation({
    id: 'createManifest',
    summary: 'Open the manifest of a trip',
    description: 'What is to travel, on which vehicle or in which container, from where to where. Nothing moves yet. A carrier is loaded for one trip at a time.',
    access: { scope: 'custody:write' },
    command: true,
    problems: ['not_found', 'incident_closed', 'already_exists', 'hand_over_open', 'tag_unknown', 'reference_unknown', 'command_refused'],
    success: { status: 201, description: 'The manifest.', body: ManifestBody },
  })
  create(@CallOf() call: Call, @Param({ schema: IncidentParams }) params: z.output<typeof IncidentParams>, @Body({ schema: CreateManifest }) body: z.output<typeof CreateManifest>) {
    return this.runner.command(call, createManifest, { ...params, ...body }, answer);
  }

  @Get('manifests/:manifestId')
  @Operation({
    id: 'getManifest',
    summary: 'Read a manifest',
    description: 'Its lines, what differs at departure and arrival, and the exceptions with their owners.',
    access: { scope: 'item:read' },
    problems: ['not_found'],
    success: { status: 200, description: 'The manifest.', body: ManifestBody },
  })
  read(@CallOf() call: Call, @Param({ schema: ManifestParams }) params: z.output<typeof ManifestParams>) {
    return this.runner.query(call, getManifest, params, (view) => ({ body: presentManifest(view), version: view.manifest.version }));
  }

  @Post('manifests/:manifestId/loadings')
  @Operation({
    id: 'loadManifest',
    summary: 'Scan things onto the carrier',
    description: 'Each thing passes to the vehicle or container, which keeps it from then on. A thing that nobody expected may be loaded; it becomes an exception when the carrier departs.',
    access: { scope: 'custody:write' },
    command: true,
    problems: ['not_found', 'incident_closed', 'manifest_state', 'wrong_stage', 'item_terminal', 'hand_over_open', 'location_disputed', 'item_missing', 'capacity_full', 'company_refused', 'tag_unknown', 'reference_unknown', 'command_refused'],
    success: { status: 201, description: 'The manifest with what is aboard.', body: ManifestBody },
  })
  load(@CallOf() call: Call, @Param({ schema: ManifestParams }) params: z.output<typeof ManifestParams>, @Body({ schema: LoadManifest }) body: z.output<typeof LoadManifest>) {
    const { loadedAt, ...rest } = body;
    return this.runner.command(call, loadManifest, { ...params, ...rest, loadedAtMs: msOf(loadedAt) }, answer);
  }

  @Post('manifests/:manifestId/departures')
  @Operation({
    id: 'departManifest',
    summary: 'Let the carrier depart',
    description: 'Refused until every expected thing is aboard or named as an exception with a reason. What is aboard though nobody expected it becomes an exception, too.',
    access: { scope: 'custody:write' },
    command: true,
    problems: ['not_found', 'incident_closed', 'manifest_state', 'manifest_differs', 'tag_unknown', 'reference_unknown', 'command_refused'],
    success: { status: 201, description: 'The manifest as it departed.', body: ManifestBody },
  })
  depart(@CallOf() call: Call, @Param({ schema: ManifestParams }) params: z.output<typeof ManifestParams>, @Body({ schema: DepartManifest }) body: z.output<typeof DepartManifest>) {
    const { departedAt, ...rest } = body;
    return this.runner.command(call, departManifest, { ...params, ...rest, departedAtMs: msOf(departedAt) }, answer);
  }

  @Post('manifests/:manifestId/arrivals')
  @Operation({
    id: 'arriveManifest',
    summary: 'Scan things off the carrier',
    description:
      'What comes off passes to `to`. With `complete` (the default) what was aboard and was not scanned is reported missing; what was not aboard on record is kept as an exception, and as a disputed location when the record has it elsewhere.',
    access: { scope: 'custody:write' },
    command: true,
    problems: ['not_found', 'incident_closed', 'manifest_state', 'wrong_stage', 'item_terminal', 'hand_over_open', 'location_disputed', 'item_missing', 'capacity_full', 'company_refused', 'tag_unknown', 'reference_unknown', 'command_refused'],
    success: { status: 201, description: 'The manifest as it arrived.', body: ManifestBody },
  })
  arrive(@CallOf() call: Call, @Param({ schema: ManifestParams }) params: z.output<typeof ManifestParams>, @Body({ schema: ArriveManifest }) body: z.output<typeof ArriveManifest>) {
    const { arrivedAt, ...rest } = body;
    return this.runner.command(call, arriveManifest, { ...params, ...rest, arrivedAtMs: msOf(arrivedAt) }, answer);
  }

  @Get('incidents/:incidentId/manifest-exceptions')
  @Operation({
    id: 'listManifestExceptions',
    summary: 'List what differs on manifests',
    description: 'Each with its owner and its age; the oldest unsettled one first.',
    access: { scope: 'item:read' },
    problems: ['not_found', 'cursor_invalid'],
    success: { status: 200, description: 'One page.', body: pageOf(ManifestExceptionBody) },
  })
  exceptions(@CallOf() call: Call, @Param({ schema: IncidentParams }) params: z.output<typeof IncidentParams>, @Query({ schema: ManifestExceptionQuery }) query: z.output<typeof ManifestExceptionQuery>) {
    const { limit, cursor, settled } = query;
    const filter = { ...params, settled };
    const [open, id] = this.pages.read(call, cursor, filter) ?? [];
    const after = id === undefined ? null : { open: open === 'open', id };
    return this.runner.query(call, listManifestExceptions, { ...params, onlyOpen: settled === 'false', limit: limit + 1, after }, (rows) => ({
      body: this.pages.answer(call, rows, limit, filter, (row) => [row.settledAtMs === null ? 'open' : 'settled', row.id], presentManifestException),
    }));
  }

  @Post('manifest-exceptions/:exceptionId/settlements')
  @Operation({
    id: 'settleManifestException',
    summary: 'Say how an exception was worked off',
    description: 'It moves nothing: what was found is recorded by events of the thing itself.',
    access: { scope: 'custody:write' },
    command: true,
    problems: ['not_found', 'manifest_state', 'reference_unknown'],
    success: { status: 201, description: 'The exception, settled.', body: ManifestExceptionBody },
  })
  settle(@CallOf() call: Call, @Param({ schema: ManifestExceptionParams }) params: z.output<typeof ManifestExceptionParams>, @Body({ schema: SettleException }) body: z.output<typeof SettleException>) {
    return this.runner.command(call, settleManifestException, { ...params, ...body }, (exception) => ({ status: 201, body: presentManifestException(exception) }));
  }
}
