import { Body, Controller, Get, Inject, Param, Post, Query } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import type { z } from 'zod';
import { inviteToAid, joinAid, listAidAgreements, revokeAid } from '#application';
import { AidAgreementBody, AidAgreementParams, EmptyAidCommand, IncidentParams, InviteToAid, JoinAid, NewAidAgreementBody, PageQuery, pageOf } from '#contracts';
import { makeInvitation, newId, readInvitation } from '#platform';
import { type Call, CallOf } from '../../http/call.js';
import { Operation } from '../../http/operation.decorator.js';
import { Pages } from '../../http/pages.js';
import { Runner } from '../../http/runner.js';
import { presentAgreement, presentNewAgreement } from './mutual-aid.presenter.js';

/** How two networks come to help each other, and how that ends. */
@Controller({ version: '1' })
@ApiTags('Mutual aid')
export class AidAgreementsController {
  constructor(
    @Inject(Runner) private readonly runner: Runner,
    @Inject(Pages) private readonly pages: Pages,
  ) {}

  @Post('incidents/:incidentId/aid-agreements')
  @Operation({
    id: 'inviteToAid',
    summary: 'Invite another network to help',
    description: 'The answer shows the invitation once; only its hash is kept. Send it to the coordinator of the other network, who joins with it. Nothing passes before that. A repeated request answers the same without the invitation.',
    access: { scope: 'incident:write' },
    command: true,
    problems: ['not_found', 'incident_closed', 'command_refused'],
    success: { status: 201, description: 'The agreement, with the invitation.', body: NewAidAgreementBody },
  })
  async invite(@CallOf() call: Call, @Param({ schema: IncidentParams }) params: z.output<typeof IncidentParams>, @Body({ schema: InviteToAid }) { validTo, ...body }: InviteToAid) {
    const agreementId = newId();
    const made = makeInvitation(call.context.networkId, agreementId);
    const input = { ...params, ...body, validToMs: Date.parse(validTo) };
    const answer = await this.runner.command(call, (stores, about, given: typeof input) => inviteToAid(stores, about, given, { agreementId, sha256: made.sha256 }), input, (agreement) => ({ status: 201, body: presentNewAgreement(agreement) }));
    const shown = answer as z.output<typeof NewAidAgreementBody>;
    // The secret joins the answer after it was stored, and only where this very request made the agreement.
    return shown.id === agreementId ? { ...shown, invitation: made.text } : shown;
  }

  @Post('incidents/:incidentId/aid-agreements/joinings')
  @Operation({
    id: 'joinAid',
    summary: 'Join with an invitation',
    description: 'From now on the other network may offer things to this incident. An invitation works once; one that is unknown, used, ended or your own is answered alike.',
    access: { scope: 'incident:write' },
    command: true,
    problems: ['not_found', 'incident_closed', 'command_refused'],
    success: { status: 201, description: 'The agreement.', body: AidAgreementBody },
  })
  join(@CallOf() call: Call, @Param({ schema: IncidentParams }) params: z.output<typeof IncidentParams>, @Body({ schema: JoinAid }) body: JoinAid) {
    return this.runner.command(call, joinAid, { ...params, invitation: readInvitation(body.invitation) }, (agreement) => ({ status: 201, body: presentAgreement(agreement) }));
  }

  @Get('incidents/:incidentId/aid-agreements')
  @Operation({
    id: 'listAidAgreements',
    summary: 'List the agreements with other networks',
    description: 'Those of the incident, also ended ones, oldest first.',
    access: { scope: 'incident:read' },
    problems: ['not_found', 'cursor_invalid'],
    success: { status: 200, description: 'One page of agreements.', body: pageOf(AidAgreementBody) },
  })
  list(@CallOf() call: Call, @Param({ schema: IncidentParams }) params: z.output<typeof IncidentParams>, @Query({ schema: PageQuery }) { limit, cursor }: z.output<typeof PageQuery>) {
    const after = this.pages.read(call, cursor, params)?.[0] ?? null;
    return this.runner.query(call, listAidAgreements, { ...params, limit: limit + 1, after }, (rows) => ({ body: this.pages.answer(call, rows, limit, params, (row) => [row.id], presentAgreement) }));
  }

  @Post('aid-agreements/:agreementId/revocations')
  @Operation({
    id: 'revokeAid',
    summary: 'End an agreement',
    description: 'On both sides at once. Nothing passes by it any more; what is with the partner stays there on record, and open offers can still be withdrawn.',
    access: { scope: 'incident:write' },
    command: true,
    problems: ['not_found', 'command_refused'],
    success: { status: 200, description: 'The agreement has ended.', body: AidAgreementBody },
  })
  revoke(@CallOf() call: Call, @Param({ schema: AidAgreementParams }) params: z.output<typeof AidAgreementParams>, @Body({ schema: EmptyAidCommand }) _body: z.output<typeof EmptyAidCommand>) {
    return this.runner.command(call, revokeAid, params, (agreement) => ({ body: presentAgreement(agreement) }));
  }
}
