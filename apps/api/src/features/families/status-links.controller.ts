import { Body, Controller, Get, Inject, Param, Post } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import type { z } from 'zod';
import { createStatusLink, listStatusLinks, revokeStatusLink } from '#application';
import { CreateStatusLink, HouseholdParams, NewStatusLinkBody, RevokeStatusLink, StatusLinkBody, StatusLinkList, StatusLinkParams } from '#contracts';
import { makePickUpCode, makeStatusLink } from '#platform';
import { type Call, CallOf } from '../../http/call.js';
import { Operation } from '../../http/operation.decorator.js';
import { Runner } from '../../http/runner.js';
import { presentLink, presentNewLink } from './families.presenter.js';

@Controller({ version: '1' })
@ApiTags('Households')
export class StatusLinksController {
  constructor(@Inject(Runner) private readonly runner: Runner) {}

  @Post('households/:householdId/status-links')
  @Operation({
    id: 'createStatusLink',
    summary: 'Make a private link for a family',
    description: 'Opens a page, without a login, that shows how the things of this household stand in this incident and what it is asked; no name, no address, no place. One for each person of the family, at most 30 days. The path and the pick-up code are told this once; give the code by another way than the link.',
    access: { scope: 'household:write' },
    command: true,
    problems: ['not_found', 'owner_unknown'],
    success: { status: 201, description: 'The link, told this once.', body: NewStatusLinkBody },
  })
  async create(@CallOf() call: Call, @Param({ schema: HouseholdParams }) params: z.output<typeof HouseholdParams>, @Body({ schema: CreateStatusLink }) body: z.output<typeof CreateStatusLink>) {
    const made = makeStatusLink(call.context.networkId);
    const code = await makePickUpCode();
    const stored = await this.runner.command(call, (stores, about, input: typeof params & typeof body) => createStatusLink(stores, about, input, { sha256: made.sha256, code: code.kept }), { ...params, ...body }, (view) => ({ status: 201, body: presentNewLink(view) }));
    // The secrets join the answer after it was stored, and only where this very request made the link.
    const answer = stored as z.output<typeof NewStatusLinkBody>;
    return call.reply.getHeader('idempotency-replayed') === undefined ? { ...answer, path: `/s/${made.text}`, pickUpCode: code.text } : answer;
  }

  @Get('households/:householdId/status-links')
  @Operation({
    id: 'listStatusLinks',
    summary: 'List the links of a family',
    description: 'Newest first, ended ones and those that went out in messages too; never with their secrets.',
    access: { scope: 'household:read' },
    problems: ['not_found'],
    success: { status: 200, description: 'The links of the household.', body: StatusLinkList },
  })
  list(@CallOf() call: Call, @Param({ schema: HouseholdParams }) params: z.output<typeof HouseholdParams>) {
    return this.runner.query(call, listStatusLinks, params, (views) => ({ body: { items: views.map(presentLink) } }));
  }

  @Post('status-links/:statusLinkId/revocation')
  @Operation({
    id: 'revokeStatusLink',
    summary: 'Take a link back',
    description: 'From now on it opens nothing, and answers as if it had never been.',
    access: { scope: 'household:write' },
    command: true,
    problems: ['not_found', 'already_exists'],
    success: { status: 200, description: 'The link has ended.', body: StatusLinkBody },
  })
  revoke(@CallOf() call: Call, @Param({ schema: StatusLinkParams }) params: z.output<typeof StatusLinkParams>, @Body({ schema: RevokeStatusLink }) _body: z.output<typeof RevokeStatusLink>) {
    return this.runner.command(call, revokeStatusLink, params, (view) => ({ body: presentLink(view) }));
  }
}
