import { Body, Controller, Get, Inject, Param, Post, Query } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import type { z } from 'zod';
import { acceptFromPartner, acceptReturn, declineFromPartner, listAidOffers, offerToPartner, returnToPartner, withdrawFromPartner } from '#application';
import { AcceptedFromPartnerBody, AcceptFromPartner, AcceptReturn, AidAgreementParams, AidOfferBody, AidOfferListQuery, AidOfferParams, EmptyAidCommand, IncidentParams, OfferToPartner, pageOf, ReturnToPartner } from '#contracts';
import { type Call, CallOf } from '../../http/call.js';
import { Operation } from '../../http/operation.decorator.js';
import { Pages } from '../../http/pages.js';
import { Runner } from '../../http/runner.js';
import { msOf } from '../../presenters/time.js';
import { presentAccepted, presentOffer } from './mutual-aid.presenter.js';

/** Things that pass between two networks that agreed; the giver keeps each until the other has accepted it. */
@Controller({ version: '1' })
@ApiTags('Mutual aid')
export class AidOffersController {
  constructor(
    @Inject(Runner) private readonly runner: Runner,
    @Inject(Pages) private readonly pages: Pages,
  ) {}

  @Post('aid-agreements/:agreementId/offers')
  @Operation({
    id: 'offerToPartner',
    summary: 'Offer a thing to the partner network',
    description: "Needs the owner's recorded consent `refer`. You keep the thing until the partner accepts; meanwhile it cannot move. The partner sees what it is and how urgent, and nothing about its family.",
    access: { scope: 'custody:write' },
    command: true,
    problems: ['not_found', 'incident_closed', 'item_terminal', 'wrong_stage', 'consent_missing', 'reference_unknown', 'command_refused', 'hand_over_open', 'location_disputed', 'item_missing'],
    success: { status: 201, description: 'The offer.', body: AidOfferBody },
  })
  offer(@CallOf() call: Call, @Param({ schema: AidAgreementParams }) params: z.output<typeof AidAgreementParams>, @Body({ schema: OfferToPartner }) { expiresAt, ...body }: OfferToPartner) {
    return this.runner.command(call, offerToPartner, { ...params, ...body, expiresAtMs: msOf(expiresAt) }, (offer) => ({ status: 201, body: presentOffer(offer) }));
  }

  @Get('incidents/:incidentId/aid-offers')
  @Operation({
    id: 'listAidOffers',
    summary: 'List offers between networks',
    description: 'Of the incident, in both directions, oldest first; `open=true` for those that wait for an answer.',
    access: { scope: 'item:read' },
    problems: ['not_found', 'cursor_invalid'],
    success: { status: 200, description: 'One page of offers.', body: pageOf(AidOfferBody) },
  })
  list(@CallOf() call: Call, @Param({ schema: IncidentParams }) params: z.output<typeof IncidentParams>, @Query({ schema: AidOfferListQuery }) { limit, cursor, open }: z.output<typeof AidOfferListQuery>) {
    const filter = { ...params, open };
    const after = this.pages.read(call, cursor, filter)?.[0] ?? null;
    return this.runner.query(call, listAidOffers, { ...filter, limit: limit + 1, after }, (rows) => ({ body: this.pages.answer(call, rows, limit, filter, (row) => [row.id], presentOffer) }));
  }

  @Post('aid-offers/:offerId/acceptances')
  @Operation({
    id: 'acceptFromPartner',
    summary: 'Accept a thing from the partner network',
    description: 'You hold it from now on: it gets a tag and a record of yours, which names the last event of the partner’s, as the partner’s record names the first of yours. What the owner allowed goes with it. It is triaged anew.',
    access: { scope: 'custody:write' },
    command: true,
    problems: ['not_found', 'incident_closed', 'hand_over_not_open', 'tag_invalid', 'tag_unknown', 'tag_taken', 'capacity_full', 'company_refused', 'consent_missing', 'reference_unknown', 'command_refused'],
    success: { status: 201, description: 'It is ours to keep now.', body: AcceptedFromPartnerBody },
  })
  accept(@CallOf() call: Call, @Param({ schema: AidOfferParams }) params: z.output<typeof AidOfferParams>, @Body({ schema: AcceptFromPartner }) body: AcceptFromPartner) {
    return this.runner.command(call, acceptFromPartner, { ...params, ...body }, (accepted) => ({ status: 201, body: presentAccepted(accepted), location: `/v1/items/${accepted.item.id}` }));
  }

  @Post('aid-offers/:offerId/refusals')
  @Operation({
    id: 'declineFromPartner',
    summary: 'Decline an offer of the partner network',
    description: 'The thing stays with the partner.',
    access: { scope: 'custody:write' },
    command: true,
    problems: ['not_found', 'hand_over_not_open', 'command_refused'],
    success: { status: 200, description: 'The offer was declined.', body: AidOfferBody },
  })
  decline(@CallOf() call: Call, @Param({ schema: AidOfferParams }) params: z.output<typeof AidOfferParams>, @Body({ schema: EmptyAidCommand }) _body: z.output<typeof EmptyAidCommand>) {
    return this.runner.command(call, declineFromPartner, params, (offer) => ({ body: presentOffer(offer) }));
  }

  @Post('aid-offers/:offerId/withdrawals')
  @Operation({
    id: 'withdrawFromPartner',
    summary: 'Withdraw an offer of ours',
    description: 'Also one that has expired, or whose agreement has ended: until it is withdrawn the thing cannot move.',
    access: { scope: 'custody:write' },
    command: true,
    problems: ['not_found', 'hand_over_not_open', 'command_refused'],
    success: { status: 200, description: 'The offer was withdrawn.', body: AidOfferBody },
  })
  withdraw(@CallOf() call: Call, @Param({ schema: AidOfferParams }) params: z.output<typeof AidOfferParams>, @Body({ schema: EmptyAidCommand }) _body: z.output<typeof EmptyAidCommand>) {
    return this.runner.command(call, withdrawFromPartner, params, (offer) => ({ body: presentOffer(offer) }));
  }

  @Post('aid-offers/:offerId/returns')
  @Operation({
    id: 'returnToPartner',
    summary: 'Offer a thing back to the network that it came from',
    description: 'Names the offer by which it came. You keep it until that network accepts.',
    access: { scope: 'custody:write' },
    command: true,
    problems: ['not_found', 'incident_closed', 'item_terminal', 'wrong_stage', 'consent_missing', 'reference_unknown', 'command_refused', 'hand_over_open', 'location_disputed', 'item_missing'],
    success: { status: 201, description: 'The offer.', body: AidOfferBody },
  })
  giveBack(@CallOf() call: Call, @Param({ schema: AidOfferParams }) params: z.output<typeof AidOfferParams>, @Body({ schema: ReturnToPartner }) { expiresAt, ...body }: ReturnToPartner) {
    return this.runner.command(call, returnToPartner, { ...params, ...body, expiresAtMs: msOf(expiresAt) }, (offer) => ({ status: 201, body: presentOffer(offer) }));
  }

  @Post('aid-offers/:offerId/return-acceptances')
  @Operation({
    id: 'acceptReturn',
    summary: 'Take a thing of ours back from the partner network',
    description: 'It keeps its tag and its record. A new round of work begins: nobody here knows how wet it is, so a look at it comes first.',
    access: { scope: 'custody:write' },
    command: true,
    problems: ['not_found', 'incident_closed', 'hand_over_not_open', 'wrong_stage', 'capacity_full', 'company_refused', 'consent_missing', 'reference_unknown', 'command_refused'],
    success: { status: 201, description: 'It is back.', body: AcceptedFromPartnerBody },
  })
  takeBack(@CallOf() call: Call, @Param({ schema: AidOfferParams }) params: z.output<typeof AidOfferParams>, @Body({ schema: AcceptReturn }) body: AcceptReturn) {
    return this.runner.command(call, acceptReturn, { ...params, ...body }, (accepted) => ({ status: 201, body: presentAccepted(accepted), location: `/v1/items/${accepted.item.id}` }));
  }
}
