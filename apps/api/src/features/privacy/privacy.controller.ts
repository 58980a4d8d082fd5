import { Body, Controller, Get, Inject, Param, Post } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import type { z } from 'zod';
import { eraseHousehold, heldData, liftLegalHold, placeLegalHold } from '#application';
import { EraseHousehold, ErasureBody, HeldDataBody, HouseholdParams, LegalHoldBody, LegalHoldParams, LiftLegalHold, PlaceLegalHold } from '#contracts';
import { type Call, CallOf } from '../../http/call.js';
import { Operation } from '../../http/operation.decorator.js';
import { Runner } from '../../http/runner.js';
import { presentErasure, presentHeldData, presentHold } from './privacy.presenter.js';

@Controller({ version: '1' })
@ApiTags('Privacy')
export class PrivacyController {
  constructor(@Inject(Runner) private readonly runner: Runner) {}

  @Post('households/:householdId/erasures')
  @Operation({
    id: 'eraseHousehold',
    summary: 'Erase a household',
    description: 'Destroys the key of everything that was said of the household and blanks the rest: contact, consents in words, family words, descriptions, notes, receipts, files. It cannot be undone. What happened to the things stays provable, by ids and hashes. Refused while anything of the household is still with us or on its way, while a file of the incident is being read in, and under a legal hold.',
    access: { scope: 'privacy:manage' },
    command: true,
    problems: ['not_found', 'reference_unknown', 'command_refused', 'items_held', 'legal_hold', 'household_erased', 'owner_unknown'],
    success: { status: 201, description: 'Nothing of the household is known any more.', body: ErasureBody },
  })
  erase(@CallOf() call: Call, @Param({ schema: HouseholdParams }) params: z.output<typeof HouseholdParams>, @Body({ schema: EraseHousehold }) body: z.output<typeof EraseHousehold>) {
    return this.runner.command(call, eraseHousehold, { ...params, ...body }, (erasure) => ({ status: 201, body: presentErasure(erasure), location: `/v1/households/${params.householdId}/personal-data` }));
  }

  @Get('households/:householdId/personal-data')
  @Operation({
    id: 'getHouseholdData',
    summary: 'Read everything held about a household',
    description: 'For the people it is about: every row that names the household or one of its things, words included. Each look is put down in the audit.',
    access: { scope: 'privacy:manage' },
    problems: ['not_found', 'owner_unknown'],
    success: { status: 200, description: 'What is held.', body: HeldDataBody },
  })
  data(@CallOf() call: Call, @Param({ schema: HouseholdParams }) params: z.output<typeof HouseholdParams>) {
    return this.runner.auditedQuery(call, heldData, params, (data) => ({ body: presentHeldData(data) }));
  }

  @Post('households/:householdId/legal-holds')
  @Operation({
    id: 'placeLegalHold',
    summary: 'Place a legal hold',
    description: 'While it stands the household is not erased, by nobody and by no rule. One at a time.',
    access: { scope: 'privacy:manage' },
    command: true,
    problems: ['not_found', 'reference_unknown', 'command_refused', 'already_exists', 'household_erased', 'owner_unknown'],
    success: { status: 201, description: 'The household is held.', body: LegalHoldBody },
  })
  hold(@CallOf() call: Call, @Param({ schema: HouseholdParams }) params: z.output<typeof HouseholdParams>, @Body({ schema: PlaceLegalHold }) body: z.output<typeof PlaceLegalHold>) {
    return this.runner.command(call, placeLegalHold, { ...params, ...body }, (view) => ({ status: 201, body: presentHold(view), version: view.hold.version }));
  }

  @Post('legal-holds/:legalHoldId/endings')
  @Operation({
    id: 'liftLegalHold',
    summary: 'Lift a legal hold',
    description: 'From now on the household may be erased again. The hold and who lifted it stay on record.',
    access: { scope: 'privacy:manage' },
    command: true,
    problems: ['not_found', 'reference_unknown', 'command_refused', 'legal_hold_ended'],
    success: { status: 201, description: 'The hold is lifted.', body: LegalHoldBody },
  })
  lift(@CallOf() call: Call, @Param({ schema: LegalHoldParams }) params: z.output<typeof LegalHoldParams>, @Body({ schema: LiftLegalHold }) body: z.output<typeof LiftLegalHold>) {
    return this.runner.command(call, liftLegalHold, { ...params, ...body }, (view) => ({ status: 201, body: presentHold(view), version: view.hold.version }));
  }
}
