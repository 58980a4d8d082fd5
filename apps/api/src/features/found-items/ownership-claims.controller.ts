import { Body, Controller, Get, Inject, Param, Post, Query } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import type { z } from 'zod';
import { claimFoundItem, compareOwnershipClaim, decideOwnershipClaim, withdrawOwnershipClaim } from '#application';
import { ClaimComparisonBody, ClaimFoundItem, ComparisonQuery, DecideOwnershipClaim, ItemParams, OwnershipClaimBody, OwnershipClaimParams, WithdrawOwnershipClaim } from '#contracts';
import { type Call, CallOf } from '../../http/call.js';
import { Operation } from '../../http/operation.decorator.js';
import { Runner } from '../../http/runner.js';
import { presentClaim, presentComparison } from './found-items.presenter.js';

@Controller({ version: '1' })
@ApiTags('Households')
export class OwnershipClaimsController {
  constructor(@Inject(Runner) private readonly runner: Runner) {}

  @Post('items/:itemId/ownership-claims')
  @Operation({
    id: 'claimFoundItem',
    summary: 'Take down that a household claims a found thing',
    description: 'With its answers to the questions, which are sealed before anybody compares them and never changed. Several households may claim one thing. Each claim is one try: of one household three on one thing and ten on all things within 24 hours (our own limits, which the operator may set). Who wrote the marks down or has seen them takes no answers, and neither does their key.',
    access: { scope: 'household:write' },
    command: true,
    speaks: true,
    problems: ['not_found', 'owner_known', 'owner_unknown', 'household_erased', 'claim_person', 'claim_tries_used', 'already_exists', 'reference_unknown', 'command_refused', 'incident_closed', 'item_terminal'],
    success: { status: 201, description: 'The claim waits for two people.', body: OwnershipClaimBody },
  })
  claim(@CallOf() call: Call, @Param({ schema: ItemParams }) params: z.output<typeof ItemParams>, @Body({ schema: ClaimFoundItem }) body: z.output<typeof ClaimFoundItem>) {
    return this.runner.command(call, claimFoundItem, { ...params, ...body }, (view) => ({ status: 201, body: presentClaim(view, call.language), language: call.language }));
  }

  @Get('ownership-claims/:ownershipClaimId/comparison')
  @Operation({
    id: 'compareOwnershipClaim',
    summary: 'See both sides of a claim',
    description: 'What is on record beside what the household said, for one who will decide; the one place where answers are shown. `personId` says who looks: not who took the answers down, nor with that key. Each look is put down in the audit, and who looked takes no answers about this thing any more.',
    access: { scope: 'household:write' },
    speaks: true,
    problems: ['not_found', 'claim_closed', 'claim_person', 'household_erased', 'reference_unknown'],
    success: { status: 200, description: 'Both sides.', body: ClaimComparisonBody },
  })
  compare(@CallOf() call: Call, @Param({ schema: OwnershipClaimParams }) params: z.output<typeof OwnershipClaimParams>, @Query({ schema: ComparisonQuery }) query: z.output<typeof ComparisonQuery>) {
    return this.runner.auditedQuery(call, compareOwnershipClaim, { ...params, ...query }, (view) => ({ body: presentComparison(view, call.language), language: call.language }));
  }

  @Post('ownership-claims/:ownershipClaimId/decisions')
  @Operation({
    id: 'decideOwnershipClaim',
    summary: 'Accept or decline a claim',
    description: 'Two people accept, each with a key of their own and neither of them who took the answers, and at least one is a lead; both have looked at the comparison. The second yes gives the thing to the household in one step: item, custody record, all that was sealed about it; other claims on it end. One no ends the claim, and the thing stays. Why is a code, because words could tell a claimant which answer was wrong.',
    access: { scope: 'household:write' },
    command: true,
    speaks: true,
    problems: ['not_found', 'claim_closed', 'claim_person', 'household_erased', 'reference_unknown', 'command_refused', 'incident_closed'],
    success: { status: 201, description: 'The decision stands.', body: OwnershipClaimBody },
  })
  decide(@CallOf() call: Call, @Param({ schema: OwnershipClaimParams }) params: z.output<typeof OwnershipClaimParams>, @Body({ schema: DecideOwnershipClaim }) body: z.output<typeof DecideOwnershipClaim>) {
    return this.runner.command(call, decideOwnershipClaim, { ...params, ...body }, (view) => ({ status: 201, body: presentClaim(view, call.language), language: call.language }));
  }

  @Post('ownership-claims/:ownershipClaimId/withdrawal')
  @Operation({
    id: 'withdrawOwnershipClaim',
    summary: 'Take a claim back',
    description: 'It is decided by nobody any more; it counts as a try.',
    access: { scope: 'household:write' },
    command: true,
    speaks: true,
    problems: ['not_found', 'claim_closed', 'household_erased'],
    success: { status: 200, description: 'The claim has ended.', body: OwnershipClaimBody },
  })
  withdraw(@CallOf() call: Call, @Param({ schema: OwnershipClaimParams }) params: z.output<typeof OwnershipClaimParams>, @Body({ schema: WithdrawOwnershipClaim }) _body: z.output<typeof WithdrawOwnershipClaim>) {
    return this.runner.command(call, withdrawOwnershipClaim, params, (view) => ({ body: presentClaim(view, call.language), language: call.language }));
  }
}
