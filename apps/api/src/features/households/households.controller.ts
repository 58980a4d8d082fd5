import { Body, Controller, Get, Inject, Param, Post, Query } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import type { z } from 'zod';
import { getHousehold, listHouseholds, recordConsent, takeInHousehold } from '#application';
import { ConsentBody, HouseholdBody, HouseholdParams, HouseholdSummary, IncidentParams, PageQuery, pageOf, RecordConsent, TakeInHousehold } from '#contracts';
import { type Call, CallOf } from '../../http/call.js';
import { Operation } from '../../http/operation.decorator.js';
import { Pages } from '../../http/pages.js';
import { Runner } from '../../http/runner.js';
import { presentConsent, presentHousehold, presentHouseholdSummary } from './household.presenter.js';

@Controller({ version: '1' })
@ApiTags('Households')
export class HouseholdsController {
  constructor(
    @Inject(Runner) private readonly runner: Runner,
    @Inject(Pages) private readonly pages: Pages,
  ) {}

  @Post('incidents/:incidentId/households')
  @Operation({
    id: 'takeInHousehold',
    summary: 'Take in a household',
    description: 'Registers the contact and what the owner agreed to at the doorway.',
    access: { scope: 'household:write' },
    command: true,
    problems: ['not_found', 'already_exists', 'incident_closed'],
    success: { status: 201, description: 'The household is registered.', body: HouseholdBody },
  })
  takeIn(@CallOf() call: Call, @Param({ schema: IncidentParams }) params: z.output<typeof IncidentParams>, @Body({ schema: TakeInHousehold }) body: z.output<typeof TakeInHousehold>) {
    return this.runner.command(call, takeInHousehold, { ...params, ...body }, ({ household, consents }) => ({
      status: 201, body: presentHousehold({ household, contact: body.contact, consents }), version: household.version, location: `/v1/households/${household.id}`,
    }));
  }

  @Get('incidents/:incidentId/households')
  @Operation({
    id: 'listHouseholds',
    summary: 'List the households of an incident',
    description: 'Codes and languages only; the contact is read one by one.',
    access: { scope: 'household:read' },
    problems: ['not_found', 'cursor_invalid'],
    success: { status: 200, description: 'One page of households.', body: pageOf(HouseholdSummary) },
  })
  list(@CallOf() call: Call, @Param({ schema: IncidentParams }) params: z.output<typeof IncidentParams>, @Query({ schema: PageQuery }) query: z.output<typeof PageQuery>) {
    const after = this.pages.read(call, query.cursor, params)?.[0] ?? null;
    return this.runner.query(call, listHouseholds, { ...params, limit: query.limit + 1, after }, (rows) => ({
      body: this.pages.answer(call, rows, query.limit, params, (row) => [row.id], presentHouseholdSummary),
    }));
  }

  @Get('households/:householdId')
  @Operation({
    id: 'getHousehold',
    summary: 'Read a household',
    description: 'Contact and every consent in the order it was given. Each look is put down in the audit.',
    access: { scope: 'household:read' },
    problems: ['not_found'],
    success: { status: 200, description: 'The household.', body: HouseholdBody },
  })
  get(@CallOf() call: Call, @Param({ schema: HouseholdParams }) params: z.output<typeof HouseholdParams>) {
    return this.runner.auditedQuery(call, getHousehold, params, (view) => ({ body: presentHousehold(view), version: view.household.version }));
  }

  @Post('households/:householdId/consents')
  @Operation({
    id: 'recordConsent',
    summary: 'Record what an owner decided',
    description: 'For one item or for all of the household; a change of mind is a new record. The items it touches are triaged anew, all of them. `release` is agreed item by item: a yes for all of the household lets nothing go, a no for all of it ends every earlier yes. A word about treating, freezing or referring a thing that a partner network holds is told there at once, alone, and opens a matter for its lead (`partner-word`); where it can be told no more, one opens here (`partner-not-told`).',
    access: { scope: 'household:write' },
    command: true,
    problems: ['not_found', 'reference_unknown', 'household_erased', 'owner_unknown'],
    success: { status: 201, description: 'The consent is recorded.', body: ConsentBody },
  })
  consent(@CallOf() call: Call, @Param({ schema: HouseholdParams }) params: z.output<typeof HouseholdParams>, @Body({ schema: RecordConsent }) body: z.output<typeof RecordConsent>) {
    return this.runner.command(call, recordConsent, { ...params, ...body }, (consent) => ({ status: 201, body: presentConsent(consent), location: `/v1/households/${params.householdId}` }));
  }
}
