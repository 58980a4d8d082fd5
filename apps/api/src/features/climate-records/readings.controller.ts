import { Body, Controller, Get, Inject, Param, Post, Query } from '@nestjs/common';
import { ApiBody, type ApiBodyOptions, ApiConsumes, ApiTags } from '@nestjs/swagger';
import type { z } from 'zod';
import { listReadings, recordReadings } from '#application';
import { ClimateReadingBody, IncidentParams, pageOf, ReadingListQuery, READINGS_DESCRIPTION, ReadingsReportBody, RecordReadings, RecordReadingsQuery } from '#contracts';
import { type Call, CallOf } from '../../http/call.js';
import { Operation } from '../../http/operation.decorator.js';
import { Pages } from '../../http/pages.js';
import { Runner } from '../../http/runner.js';
import { presentReading, presentReadingsReport, toReadingFilter } from './reading.presenter.js';
import { readingsOf } from './readings-body.js';

@Controller({ version: '1' })
@ApiTags('Climate')
export class ReadingsController {
  constructor(
    @Inject(Runner) private readonly runner: Runner,
    @Inject(Pages) private readonly pages: Pages,
  ) {}

  @Post('incidents/:incidentId/readings')
  @ApiConsumes('application/json', 'text/csv')
  @ApiBody({ description: READINGS_DESCRIPTION, standardSchema: RecordReadings } as unknown as ApiBodyOptions)
  @Operation({
    id: 'recordReadings',
    summary: 'Send readings of air',
    description:
      'Of sensors and of people, one or many, in any order and as often as you like: every reading is judged by itself, and a bad one does not hold up the others. The same reading again is kept once; other values of a sensor for the same moment are refused and both are named. Late ones are kept and change nothing newer. ' +
      'What cannot be is refused with the reason; what is improbable (a jump, the same values for hours, saturated air beside a running dehumidifier, perhaps Fahrenheit) is kept as `doubtful` and not reckoned with. These limits are our own calibration. ' +
      'The newest believed reading of a drying room becomes the air that plans reckon with, and asks for a new plan where that matters. When not one reading could be kept, the answer is 422 with every reason.',
    access: { scope: 'climate:write' },
    command: true,
    speaks: true,
    problems: ['not_found', 'incident_closed', 'measurement_refused', 'measurement_conflicts'],
    success: { status: 200, description: 'What became of every reading.', body: ReadingsReportBody },
  })
  record(@CallOf() call: Call, @Param({ schema: IncidentParams }) params: z.output<typeof IncidentParams>, @Query({ schema: RecordReadingsQuery }) query: z.output<typeof RecordReadingsQuery>, @Body() body: unknown) {
    return this.runner.command(call, recordReadings, { ...params, ...query, readings: readingsOf(call, body) }, (outcomes) => ({ body: presentReadingsReport(outcomes, call.language), language: call.language }));
  }

  @Get('incidents/:incidentId/readings')
  @Operation({
    id: 'listReadings',
    summary: 'List readings of air',
    description: 'By pages, the latest measured first; of one place, one sensor, a span of time or a state if you say so.',
    access: { scope: 'climate:read' },
    speaks: true,
    problems: ['not_found', 'cursor_invalid'],
    success: { status: 200, description: 'One page of readings.', body: pageOf(ClimateReadingBody) },
  })
  list(@CallOf() call: Call, @Param({ schema: IncidentParams }) params: z.output<typeof IncidentParams>, @Query({ schema: ReadingListQuery }) query: z.output<typeof ReadingListQuery>) {
    const { limit, cursor, ...filter } = query;
    const shaped = { ...params, ...filter };
    const [at, id] = this.pages.read(call, cursor, shaped) ?? [];
    const after = at === undefined || id === undefined ? null : { measuredAtMs: Number(at), id };
    return this.runner.query(call, listReadings, { ...params, filter: toReadingFilter(filter), limit: limit + 1, after }, (rows) => ({
      body: this.pages.answer(call, rows, limit, shaped, (row) => [String(row.measuredAtMs), row.id], (row) => presentReading(row, call.language)), language: call.language,
    }));
  }
}
