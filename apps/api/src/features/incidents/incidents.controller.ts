import { Body, Controller, Get, Inject, Param, Patch, Post, Query } from '@nestjs/common';
import { ApiConsumes, ApiTags } from '@nestjs/swagger';
import type { z } from 'zod';
import { changeIncident, getIncident, type IncidentRecord, listIncidents, registerIncident } from '#application';
import { ChangeIncident, IncidentBody, IncidentListQuery, IncidentParams, pageOf, RegisterIncident } from '#contracts';
import { type Call, CallOf } from '../../http/call.js';
import { Operation } from '../../http/operation.decorator.js';
import { Pages } from '../../http/pages.js';
import { Runner } from '../../http/runner.js';
import { presentIncident } from '../../presenters/incident.presenter.js';

const present = (incident: IncidentRecord) => ({ body: presentIncident(incident), version: incident.version });

@Controller({ version: '1' })
@ApiTags('Incidents')
export class IncidentsController {
  constructor(
    @Inject(Runner) private readonly runner: Runner,
    @Inject(Pages) private readonly pages: Pages,
  ) {}

  @Post('incidents')
  @Operation({
    id: 'registerIncident',
    summary: 'Register an incident',
    description:
      'One document holds the incident and its whole layout: sites with zones, stations, waiting areas, drying rooms and freezers, people with skills and shifts, specialists. Things name each other by short codes; ids are made here and read from the layout. A zone without a waiting area gets one, `HOLD-<zone>`. All faults are answered together and then nothing is registered.',
    access: { scope: 'incident:write' },
    command: true,
    success: { status: 201, description: 'The incident is registered.', body: IncidentBody },
  })
  register(@CallOf() call: Call, @Body({ schema: RegisterIncident }) body: RegisterIncident) {
    return this.runner.configCommand(call, registerIncident, body, (incident) => ({ ...present(incident), status: 201, location: `/v1/incidents/${incident.id}` }));
  }

  @Get('incidents')
  @Operation({
    id: 'listIncidents',
    summary: 'List incidents',
    description: 'Newest first. A key that is limited to one incident sees that one alone.',
    access: { scope: 'incident:read' },
    problems: ['cursor_invalid'],
    success: { status: 200, description: 'One page of incidents.', body: pageOf(IncidentBody) },
  })
  list(@CallOf() call: Call, @Query({ schema: IncidentListQuery }) query: z.output<typeof IncidentListQuery>) {
    const before = this.pages.read(call, query.cursor, {})?.[0] ?? null;
    return this.runner.configQuery(call, listIncidents, { limit: query.limit + 1, before }, (rows) => ({
      body: this.pages.answer(call, rows, query.limit, {}, (incident) => [incident.id], presentIncident),
    }));
  }

  @Get('incidents/:incidentId')
  @Operation({
    id: 'getIncident',
    summary: 'Read an incident',
    description: 'Its ETag is needed to change it.',
    access: { scope: 'incident:read' },
    problems: ['not_found'],
    success: { status: 200, description: 'The incident.', body: IncidentBody },
  })
  get(@CallOf() call: Call, @Param({ schema: IncidentParams }) params: z.output<typeof IncidentParams>) {
    return this.runner.configQuery(call, getIncident, params, present);
  }

  @Patch('incidents/:incidentId')
  @ApiConsumes('application/merge-patch+json')
  @Operation({
    id: 'changeIncident',
    summary: 'Change an incident',
    description: 'A merge patch (RFC 7396) of name, place, state, outdoor air and how plans are published; null says that the outdoor air is not known. Temperature and humidity are known together or not at all. A new plan is asked for separately. It closes only when nothing is held any more; what is with a specialist or on the road is held. In a closed incident nothing is recorded but hand-backs and what owners say; everything stays readable, and `state: open` opens it again.',
    access: { scope: 'incident:write' },
    command: true,
    conditional: true,
    problems: ['not_found', 'items_held'],
    success: { status: 200, description: 'The incident as it is now.', body: IncidentBody },
  })
  change(@CallOf() call: Call, @Param({ schema: IncidentParams }) params: z.output<typeof IncidentParams>, @Body({ schema: ChangeIncident }) body: ChangeIncident) {
    return this.runner.configCommand(call, changeIncident, { ...body, ...params, expectedVersion: call.expectedVersion() }, present);
  }
}
