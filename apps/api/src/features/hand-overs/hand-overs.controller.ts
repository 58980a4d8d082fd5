import { Body, Controller, Get, Inject, Param, Post, Query } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import type { z } from 'zod';
import { acceptHandOver, getHandOver, type HandOverRecord, listHandOvers, offerHandOver, refuseHandOver, withdrawHandOver } from '#application';
import { AcceptHandOver, EndHandOver, HandOverBody, HandOverHeadBody, HandOverListQuery, HandOverParams, IncidentParams, OfferHandOver, pageOf } from '#contracts';
import { type Call, CallOf } from '../../http/call.js';
import { Operation } from '../../http/operation.decorator.js';
import { Pages } from '../../http/pages.js';
import { Runner } from '../../http/runner.js';
import { msOf } from '../../presenters/time.js';
import { presentHandOver, presentHandOverHead } from './hand-over.presenter.js';

const answer = (handOver: HandOverRecord) => ({ status: 201, body: presentHandOver(handOver), version: handOver.version, location: `/v1/hand-overs/${handOver.id}` });

/** Hand-overs that giver and receiver both record. */
@Controller({ version: '1' })
@ApiTags('Custody')
export class HandOversController {
  constructor(
    @Inject(Runner) private readonly runner: Runner,
    @Inject(Pages) private readonly pages: Pages,
  ) {}

  @Post('incidents/:incidentId/hand-overs')
  @Operation({
    id: 'offerHandOver',
    summary: 'Offer things to a receiver',
    description:
      'All are offered or none. Until the receiver accepts, the giver keeps them and nothing else moves them. A specialist is offered only things whose owners agreed to a referral. Without `expiresAt` an offer stands for 24 hours, at most for 14 days (our own calibration).',
    access: { scope: 'custody:write' },
    command: true,
    problems: ['not_found', 'incident_closed', 'wrong_keeper', 'wrong_stage', 'hand_over_open', 'location_disputed', 'item_missing', 'item_terminal', 'consent_missing', 'tag_unknown', 'reference_unknown', 'command_refused'],
    success: { status: 201, description: 'The open hand-over.', body: HandOverBody },
  })
  offer(@CallOf() call: Call, @Param({ schema: IncidentParams }) params: z.output<typeof IncidentParams>, @Body({ schema: OfferHandOver }) body: z.output<typeof OfferHandOver>) {
    const { expiresAt, ...rest } = body;
    return this.runner.command(call, offerHandOver, { ...params, ...rest, expiresAtMs: msOf(expiresAt) }, answer);
  }

  @Get('incidents/:incidentId/hand-overs')
  @Operation({
    id: 'listHandOvers',
    summary: 'List hand-overs',
    description: 'Open ones first, the longest open first.',
    access: { scope: 'item:read' },
    problems: ['not_found', 'cursor_invalid'],
    success: { status: 200, description: 'One page.', body: pageOf(HandOverHeadBody) },
  })
  list(@CallOf() call: Call, @Param({ schema: IncidentParams }) params: z.output<typeof IncidentParams>, @Query({ schema: HandOverListQuery }) query: z.output<typeof HandOverListQuery>) {
    const { limit, cursor, state = null } = query;
    const filter = { ...params, state };
    const [open, id] = this.pages.read(call, cursor, filter) ?? [];
    const after = id === undefined ? null : { open: open === 'open', id };
    return this.runner.query(call, listHandOvers, { ...params, state, limit: limit + 1, after }, (rows) => ({
      body: this.pages.answer(call, rows, limit, filter, (row) => [row.state === 'open' ? 'open' : 'ended', row.id], presentHandOverHead),
    }));
  }

  @Get('hand-overs/:handOverId')
  @Operation({
    id: 'getHandOver',
    summary: 'Read a hand-over',
    description: 'What was offered, to whom, and what became of each thing.',
    access: { scope: 'item:read' },
    problems: ['not_found'],
    success: { status: 200, description: 'The hand-over.', body: HandOverBody },
  })
  read(@CallOf() call: Call, @Param({ schema: HandOverParams }) params: z.output<typeof HandOverParams>) {
    return this.runner.query(call, getHandOver, params, (handOver) => ({ body: presentHandOver(handOver), version: handOver.version }));
  }

  @Post('hand-overs/:handOverId/acceptances')
  @Operation({
    id: 'acceptHandOver',
    summary: 'Accept a hand-over',
    description:
      'By the receiver: the courier in person, for a place somebody of its site. Everything is accepted, or each thing that is not is named as an exception and stays with the giver. Room at the receiving place is taken in the same breath. It can be answered once.',
    access: { scope: 'custody:write' },
    command: true,
    problems: ['not_found', 'incident_closed', 'hand_over_not_open', 'hand_over_for_another', 'hand_over_open', 'location_disputed', 'item_missing', 'item_terminal', 'wrong_stage', 'capacity_full', 'company_refused', 'consent_missing', 'tag_unknown', 'reference_unknown', 'command_refused'],
    success: { status: 201, description: 'The hand-over as it was answered.', body: HandOverBody },
  })
  accept(@CallOf() call: Call, @Param({ schema: HandOverParams }) params: z.output<typeof HandOverParams>, @Body({ schema: AcceptHandOver }) body: z.output<typeof AcceptHandOver>) {
    return this.runner.command(call, acceptHandOver, { ...params, ...body }, answer);
  }

  @Post('hand-overs/:handOverId/refusals')
  @Operation({
    id: 'refuseHandOver',
    summary: 'Decline a hand-over',
    description: 'By the receiver, for all of it. The giver keeps what was offered.',
    access: { scope: 'custody:write' },
    command: true,
    problems: ['not_found', 'hand_over_not_open', 'hand_over_for_another', 'reference_unknown'],
    success: { status: 201, description: 'The hand-over, declined.', body: HandOverBody },
  })
  refuse(@CallOf() call: Call, @Param({ schema: HandOverParams }) params: z.output<typeof HandOverParams>, @Body({ schema: EndHandOver }) body: z.output<typeof EndHandOver>) {
    return this.runner.command(call, refuseHandOver, { ...params, ...body }, answer);
  }

  @Post('hand-overs/:handOverId/withdrawals')
  @Operation({
    id: 'withdrawHandOver',
    summary: 'Take an offer back',
    description: 'By the giver, or by a lead. What was offered stays where it is.',
    access: { scope: 'custody:write' },
    command: true,
    problems: ['not_found', 'hand_over_not_open', 'reference_unknown', 'command_refused'],
    success: { status: 201, description: 'The hand-over, withdrawn.', body: HandOverBody },
  })
  withdraw(@CallOf() call: Call, @Param({ schema: HandOverParams }) params: z.output<typeof HandOverParams>, @Body({ schema: EndHandOver }) body: z.output<typeof EndHandOver>) {
    return this.runner.command(call, withdrawHandOver, { ...params, ...body }, answer);
  }
}
