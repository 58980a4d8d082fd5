import { Body, Controller, Get, Inject, Param, Post } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import type { z } from 'zod';
import { getHandBack, getHandBackReceipt, handBack } from '#application';
import { HandBack, HandBackBody, HandBackParams, HouseholdParams } from '#contracts';
import { handBackCodeFits } from '#platform';
import { type Call, CallOf } from '../../http/call.js';
import { Operation } from '../../http/operation.decorator.js';
import { Runner } from '../../http/runner.js';
import { msOf } from '../../presenters/time.js';
import { presentHandBack } from './hand-back.presenter.js';

@Controller({ version: '1' })
@ApiTags('Hand-backs')
export class HandBacksController {
  constructor(@Inject(Runner) private readonly runner: Runner) {}

  @Post('households/:householdId/hand-backs')
  @Operation({
    id: 'handBack',
    summary: 'Hand things back to their household',
    description:
      'All of the items named or none; what is not named stays with us, so returns may be partial. Writes the receipt: what was done and not done, how to keep each thing, what remains uncertain. Where two counters hand back the same thing, one of them gets `item_terminal`. A signature (on the screen, or the reference of one on paper) or the one-time code of the appointment says that the things were received. Taken in a closed incident too.',
    access: { scope: 'custody:write' },
    command: true,
    speaks: true,
    problems: ['not_found', 'wrong_stage', 'item_terminal', 'already_exists', 'reference_unknown', 'command_refused', 'household_erased', 'owner_unknown'],
    success: { status: 201, description: 'The household has its things, with the receipt.', body: HandBackBody },
  })
  handBack(@CallOf() call: Call, @Param({ schema: HouseholdParams }) params: z.output<typeof HouseholdParams>, @Body({ schema: HandBack }) body: HandBack) {
    const { handedAt, code, ...rest } = body;
    // The code stays out of what is remembered of the command: it is short, and would be found in its digest.
    const input = { ...params, ...rest, codeGiven: code !== null, handedAtMs: msOf(handedAt) };
    return this.runner.command(call, (stores, about, given: typeof input) => handBack(stores, about, given, (kept) => handBackCodeFits(code ?? '', kept)), input, (record) => ({ status: 201, body: presentHandBack(record, call.language), language: call.language, location: `/v1/hand-backs/${record.id}` }));
  }

  @Get('hand-backs/:handBackId')
  @Operation({
    id: 'getHandBack',
    summary: 'Read a hand-back',
    description: 'Who received it by role, how identity was checked, and the receipt as it was given. No name stands in it.',
    access: { scope: 'item:read' },
    speaks: true,
    problems: ['not_found'],
    success: { status: 200, description: 'The hand-back.', body: HandBackBody },
  })
  get(@CallOf() call: Call, @Param({ schema: HandBackParams }) params: z.output<typeof HandBackParams>) {
    return this.runner.query(call, getHandBack, params, (record) => ({ body: presentHandBack(record, call.language), language: call.language }));
  }

  @Get('hand-backs/:handBackId/receipt')
  @Operation({
    id: 'getHandBackReceipt',
    summary: 'Print the receipt of a hand-back',
    description: 'The receipt in plain sentences, to print or to read out.',
    access: { scope: 'item:read' },
    speaks: true,
    problems: ['not_found'],
    success: { status: 200, description: 'The receipt as text.', body: null, mediaType: 'text/plain' },
  })
  receipt(@CallOf() call: Call, @Param({ schema: HandBackParams }) params: z.output<typeof HandBackParams>) {
    call.reply.header('content-type', 'text/plain; charset=utf-8');
    return this.runner.query(call, getHandBackReceipt, { ...params, language: call.language }, (text) => ({ body: text, language: call.language }));
  }
}
