import { Body, Controller, Get, Inject, Param, Patch, Post, Query } from '@nestjs/common';
import { ApiConsumes, ApiTags } from '@nestjs/swagger';
import type { z } from 'zod';
import { changeSensor, listSensors, registerSensor } from '#application';
import { ChangeSensor, IncidentParams, pageOf, RegisterSensor, SensorBody, SensorListQuery, SensorParams } from '#contracts';
import { type Call, CallOf } from '../../http/call.js';
import { Operation } from '../../http/operation.decorator.js';
import { Pages } from '../../http/pages.js';
import { Runner } from '../../http/runner.js';
import { presentSensor } from './sensor.presenter.js';
import { placeOf } from './reading.presenter.js';

const sensorsOf = (incidentId: string) => `/v1/incidents/${incidentId}/sensors`;

@Controller({ version: '1' })
@ApiTags('Climate')
export class SensorsController {
  constructor(
    @Inject(Runner) private readonly runner: Runner,
    @Inject(Pages) private readonly pages: Pages,
  ) {}

  @Post('incidents/:incidentId/sensors')
  @Operation({
    id: 'registerSensor',
    summary: 'Register a sensor',
    description: 'A hygrometer or thermometer that stays at one place: a drying room, a freezer, a zone, or the open air of a site. Its readings are sent under its code. One that is moved is withdrawn and registered anew under another code, so that what it measured stays where it was. Say how often it is expected to report, and its place is called silent by that.',
    access: { scope: 'incident:write' },
    command: true,
    problems: ['not_found', 'incident_closed', 'reference_unknown', 'already_exists'],
    success: { status: 201, description: 'The sensor may send readings.', body: SensorBody },
  })
  register(@CallOf() call: Call, @Param({ schema: IncidentParams }) params: z.output<typeof IncidentParams>, @Body({ schema: RegisterSensor }) body: RegisterSensor) {
    return this.runner.command(call, registerSensor, { ...body, ...params }, (sensor) => ({ status: 201, body: presentSensor(sensor), version: sensor.version, location: sensorsOf(params.incidentId) }));
  }

  @Get('incidents/:incidentId/sensors')
  @Operation({
    id: 'listSensors',
    summary: 'List sensors',
    description: 'By pages in the order of their codes, of one place or state if you say so. `version` is the number of the ETag.',
    access: { scope: 'climate:read' },
    problems: ['not_found', 'cursor_invalid'],
    success: { status: 200, description: 'One page of sensors.', body: pageOf(SensorBody) },
  })
  list(@CallOf() call: Call, @Param({ schema: IncidentParams }) params: z.output<typeof IncidentParams>, @Query({ schema: SensorListQuery }) query: z.output<typeof SensorListQuery>) {
    const { limit, cursor, ...filter } = query;
    const shaped = { ...params, ...filter };
    const after = this.pages.read(call, cursor, shaped)?.[0] ?? null;
    const { state } = filter;
    return this.runner.query(call, listSensors, { ...params, filter: { ...placeOf(filter), ...(state && { state }) }, limit: limit + 1, after }, (rows) => ({ body: this.pages.answer(call, rows, limit, shaped, (row) => [row.code], presentSensor) }));
  }

  @Patch('incidents/:incidentId/sensors/:sensorId')
  @ApiConsumes('application/merge-patch+json')
  @Operation({
    id: 'changeSensor',
    summary: 'Change a sensor',
    description: 'Another name, another time in which it is expected to report (null for none), or out of service and back. What a withdrawn sensor measured before still comes in; what it measures afterwards is refused.',
    access: { scope: 'incident:write' },
    command: true,
    conditional: true,
    problems: ['not_found', 'incident_closed'],
    success: { status: 200, description: 'The sensor as it is now.', body: SensorBody },
  })
  change(@CallOf() call: Call, @Param({ schema: SensorParams }) params: z.output<typeof SensorParams>, @Body({ schema: ChangeSensor }) body: ChangeSensor) {
    return this.runner.command(call, changeSensor, { ...body, ...params, expectedVersion: call.expectedVersion() }, (sensor) => ({ body: presentSensor(sensor), version: sensor.version }));
  }
}
