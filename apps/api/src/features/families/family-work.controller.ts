import { Body, Controller, Get, Inject, Param, Post, Query } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import type { z } from 'zod';
import { listFamilyMatters, listFamilyMessages, sendFamilyMessage, settleFamilyMatter } from '#application';
import { FamilyMatterBody, FamilyMatterListQuery, FamilyMatterParams, FamilyMessageBody, FamilyMessageList, HouseholdParams, IncidentParams, pageOf, SendFamilyMessage, SettleFamilyMatter } from '#contracts';
import { type Call, CallOf } from '../../http/call.js';
import { Operation } from '../../http/operation.decorator.js';
import { Pages } from '../../http/pages.js';
import { Runner } from '../../http/runner.js';
import { presentFamilyMatter, presentMessage } from './families.presenter.js';

@Controller({ version: '1' })
@ApiTags('Households')
export class FamilyWorkController {
  constructor(
    @Inject(Runner) private readonly runner: Runner,
    @Inject(Pages) private readonly pages: Pages,
  ) {}

  @Post('households/:householdId/family-messages')
  @Operation({
    id: 'sendFamilyMessage',
    summary: 'Let a family be told something',
    description: 'Queues a message by e-mail or SMS, in the language of the household, by one of the templates; once about one thing. It goes out outside of quiet hours and within the limit of a day, and is never sent twice. Questions and their reminders are told by the service itself.',
    access: { scope: 'household:write' },
    command: true,
    problems: ['not_found', 'reference_unknown', 'already_exists', 'owner_unknown', 'command_refused'],
    success: { status: 201, description: 'The message waits to be sent.', body: FamilyMessageBody },
  })
  send(@CallOf() call: Call, @Param({ schema: HouseholdParams }) params: z.output<typeof HouseholdParams>, @Body({ schema: SendFamilyMessage }) body: z.output<typeof SendFamilyMessage>) {
    return this.runner.command(call, sendFamilyMessage, { ...params, ...body }, (message) => ({ status: 201, body: presentMessage(message) }));
  }

  @Get('households/:householdId/family-messages')
  @Operation({
    id: 'listFamilyMessages',
    summary: 'List the messages to a family',
    description: 'The newest 200, with how each stands: waiting, sending, sent, unclear, given up for a person. Where they went is not shown.',
    access: { scope: 'household:read' },
    problems: ['not_found'],
    success: { status: 200, description: 'The messages to the household.', body: FamilyMessageList },
  })
  messages(@CallOf() call: Call, @Param({ schema: HouseholdParams }) params: z.output<typeof HouseholdParams>) {
    return this.runner.query(call, listFamilyMessages, params, (messages) => ({ body: { items: messages.map(presentMessage) } }));
  }

  @Get('incidents/:incidentId/family-matters')
  @Operation({
    id: 'listFamilyMatters',
    summary: 'List what a person must see to',
    description: 'A yes that was taken back while something was under way, a question that nobody answered, an answer that came late, a family that would rather speak with somebody, a message of which nobody knows whether it arrived. Each with advice to a trained lead.',
    access: { scope: 'household:read' },
    speaks: true,
    problems: ['not_found', 'cursor_invalid'],
    success: { status: 200, description: 'One page of matters.', body: pageOf(FamilyMatterBody) },
  })
  matters(@CallOf() call: Call, @Param({ schema: IncidentParams }) params: z.output<typeof IncidentParams>, @Query({ schema: FamilyMatterListQuery }) query: z.output<typeof FamilyMatterListQuery>) {
    const { limit, cursor } = query;
    const narrowed = { ...params, settled: query.settled === 'true' };
    const after = this.pages.read(call, cursor, narrowed)?.[0] ?? null;
    return this.runner.query(call, listFamilyMatters, { ...narrowed, limit: limit + 1, after }, (rows) => ({
      body: this.pages.answer(call, rows, limit, narrowed, ({ matter }) => [matter.id], (view) => presentFamilyMatter(view, call.language)), language: call.language,
    }));
  }

  @Post('family-matters/:familyMatterId/settlement')
  @Operation({
    id: 'settleFamilyMatter',
    summary: 'Settle what a person had to see to',
    description: 'Says who saw to it and what was agreed. A thing that its owner stopped in the middle goes on by the word of a lead alone, by what the owner wants then.',
    access: { scope: 'household:write' },
    command: true,
    speaks: true,
    problems: ['not_found', 'already_exists', 'reference_unknown', 'command_refused'],
    success: { status: 201, description: 'It is settled.', body: FamilyMatterBody },
  })
  settle(@CallOf() call: Call, @Param({ schema: FamilyMatterParams }) params: z.output<typeof FamilyMatterParams>, @Body({ schema: SettleFamilyMatter }) body: z.output<typeof SettleFamilyMatter>) {
    return this.runner.command(call, settleFamilyMatter, { ...params, ...body }, (view) => ({ status: 201, body: presentFamilyMatter(view, call.language), language: call.language }));
  }
}
