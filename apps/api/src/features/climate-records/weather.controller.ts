import { Body, Controller, Get, Inject, Param, Post, Query } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import type { z } from 'zod';
import { listWeather, recordWeather } from '#application';
import { pageOf, RecordWeather, SiteWeatherParams, WeatherListQuery, WeatherRecordBody, WeatherReportBody } from '#contracts';
import { type Call, CallOf } from '../../http/call.js';
import { Operation } from '../../http/operation.decorator.js';
import { Pages } from '../../http/pages.js';
import { Runner } from '../../http/runner.js';
import { presentWeather, presentWeatherReport, toWeatherFilter } from './weather.presenter.js';

@Controller({ version: '1' })
@ApiTags('Climate')
export class WeatherController {
  constructor(
    @Inject(Runner) private readonly runner: Runner,
    @Inject(Pages) private readonly pages: Pages,
  ) {}

  @Post('incidents/:incidentId/sites/:siteId/weather')
  @Operation({
    id: 'recordWeather',
    summary: 'Record weather of a site',
    description:
      'Observed or forecast, entered by hand or sent by the system of a partner, one record or many. Every record is judged by itself; the same again is kept once, and a later issue of a forecast goes before an earlier one. ' +
      'The newest observation of the incident becomes the outdoor air that plans reckon with, unless somebody set that air later by hand, and asks for a new plan where it moved much. When not one record could be kept, the answer is 422 with every reason.',
    access: { scope: 'climate:write' },
    command: true,
    speaks: true,
    problems: ['not_found', 'incident_closed', 'measurement_refused', 'measurement_conflicts'],
    success: { status: 200, description: 'What became of every record.', body: WeatherReportBody },
  })
  record(@CallOf() call: Call, @Param({ schema: SiteWeatherParams }) params: z.output<typeof SiteWeatherParams>, @Body({ schema: RecordWeather }) body: z.output<typeof RecordWeather>) {
    return this.runner.command(call, recordWeather, { ...params, ...body }, (outcomes) => ({ body: presentWeatherReport(outcomes, call.language), language: call.language }));
  }

  @Get('incidents/:incidentId/sites/:siteId/weather')
  @Operation({
    id: 'listWeather',
    summary: 'List weather of a site',
    description: 'By pages in the order of the moments it holds for. Of forecasts by one source for one moment only the newest issue is shown.',
    access: { scope: 'climate:read' },
    problems: ['not_found', 'cursor_invalid'],
    success: { status: 200, description: 'One page of weather.', body: pageOf(WeatherRecordBody) },
  })
  list(@CallOf() call: Call, @Param({ schema: SiteWeatherParams }) params: z.output<typeof SiteWeatherParams>, @Query({ schema: WeatherListQuery }) query: z.output<typeof WeatherListQuery>) {
    const { limit, cursor, ...filter } = query;
    const shaped = { ...params, ...filter };
    const [at, id] = this.pages.read(call, cursor, shaped) ?? [];
    const after = at === undefined || id === undefined ? null : { validAtMs: Number(at), id };
    return this.runner.query(call, listWeather, { ...params, filter: toWeatherFilter(filter), limit: limit + 1, after }, (rows) => ({ body: this.pages.answer(call, rows, limit, shaped, (row) => [String(row.validAtMs), row.id], presentWeather) }));
  }
}
