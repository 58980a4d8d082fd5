import { Controller, Get, Inject, Param } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import type { z } from 'zod';
import { arrangementFitsOf, listArrangementFits } from '#application';
import { ArrangementFitsBody, DryingRoomClimateParams } from '#contracts';
import { type Call, CallOf } from '../../http/call.js';
import { Operation } from '../../http/operation.decorator.js';
import { Runner } from '../../http/runner.js';
import { presentArrangementFits } from './arrangement-fits.presenter.js';

@Controller({ version: '1' })
@ApiTags('Climate')
export class ArrangementFitsController {
  constructor(@Inject(Runner) private readonly runner: Runner) {}

  @Get('drying-rooms/:dryingRoomId/fits')
  @Operation({
    id: 'listArrangementFits',
    summary: 'How fast things dry here, by what was weighed',
    description: 'For each material and arrangement of the room in which something was weighed: the drying factor with its 80 % and 95 % intervals, what was believed before, the weighings it rests on, and those left out with the reason. Fitted when it is asked for.',
    access: { scope: 'station:work' },
    speaks: true,
    problems: ['not_found'],
    success: { status: 200, description: 'The fits of the room.', body: ArrangementFitsBody },
  })
  list(@CallOf() call: Call, @Param({ schema: DryingRoomClimateParams }) params: z.output<typeof DryingRoomClimateParams>) {
    return this.runner.query(call, listArrangementFits, params, (parts) => ({ body: presentArrangementFits(arrangementFitsOf(parts), call.language), language: call.language }));
  }
}
