import { Body, Controller, Get, Inject, Post, Query } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import type { z } from 'zod';
import { chooseRuleBook, compareOver, getRuleBook, listRuleBookChoices, listRules, prepareComparison } from '#application';
import { ChooseRuleBook, CompareRuleBooks, PageQuery, pageOf, RuleBody, RuleBookBody, RuleBookComparisonBody, RuleBookDecisionBody, RuleListQuery } from '#contracts';
import { type Call, CallOf } from '../../http/call.js';
import { Operation } from '../../http/operation.decorator.js';
import { Pages } from '../../http/pages.js';
import { Runner } from '../../http/runner.js';
import { presentComparison, presentDecision, presentRule, presentRuleBook } from './rule-book.presenter.js';

@Controller({ version: '1' })
@ApiTags('Rule book')
export class RuleBookController {
  constructor(
    @Inject(Runner) private readonly runner: Runner,
    @Inject(Pages) private readonly pages: Pages,
  ) {}

  @Get('rulebook')
  @Operation({
    id: 'getRuleBook',
    summary: 'Read the rule book that the network follows',
    description: 'Its version, every marked choice with all sides and their sources, which side is in force, who decided so, when and why, and which are safety floors that nobody switches; and how many rules rest on publications, practice, memory and our own judgement. The ETag is the number of the decision in force.',
    access: { scope: 'item:read' },
    speaks: true,
    success: { status: 200, description: 'The rule book.', body: RuleBookBody },
  })
  read(@CallOf() call: Call) {
    return this.runner.query(call, getRuleBook, {}, (view) => ({ body: presentRuleBook(view, call.language), language: call.language, version: view.number }));
  }

  @Get('rulebook/rules')
  @Operation({
    id: 'listRules',
    summary: 'List the rules of the book',
    description: 'By their ids, by pages: what a rule says and concludes, what it looks at, and what it rests on, with the mark of a published source, common practice, memory or our own judgement. Filters can be combined.',
    access: { scope: 'item:read' },
    speaks: true,
    problems: ['cursor_invalid'],
    success: { status: 200, description: 'One page of rules.', body: pageOf(RuleBody) },
  })
  rules(@CallOf() call: Call, @Query({ schema: RuleListQuery }) query: z.output<typeof RuleListQuery>) {
    const { limit, cursor, ...filter } = query;
    const after = this.pages.read(call, cursor, filter)?.[0] ?? null;
    return this.runner.query(call, listRules, { ...filter, limit: limit + 1, after }, ({ book, rules }) => ({
      body: this.pages.answer(call, rules, limit, filter, ({ id }) => [id], (rule) => presentRule(rule, book, call.language)), language: call.language,
    }));
  }

  @Get('rulebook/choices')
  @Operation({
    id: 'listRuleBookChoices',
    summary: 'List what the network decided about the rule book',
    description: 'Every decision, newest first, by pages. Nothing is ever changed or removed here.',
    access: { scope: 'item:read' },
    problems: ['cursor_invalid'],
    success: { status: 200, description: 'One page of decisions.', body: pageOf(RuleBookDecisionBody) },
  })
  choices(@CallOf() call: Call, @Query({ schema: PageQuery }) query: z.output<typeof PageQuery>) {
    const before = this.pages.read(call, query.cursor, {})?.[0];
    const input = { limit: query.limit + 1, before: before === undefined ? null : Number(before) };
    return this.runner.query(call, listRuleBookChoices, input, (rows) => ({ body: this.pages.answer(call, rows, query.limit, {}, ({ number }) => [String(number)], presentDecision) }));
  }

  @Post('rulebook/choices')
  @Operation({
    id: 'chooseRuleBook',
    summary: 'Choose a side where sources disagree',
    description:
      'For a lead, with a reason that stays on record, by a key of the whole network. The choices are complete: what is left out stands at its default. Every fault is named at once; a safety floor is not a network’s to switch. From the answer on everything is triaged by the new book; what is still here in open incidents is triaged anew by the worker, and new plans are asked for. Compare both books first (POST /v1/rulebook/comparisons).',
    access: { scope: 'incident:write' },
    command: true,
    conditional: true,
    problems: ['reference_unknown', 'command_refused'],
    success: { status: 201, description: 'The decision that is in force now; its ETag is that of the rule book.', body: RuleBookDecisionBody },
  })
  choose(@CallOf() call: Call, @Body({ schema: ChooseRuleBook }) body: ChooseRuleBook) {
    return this.runner.command(call, chooseRuleBook, { ...body, expectedNumber: call.expectedVersion() }, (decision) => ({ status: 201, body: presentDecision(decision), version: decision.number, location: '/v1/rulebook' }));
  }

  @Post('rulebook/comparisons')
  @Operation({
    id: 'compareRuleBooks',
    summary: 'Compare the book in force with other choices',
    description: 'Both books over the things of an incident as they were last looked at, at most 3,000 of them: how many are judged differently in what, how first ways move, and the things that would be judged less strictly first. Nothing is stored, so no Idempotency-Key is asked for.',
    access: { scope: 'item:read' },
    speaks: true,
    problems: ['not_found', 'command_refused', 'body_too_large', 'media_type_unsupported'],
    success: { status: 200, description: 'What would change.', body: RuleBookComparisonBody },
  })
  compare(@CallOf() call: Call, @Body({ schema: CompareRuleBooks }) body: CompareRuleBooks) {
    const { language } = call;
    return this.runner.query(call, prepareComparison, body, async ({ before, after, ground, items }) => ({ body: presentComparison(await compareOver(before, after, ground), items, language), language }));
  }
}
