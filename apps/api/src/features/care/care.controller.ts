import { Body, Controller, Get, Inject, Param, Post } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import type { z } from 'zod';
import { assessItem, getTriage, overrideDisposition, recordColourTest, type Observations, type TriageView } from '#application';
import { AssessItem, ItemParams, OverrideDisposition, RecordColourTest, TriageBody } from '#contracts';
import { type Call, CallOf } from '../../http/call.js';
import { Operation } from '../../http/operation.decorator.js';
import { Runner } from '../../http/runner.js';
import { msOf } from '../../presenters/time.js';
import { presentTriage } from './triage.presenter.js';

@Controller({ version: '1' })
@ApiTags('Care')
export class CareController {
  constructor(@Inject(Runner) private readonly runner: Runner) {}

  @Post('items/:itemId/assessments')
  @Operation({
    id: 'assessItem',
    summary: 'Record what was observed of an item',
    description:
      'What a person saw; what is left out stays as it was known. The item is triaged anew with the colour tests recorded so far and the consents in force, and the step `assess` is done with it. What cannot all be true is refused, all of it at once, and so is what contradicts an earlier look about something that cannot change by itself unless `seenAgain` says why. Where dye or mould came to light, or a dried thing got wet again, a new plan is asked for and a lead decides again. Who should not look is refused with the reasons, unless a lead answers for it in `override`; dye and mould that came to light are taken from everybody.',
    access: { scope: 'care:write' },
    command: true,
    speaks: true,
    problems: ['not_found', 'incident_closed', 'item_terminal', 'reference_unknown', 'person_not_suited', 'command_refused', 'observations_contradict'],
    success: { status: 201, description: 'The triage that follows; `askNext` is null here and worked out when the triage is read.', body: TriageBody },
  })
  assess(@CallOf() call: Call, @Param({ schema: ItemParams }) params: z.output<typeof ItemParams>, @Body({ schema: AssessItem }) body: AssessItem) {
    const { personId, assessedAt, wettedAt, seenAgain, override, ...seen } = body;
    const observations = (wettedAt === undefined ? seen : { ...seen, wettedAtMs: msOf(wettedAt) }) as Observations;
    return this.runner.command(call, assessItem, { ...params, personId, assessedAtMs: msOf(assessedAt), observations, seenAgain, override }, created(call));
  }

  @Post('items/:itemId/colour-tests')
  @Operation({
    id: 'recordColourTest',
    summary: 'Record readings of the colour test',
    description:
      'One reading for each colour tested; say whether every colour is tested with these and the earlier ones. The item is triaged anew. When every colour is tested the step `colour-test` is done; dye that moves asks for a new plan. Who should not test is refused with the reasons, unless a lead answers for it in `override`; dye that moves is taken from everybody.',
    access: { scope: 'care:write' },
    command: true,
    speaks: true,
    problems: ['not_found', 'incident_closed', 'item_terminal', 'reference_unknown', 'person_not_suited', 'command_refused', 'observations_contradict'],
    success: { status: 201, description: 'The triage that follows; `askNext` is null here and worked out when the triage is read.', body: TriageBody },
  })
  colourTest(@CallOf() call: Call, @Param({ schema: ItemParams }) params: z.output<typeof ItemParams>, @Body({ schema: RecordColourTest }) body: RecordColourTest) {
    const { testedAt, ...rest } = body;
    return this.runner.command(call, recordColourTest, { ...params, ...rest, testedAtMs: msOf(testedAt) }, created(call));
  }

  @Get('items/:itemId/triage')
  @Operation({
    id: 'getTriage',
    summary: 'Read the triage of an item',
    description: 'The latest result in full with its reasons and sources, what it rests on, a choice of a lead that still stands, and the questions whose answers could change it now.',
    access: { scope: 'item:read' },
    speaks: true,
    problems: ['not_found'],
    success: { status: 200, description: 'The triage.', body: TriageBody },
  })
  triage(@CallOf() call: Call, @Param({ schema: ItemParams }) params: z.output<typeof ItemParams>) {
    return this.runner.query(call, getTriage, params, (view) => ({ body: presentTriage(view, call.language), language: call.language, version: view.item.version }));
  }

  @Post('items/:itemId/disposition-overrides')
  @Operation({
    id: 'overrideDisposition',
    summary: 'Choose another way than triage puts first',
    description:
      'For a person with the skill `lead`, with a reason that stays on record. Only among the ways that the rule book offers: what it bars, and what the owner has refused, is not for a lead to allow, and the answer says why. The choice stands until dye or mould is found, or until the item is frozen or referred.',
    access: { scope: 'care:write' },
    command: true,
    speaks: true,
    problems: ['not_found', 'incident_closed', 'item_terminal', 'reference_unknown', 'command_refused', 'consent_missing'],
    success: { status: 201, description: 'The triage with the choice in force.', body: TriageBody },
  })
  override(@CallOf() call: Call, @Param({ schema: ItemParams }) params: z.output<typeof ItemParams>, @Body({ schema: OverrideDisposition }) body: OverrideDisposition) {
    const { decidedAt, ...rest } = body;
    return this.runner.command(call, overrideDisposition, { ...params, ...rest, decidedAtMs: msOf(decidedAt) }, created(call));
  }
}

function created({ language }: Call) {
  return (view: TriageView) => ({ status: 201, body: presentTriage(view, language), language, version: view.item.version, location: `/v1/items/${view.item.id}/triage` });
}
