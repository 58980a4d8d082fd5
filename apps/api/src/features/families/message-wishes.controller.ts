import { Body, Controller, Get, Inject, Param, Post } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import type { z } from 'zod';
import { listMessageWishes, recordMessageWish } from '#application';
import { HouseholdParams, MessageWishBody, MessageWishList, RecordMessageWish } from '#contracts';
import { type Call, CallOf } from '../../http/call.js';
import { Operation } from '../../http/operation.decorator.js';
import { Runner } from '../../http/runner.js';
import { presentWish, presentWishes } from './families.presenter.js';

@Controller({ version: '1' })
@ApiTags('Households')
export class MessageWishesController {
  constructor(@Inject(Runner) private readonly runner: Runner) {}

  @Post('households/:householdId/message-wishes')
  @Operation({
    id: 'recordMessageWish',
    summary: 'Record whether a family wishes to be written to',
    description: 'After a yes the service tells the family by itself what happens to its things: taken in, ready, handed back, let go as agreed, and reminders of what nobody fetched. What happens together is one message, none comes twice, and the network can switch each kind off (library `messages` of `/v1/calibration`). After a no nothing is sent to it, whoever asks for it, and what waits is not sent.',
    access: { scope: 'household:write' },
    command: true,
    problems: ['not_found', 'household_erased', 'owner_unknown'],
    success: { status: 201, description: 'The wish that counts from now on.', body: MessageWishBody },
  })
  record(@CallOf() call: Call, @Param({ schema: HouseholdParams }) params: z.output<typeof HouseholdParams>, @Body({ schema: RecordMessageWish }) body: z.output<typeof RecordMessageWish>) {
    return this.runner.command(call, recordMessageWish, { ...params, ...body }, (wish) => ({ status: 201, body: presentWish(wish) }));
  }

  @Get('households/:householdId/message-wishes')
  @Operation({
    id: 'listMessageWishes',
    summary: 'Read whether a family wishes to be written to',
    description: 'What it has said, newest first, what counts now, and on which ways nothing arrives.',
    access: { scope: 'household:read' },
    problems: ['not_found'],
    success: { status: 200, description: 'The wishes of the household.', body: MessageWishList },
  })
  list(@CallOf() call: Call, @Param({ schema: HouseholdParams }) params: z.output<typeof HouseholdParams>) {
    return this.runner.query(call, listMessageWishes, params, (view) => ({ body: presentWishes(view) }));
  }
}
