import { Body, Controller, Get, Inject, Param, Post } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import type { z } from 'zod';
import { addDryingPlace, addFreezer, addPerson, getLayout, recordRoomReading } from '#application';
import {
  AddDryingPlace, AddFreezer, AddPerson, DryingPlaceBody, DryingRoomParams, FreezerBody, IncidentParams, LayoutBody, PersonBody, RecordRoomReading, RoomReadingBody,
} from '#contracts';
import { type Call, CallOf } from '../../http/call.js';
import { Operation } from '../../http/operation.decorator.js';
import { Runner } from '../../http/runner.js';
import { presentDryingPlace, presentFreezer, presentLayout, presentPerson, presentReading } from './layout.presenter.js';

const layoutOf = (incidentId: string) => `/v1/incidents/${incidentId}/layout`;

/** The layout as a whole, and what joins it during the incident. */
@Controller({ version: '1' })
@ApiTags('Incidents')
export class LayoutController {
  constructor(@Inject(Runner) private readonly runner: Runner) {}

  @Get('incidents/:incidentId/layout')
  @Operation({
    id: 'getLayout',
    summary: 'Read the layout of an incident',
    description: 'Sites, zones, stations, waiting areas, drying rooms, freezers, people with shifts, and specialists, all as of one moment. `version` of a thing is the number of its ETag.',
    access: { scope: 'incident:read' },
    problems: ['not_found'],
    success: { status: 200, description: 'The whole layout.', body: LayoutBody },
  })
  get(@CallOf() call: Call, @Param({ schema: IncidentParams }) params: z.output<typeof IncidentParams>) {
    return this.runner.configQuery(call, getLayout, params, (view) => ({ body: presentLayout(view) }));
  }

  @Post('incidents/:incidentId/freezers')
  @Operation({
    id: 'addFreezer',
    summary: 'Add a freezer',
    description: 'For instance the trailer that a partner offers from this afternoon. Freezing stops the clocks and improves nothing. A new plan is asked for separately.',
    access: { scope: 'incident:write' },
    command: true,
    problems: ['not_found', 'incident_closed', 'reference_unknown', 'already_exists'],
    success: { status: 201, description: 'The freezer belongs to the layout.', body: FreezerBody },
  })
  freezer(@CallOf() call: Call, @Param({ schema: IncidentParams }) params: z.output<typeof IncidentParams>, @Body({ schema: AddFreezer }) body: AddFreezer) {
    return this.runner.configCommand(call, addFreezer, { ...body, ...params }, (freezer) => ({ status: 201, body: presentFreezer(freezer), version: freezer.version, location: layoutOf(params.incidentId) }));
  }

  @Post('incidents/:incidentId/drying-places')
  @Operation({
    id: 'addDryingPlace',
    summary: 'Add a drying place',
    description: 'A rack, line, screen or table in a drying room. More area does not help where the air of the room is the limit.',
    access: { scope: 'incident:write' },
    command: true,
    problems: ['not_found', 'incident_closed', 'reference_unknown', 'already_exists'],
    success: { status: 201, description: 'The place belongs to the layout.', body: DryingPlaceBody },
  })
  dryingPlace(@CallOf() call: Call, @Param({ schema: IncidentParams }) params: z.output<typeof IncidentParams>, @Body({ schema: AddDryingPlace }) body: AddDryingPlace) {
    return this.runner.configCommand(call, addDryingPlace, { ...body, ...params }, (place) => ({ status: 201, body: presentDryingPlace(place), version: place.version, location: layoutOf(params.incidentId) }));
  }

  @Post('incidents/:incidentId/people')
  @Operation({
    id: 'addPerson',
    summary: 'Add a person with shifts',
    description: 'Skills and restrictions are what the person says; a restriction is never a diagnosis and needs no reason.',
    access: { scope: 'incident:write' },
    command: true,
    problems: ['not_found', 'incident_closed', 'reference_unknown', 'already_exists'],
    success: { status: 201, description: 'The person belongs to the layout.', body: PersonBody },
  })
  person(@CallOf() call: Call, @Param({ schema: IncidentParams }) params: z.output<typeof IncidentParams>, @Body({ schema: AddPerson }) body: AddPerson) {
    return this.runner.configCommand(call, addPerson, { ...body, ...params }, (view) => ({ status: 201, body: presentPerson(view), version: view.person.version, location: layoutOf(params.incidentId) }));
  }

  @Post('incidents/:incidentId/drying-rooms/:dryingRoomId/readings')
  @Operation({
    id: 'recordRoomReading',
    summary: 'Record the air of a drying room',
    description: 'Every reading is kept. It becomes the air of the room unless newer air is known, so paper slips may be keyed in late.',
    access: { scope: 'station:work' },
    command: true,
    problems: ['not_found', 'incident_closed'],
    success: { status: 201, description: 'The reading is kept.', body: RoomReadingBody },
  })
  reading(@CallOf() call: Call, @Param({ schema: DryingRoomParams }) params: z.output<typeof DryingRoomParams>, @Body({ schema: RecordRoomReading }) body: RecordRoomReading) {
    return this.runner.command(call, recordRoomReading, { ...body, ...params }, (view) => ({ status: 201, body: presentReading(view), location: layoutOf(params.incidentId) }));
  }
}
