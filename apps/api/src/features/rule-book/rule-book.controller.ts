import { Body, Controller, Get, Inject, Post, Query } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import type { z } from 'zod';
import { chooseRuleBook, compareOver, getRuleBook, listRuleBookChoices, listRuleBookReleases, listRules, prepareComparison } from '#application';
import {
  ChooseRuleBook, CompareRuleBooks, PageQuery, pageOf, RuleBody, RuleBookBody, RuleBookChosenBody, RuleBookComparisonBody, RuleBookDecisionBody, RuleBookQuery, RuleBookReleasesBody, RuleListQuery,
} from '#contracts';
import { type Call, CallOf } from '../../http/call.js';
import { Operation } from '../../http/operation.decorator.js';
import { Pages } from '../../http/pages.js';
import { Runner } from '../../http/runner.js';
import { presentReleases } from './release.presenter.js';
import { presentChosen, presentComparison, presentDecision, presentRule, presentRuleBook } from './rule-book.presenter.js';

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
    description: 'Its version, every marked choice with all sides and their sources, which side is in force, who decided so, when and why, and which are safety floors that nobody switches; and how many rules rest on publications, practice, memory and our own judgement. With `release`, another release of it as the network would follow it, with its choices as far as that release has them. The ETag is the number of the decision in force.',
    access: { scope: 'item:read' },
    speaks: true,
    success: { status: 200, description: 'The rule book.', body: RuleBookBody },
  })
  read(@CallOf() call: Call, @Query({ schema: RuleBookQuery }) query: z.output<typeof RuleBookQuery>) {
    return this.runner.query(call, getRuleBook, query, (view) => ({ body: presentRuleBook(view, call.language), language: call.language, version: view.number }));
  }

  @Get('rulebook/releases')
  @Operation({
    id: 'listRuleBookReleases',
    summary: 'List the releases of the rule book with what each changed',
    description: 'The releases that are kept side by side, newest first: which rules came, went or changed, with their words before and after and the reason, which sides of marked choices came, and which release the network follows. A network stays on its release until a lead decides on another (POST /v1/rulebook/choices).',
    access: { scope: 'item:read' },
    speaks: true,
    success: { status: 200, description: 'The releases.', body: RuleBookReleasesBody },
  })
  releases(@CallOf() call: Call) {
    return this.runner.query(call, listRuleBookReleases, {}, (view) => ({ body: presentReleases(view, call.language), language: call.language }));
  }

  @Get('rulebook/rules')
  @Operation({
    id: 'listRules',
    summary: 'List the rules of the book',
    description: 'By their ids, by pages: what a rule says and concludes, what it looks at, and what it rests on, with the mark of a published source, common practice, memory or our own judgement. With `release`, the rules of another release. Filters can be combined.',
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
    summary: 'Choose a release of the rule book, and a side where sources disagree',
    description:
      'For a lead, with a reason that stays on record, by a key of the whole network. The release is the one that is followed now when it is left out; the choices are complete: what is left out stands at its default. Every fault is named at once; a safety floor is not a network’s to switch. From the answer on everything is triaged by the new book; what is still here in open incidents is triaged anew by the worker, and new plans are asked for; the history of each triage says what that changed. The answer names the rules and choices that are others than before. Compare both books first (POST /v1/rulebook/comparisons).',
    access: { scope: 'incident:write' },
    command: true,
    conditional: true,
    problems: ['reference_unknown', 'command_refused'],
    success: { status: 201, description: 'The decision that is in force now, with what it changed; its ETag is that of the rule book.', body: RuleBookChosenBody },
  })
  choose(@CallOf() call: Call, @Body({ schema: ChooseRuleBook }) body: ChooseRuleBook) {
    return this.runner.command(call, chooseRuleBook, { ...body, expectedNumber: call.expectedVersion() }, (chosen) => ({ status: 201, body: presentChosen(chosen), version: chosen.decision.number, location: '/v1/rulebook' }));
  }

  @Post('rulebook/comparisons')
  @Operation({
    id: 'compareRuleBooks',
    summary: 'Compare two rule books over the things of an incident',
    description: 'Two books, each a release with choices, over the things of an incident as they were last looked at, at most 3,000 of them: how many are judged differently in what, how first ways move, and the things that would be judged less strictly first. `from` is the book in force when it is left out; `only` narrows what is shown to things that differ in it. Nothing is stored, so no Idempotency-Key is asked for.',
    access: { scope: 'item:read' },
    speaks: true,
    problems: ['not_found', 'command_refused', 'body_too_large', 'media_type_unsupported'],
    success: { status: 200, description: 'What would change.', body: RuleBookComparisonBody },
  })
  compare(@CallOf() call: Call, @Body({ schema: CompareRuleBooks }) body: CompareRuleBooks) {
    const { language } = call;
    const { only, ...input } = body;
    return this.runner.query(call, prepareComparison, input, async ({ before, after, ground, items }) => ({ body: presentComparison(await compareOver(before, after, ground), { items, only, language }), language }));
  }
}
