import { Body, Controller, Get, Inject, Param, Post, Query } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import type { z } from 'zod';
import { acknowledgeAlarm, listAlarms } from '#application';
import { AcknowledgeAlarm, AlarmBody, AlarmListQuery, AlarmParams, IncidentParams, pageOf } from '#contracts';
import { type Call, CallOf } from '../../http/call.js';
import { Operation } from '../../http/operation.decorator.js';
import { Pages } from '../../http/pages.js';
import { Runner } from '../../http/runner.js';
import { presentAlarm } from './alarm.presenter.js';

@Controller({ version: '1' })
@ApiTags('Climate')
export class AlarmsController {
  constructor(@Inject(Runner) private readonly runner: Runner, @Inject(Pages) private readonly pages: Pages) {}

  @Get('incidents/:incidentId/alarms')
  @Operation({
    id: 'listAlarms',
    summary: 'Alarms of an incident',
    description: 'The newest first; open ones unless `state` asks for others. The clocks of many things in a room are one alarm that counts them.',
    access: { scope: 'station:work' },
    speaks: true,
    problems: ['not_found', 'cursor_invalid'],
    success: { status: 200, description: 'A page of alarms.', body: pageOf(AlarmBody) },
  })
  list(@CallOf() call: Call, @Param({ schema: IncidentParams }) params: z.output<typeof IncidentParams>, @Query({ schema: AlarmListQuery }) query: z.output<typeof AlarmListQuery>) {
    const { limit, cursor, ...filter } = query;
    const after = this.pages.read(call, cursor, { ...params, ...filter })?.[0] ?? null;
    return this.runner.query(call, listAlarms, { ...params, filter, limit: limit + 1, after }, (rows) => ({
      body: this.pages.answer(call, rows, limit, { ...params, ...filter }, (row) => [row.id], (row) => presentAlarm(row, call.language)), language: call.language,
    }));
  }

  @Post('alarms/:alarmId/acknowledgements')
  @Operation({
    id: 'acknowledgeAlarm',
    summary: 'Say that an alarm was seen',
    description: 'Somebody has seen it and sees to it. The alarm stays open until what is measured clears it.',
    access: { scope: 'station:work' },
    command: true,
    speaks: true,
    problems: ['not_found', 'incident_closed', 'reference_unknown', 'already_exists'],
    success: { status: 201, description: 'The alarm with who has seen it.', body: AlarmBody },
  })
  acknowledge(@CallOf() call: Call, @Param({ schema: AlarmParams }) params: z.output<typeof AlarmParams>, @Body({ schema: AcknowledgeAlarm }) body: AcknowledgeAlarm) {
    return this.runner.command(call, acknowledgeAlarm, { ...params, ...body }, (alarm) => ({ status: 201, body: presentAlarm(alarm, call.language), language: call.language, version: alarm.version }));
  }
}
