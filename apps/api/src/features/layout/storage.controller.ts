import { Body, Controller, Inject, Param, Patch, Post } from '@nestjs/common';
import { ApiConsumes, ApiTags } from '@nestjs/swagger';
import type { z } from 'zod';
import { addShelf, addVehicle, changeShelf, changeVehicle } from '#application';
import { AddShelf, AddVehicle, ChangeShelf, ChangeVehicle, IncidentParams, ShelfBody, ShelfParams, VehicleBody, VehicleParams } from '#contracts';
import { type Call, CallOf } from '../../http/call.js';
import { Operation } from '../../http/operation.decorator.js';
import { Runner } from '../../http/runner.js';
import { presentShelf, presentVehicle } from './layout.presenter.js';

const layoutOf = (incidentId: string) => `/v1/incidents/${incidentId}/layout`;

/** Where things lie and what carries them. */
@Controller({ version: '1' })
@ApiTags('Incidents')
export class StorageController {
  constructor(@Inject(Runner) private readonly runner: Runner) {}

  @Post('incidents/:incidentId/shelves')
  @Operation({
    id: 'addShelf',
    summary: 'Add a shelf',
    description: 'A numbered place of storage in a zone of a site. It keeps things as a waiting area does, and counts what it takes where its volume is given.',
    access: { scope: 'incident:write' },
    command: true,
    problems: ['not_found', 'incident_closed', 'reference_unknown', 'already_exists'],
    success: { status: 201, description: 'The shelf belongs to the layout.', body: ShelfBody },
  })
  shelf(@CallOf() call: Call, @Param({ schema: IncidentParams }) params: z.output<typeof IncidentParams>, @Body({ schema: AddShelf }) body: AddShelf) {
    return this.runner.configCommand(call, addShelf, { ...body, ...params }, (view) => ({ status: 201, body: presentShelf(view), version: view.shelf.version, location: layoutOf(params.incidentId) }));
  }

  @Patch('incidents/:incidentId/shelves/:shelfId')
  @ApiConsumes('application/merge-patch+json')
  @Operation({
    id: 'changeShelf',
    summary: 'Change a shelf',
    description: 'Its name, or how much it takes. A volume below what lies there is taken: only what comes next is refused.',
    access: { scope: 'incident:write' },
    command: true,
    conditional: true,
    problems: ['not_found', 'incident_closed'],
    success: { status: 200, description: 'The shelf as it is now.', body: ShelfBody },
  })
  otherShelf(@CallOf() call: Call, @Param({ schema: ShelfParams }) { incidentId, shelfId }: z.output<typeof ShelfParams>, @Body({ schema: ChangeShelf }) body: ChangeShelf) {
    return this.runner.configCommand(call, changeShelf, { ...body, incidentId, id: shelfId, expectedVersion: call.expectedVersion() }, (view) => ({ body: presentShelf(view), version: view.shelf.version }));
  }

  @Post('incidents/:incidentId/vehicles')
  @Operation({
    id: 'addVehicle',
    summary: 'Add a vehicle',
    description: 'What carries things between sites, specialists and families. While a thing is in it, the vehicle is its keeper. With its rides between sites and what it may be loaded with, a plan may have things carried to a site that has time for them.',
    access: { scope: 'incident:write' },
    command: true,
    problems: ['not_found', 'incident_closed', 'reference_unknown', 'already_exists'],
    success: { status: 201, description: 'The vehicle belongs to the layout.', body: VehicleBody },
  })
  vehicle(@CallOf() call: Call, @Param({ schema: IncidentParams }) params: z.output<typeof IncidentParams>, @Body({ schema: AddVehicle }) body: AddVehicle) {
    return this.runner.configCommand(call, addVehicle, { ...body, ...params }, (vehicle) => ({ status: 201, body: presentVehicle(vehicle), version: vehicle.version, location: layoutOf(params.incidentId) }));
  }

  @Patch('incidents/:incidentId/vehicles/:vehicleId')
  @ApiConsumes('application/merge-patch+json')
  @Operation({
    id: 'changeVehicle',
    summary: 'Change a vehicle',
    description: 'Its name, what it takes, its rides between sites, or when it runs. A volume below what it holds is taken: only what comes next is refused. Rides and times are given whole; null rides are not known. What a plan reckons with asks for a new plan. A vehicle without `maxLoadKg` or without rides is not planned with.',
    access: { scope: 'incident:write' },
    command: true,
    conditional: true,
    problems: ['not_found', 'incident_closed', 'reference_unknown'],
    success: { status: 200, description: 'The vehicle as it is now.', body: VehicleBody },
  })
  otherVehicle(@CallOf() call: Call, @Param({ schema: VehicleParams }) { incidentId, vehicleId }: z.output<typeof VehicleParams>, @Body({ schema: ChangeVehicle }) body: ChangeVehicle) {
    return this.runner.configCommand(call, changeVehicle, { ...body, incidentId, id: vehicleId, expectedVersion: call.expectedVersion() }, (vehicle) => ({ body: presentVehicle(vehicle), version: vehicle.version }));
  }
}
