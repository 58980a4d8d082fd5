import { Body, Controller, Get, Inject, Param, Put, Query } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import type { z } from 'zod';
import { getCalibration, listCalibrationDecisions, setCalibration } from '#application';
import { CalibrationBody, CalibrationDecisionBody, CalibrationParams, PageQuery, pageOf, SetCalibration } from '#contracts';
import { type Call, CallOf } from '../../http/call.js';
import { Operation } from '../../http/operation.decorator.js';
import { Pages } from '../../http/pages.js';
import { Runner } from '../../http/runner.js';
import { presentCalibration, presentCalibrationDecision } from './calibration.presenter.js';

@Controller({ version: '1' })
@ApiTags('Calibration')
export class CalibrationController {
  constructor(
    @Inject(Runner) private readonly runner: Runner,
    @Inject(Pages) private readonly pages: Pages,
  ) {}

  @Get('calibration')
  @Operation({
    id: 'getCalibration',
    summary: 'Read the numbers of our own calibration',
    description: 'Every number that is ours and no published fact: its default, the value in force, unit and limits, why it is what it is, and who set it, when and why. `people` holds the numbers of who may do a step, `climate` those of drying, rooms and the mould clock, `alarms` when rooms, machines and freezers are alarming, `planning` the hours that a plan counts for drying, `care` hands-on times and weights of things. Numbers that the rules of care cite are switched in the rule book. The ETag is the number of the newest decision.',
    access: { scope: 'item:read' },
    speaks: true,
    success: { status: 200, description: 'The numbers, library by library.', body: CalibrationBody },
  })
  read(@CallOf() call: Call) {
    return this.runner.query(call, getCalibration, {}, (view) => ({ body: presentCalibration(view, call.language), language: call.language, version: view.number }));
  }

  @Get('calibration/decisions')
  @Operation({
    id: 'listCalibrationDecisions',
    summary: 'List what the network decided about our own calibration',
    description: 'Every decision, newest first, by pages. Nothing is ever changed or removed here.',
    access: { scope: 'item:read' },
    problems: ['cursor_invalid'],
    success: { status: 200, description: 'One page of decisions.', body: pageOf(CalibrationDecisionBody) },
  })
  decisions(@CallOf() call: Call, @Query({ schema: PageQuery }) query: z.output<typeof PageQuery>) {
    const before = this.pages.read(call, query.cursor, {})?.[0];
    const input = { limit: query.limit + 1, before: before === undefined ? null : Number(before) };
    return this.runner.query(call, listCalibrationDecisions, input, (rows) => ({ body: this.pages.answer(call, rows, query.limit, {}, ({ number }) => [String(number)], presentCalibrationDecision) }));
  }

  @Put('calibration/:library/:key')
  @Operation({
    id: 'setCalibration',
    summary: 'Set one number of our own calibration',
    description:
      'For a lead, with a reason that stays on record, by a key of the whole network; null returns to the default. The limits of the number hold, and what others of its library bound it by. What is reckoned from now on uses it, what was reckoned before stays, and every open incident is asked for a new plan.',
    access: { scope: 'incident:write' },
    command: true,
    conditional: true,
    problems: ['not_found', 'reference_unknown', 'command_refused'],
    success: { status: 200, description: 'The decision that is in force now; its ETag is that of the calibration.', body: CalibrationDecisionBody },
  })
  set(@CallOf() call: Call, @Param({ schema: CalibrationParams }) params: z.output<typeof CalibrationParams>, @Body({ schema: SetCalibration }) body: SetCalibration) {
    return this.runner.command(call, setCalibration, { ...params, ...body, expectedNumber: call.expectedVersion() }, (decision) => ({ body: presentCalibrationDecision(decision), version: decision.number }));
  }
}
