import { Body, Controller, Get, Inject, Param, Post, Query } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import type { z } from 'zod';
import { askOwner, listOwnerQuestions, recordOwnerAnswer, withdrawOwnerQuestion } from '#application';
import { AskOwner, IncidentParams, ItemParams, OwnerQuestionBody, OwnerQuestionListQuery, OwnerQuestionParams, pageOf, RecordOwnerAnswer, WithdrawOwnerQuestion } from '#contracts';
import { type Call, CallOf } from '../../http/call.js';
import { Operation } from '../../http/operation.decorator.js';
import { Pages } from '../../http/pages.js';
import { Runner } from '../../http/runner.js';
import { presentQuestion } from './families.presenter.js';

@Controller({ version: '1' })
@ApiTags('Households')
export class OwnerQuestionsController {
  constructor(
    @Inject(Runner) private readonly runner: Runner,
    @Inject(Pages) private readonly pages: Pages,
  ) {}

  @Post('items/:itemId/questions')
  @Operation({
    id: 'askOwner',
    summary: 'Ask the owner something',
    description: 'Puts a question about one item to its owner, who answers on a private page or in person. The service asks by itself where the way of an item lacks a consent; whether something may be let go is asked by a person alone. Without an answer by the deadline (48 hours unless you say otherwise, at most 30 days) nothing is let go and a person decides.',
    access: { scope: 'household:write' },
    command: true,
    problems: ['not_found', 'already_exists', 'command_refused', 'incident_closed', 'item_terminal', 'owner_unknown'],
    success: { status: 201, description: 'The question is open.', body: OwnerQuestionBody },
  })
  ask(@CallOf() call: Call, @Param({ schema: ItemParams }) params: z.output<typeof ItemParams>, @Body({ schema: AskOwner }) body: z.output<typeof AskOwner>) {
    const { ifNoneAnswers, deadlineAt, ...asked } = body;
    return this.runner.command(call, askOwner, { ...params, ...asked, ifNone: ifNoneAnswers, deadlineAtMs: deadlineAt === null ? null : Date.parse(deadlineAt) }, (view) => ({ status: 201, body: presentQuestion(view) }));
  }

  @Get('incidents/:incidentId/owner-questions')
  @Operation({
    id: 'listOwnerQuestions',
    summary: 'List the questions to owners',
    description: 'In the order in which they were asked; `state` narrows them.',
    access: { scope: 'household:read' },
    problems: ['not_found', 'cursor_invalid'],
    success: { status: 200, description: 'One page of questions.', body: pageOf(OwnerQuestionBody) },
  })
  list(@CallOf() call: Call, @Param({ schema: IncidentParams }) params: z.output<typeof IncidentParams>, @Query({ schema: OwnerQuestionListQuery }) query: z.output<typeof OwnerQuestionListQuery>) {
    const { limit, cursor, state = null } = query;
    const narrowed = { ...params, state };
    const after = this.pages.read(call, cursor, narrowed)?.[0] ?? null;
    return this.runner.query(call, listOwnerQuestions, { ...narrowed, limit: limit + 1, after }, (rows) => ({ body: this.pages.answer(call, rows, limit, narrowed, ({ question }) => [question.id], presentQuestion) }));
  }

  @Post('owner-questions/:ownerQuestionId/answers')
  @Operation({
    id: 'recordOwnerAnswer',
    summary: 'Record what an owner answered',
    description: 'Spoken or in writing. A yes or no is recorded as the consent that was asked for, and the item is triaged anew. After the deadline the answer is kept and a person is told; it undoes nothing, but a no counts from now on.',
    access: { scope: 'household:write' },
    command: true,
    problems: ['not_found', 'already_exists', 'command_refused'],
    success: { status: 201, description: 'The answer is recorded.', body: OwnerQuestionBody },
  })
  answer(@CallOf() call: Call, @Param({ schema: OwnerQuestionParams }) params: z.output<typeof OwnerQuestionParams>, @Body({ schema: RecordOwnerAnswer }) body: z.output<typeof RecordOwnerAnswer>) {
    return this.runner.command(call, recordOwnerAnswer, { ...params, ...body }, (view) => ({ status: 201, body: presentQuestion(view) }));
  }

  @Post('owner-questions/:ownerQuestionId/withdrawal')
  @Operation({
    id: 'withdrawOwnerQuestion',
    summary: 'Withdraw a question',
    description: 'Takes an open question back; the family is not asked it any more.',
    access: { scope: 'household:write' },
    command: true,
    problems: ['not_found', 'already_exists'],
    success: { status: 200, description: 'The question is withdrawn.', body: OwnerQuestionBody },
  })
  withdraw(@CallOf() call: Call, @Param({ schema: OwnerQuestionParams }) params: z.output<typeof OwnerQuestionParams>, @Body({ schema: WithdrawOwnerQuestion }) _body: z.output<typeof WithdrawOwnerQuestion>) {
    return this.runner.command(call, withdrawOwnerQuestion, params, (view) => ({ body: presentQuestion(view) }));
  }
}
