import { Body, Controller, Inject, Param, Post } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import type { z } from 'zod';
import { referItem, releaseItem, returnFromReferral } from '#application';
import { ItemBody, ItemParams, ReferItem, ReferralBody, ReleaseItem, ReturnFromReferral } from '#contracts';
import { type Call, CallOf } from '../../http/call.js';
import { Operation } from '../../http/operation.decorator.js';
import { Runner } from '../../http/runner.js';
import { presentItem } from '../../presenters/item.presenter.js';
import { msOf } from '../../presenters/time.js';
import { presentReferral } from './referral.presenter.js';

/** How an item leaves the hall with its owner's agreement, and how it comes back from a specialist. */
@Controller({ version: '1' })
@ApiTags('Custody')
export class DeparturesController {
  constructor(@Inject(Runner) private readonly runner: Runner) {}

  @Post('items/:itemId/referrals')
  @Operation({
    id: 'referItem',
    summary: 'Send an item to a specialist',
    description: "Needs the owner's recorded consent `refer`. For a found thing nobody can give it: a lead may send it with `ownerUnknown` as long as it is not stable, to be stabilised alone and at no cost to any owner. The specialist keeps the item until `referral-returns` says otherwise.",
    access: { scope: 'custody:write' },
    command: true,
    problems: ['not_found', 'incident_closed', 'wrong_stage', 'item_terminal', 'hand_over_open', 'location_disputed', 'item_missing', 'consent_missing', 'owner_known', 'reference_unknown', 'command_refused'],
    success: { status: 201, description: 'The item is with the specialist.', body: ReferralBody },
  })
  refer(@CallOf() call: Call, @Param({ schema: ItemParams }) params: z.output<typeof ItemParams>, @Body({ schema: ReferItem }) body: ReferItem) {
    const { sentAt, ...rest } = body;
    return this.runner.command(call, referItem, { ...params, ...rest, sentAtMs: msOf(sentAt) }, (view) => ({ status: 201, body: presentReferral(view), version: view.item.version, location: `/v1/items/${view.item.id}` }));
  }

  @Post('items/:itemId/referral-returns')
  @Operation({
    id: 'returnFromReferral',
    summary: 'Take an item back from a specialist',
    description: 'A new round of work begins: what was done before does not count, its wet state is unknown, and its next step is a look at it.',
    access: { scope: 'custody:write' },
    command: true,
    problems: ['not_found', 'incident_closed', 'wrong_stage', 'item_terminal', 'hand_over_open', 'location_disputed', 'item_missing', 'capacity_full', 'company_refused', 'reference_unknown', 'command_refused'],
    success: { status: 201, description: 'The item is back.', body: ReferralBody },
  })
  giveBack(@CallOf() call: Call, @Param({ schema: ItemParams }) params: z.output<typeof ItemParams>, @Body({ schema: ReturnFromReferral }) body: ReturnFromReferral) {
    const { returnedAt, ...rest } = body;
    return this.runner.command(call, returnFromReferral, { ...params, ...rest, returnedAtMs: msOf(returnedAt) }, (view) => ({ status: 201, body: presentReferral(view), version: view.item.version, location: `/v1/items/${view.item.id}` }));
  }

  @Post('items/:itemId/releases')
  @Operation({
    id: 'releaseItem',
    summary: 'Let an item go',
    description: "Only with the owner's recorded consent `release` for this very item (a word about all of the household's things is none), and with a photograph kept unless the owner refused that. What was found and nobody claimed goes by the decision of two people instead (`decideUnclaimed`), the way they decided: `disposed` or `authority`. Nothing more happens to the item after it.",
    access: { scope: 'custody:write' },
    command: true,
    problems: ['not_found', 'incident_closed', 'wrong_stage', 'item_terminal', 'hand_over_open', 'location_disputed', 'item_missing', 'consent_missing', 'reference_unknown', 'command_refused', 'owner_unknown', 'legal_hold'],
    success: { status: 201, description: 'The item has left the network.', body: ItemBody },
  })
  release(@CallOf() call: Call, @Param({ schema: ItemParams }) params: z.output<typeof ItemParams>, @Body({ schema: ReleaseItem }) body: ReleaseItem) {
    const { releasedAt, ...rest } = body;
    return this.runner.command(call, releaseItem, { ...params, ...rest, releasedAtMs: msOf(releasedAt) }, (item) => ({ status: 201, body: presentItem(item), version: item.version, location: `/v1/items/${item.id}` }));
  }
}
