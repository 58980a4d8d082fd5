import { Body, Controller, Get, Inject, Param, Post, Query } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import type { z } from 'zod';
import { decideReferralQuote, listReferralQuotes, recordReferralQuote, referralPackage, referralPictures, type FileVault, type UnitOfWork } from '#application';
import type { Logger } from '#platform';
import { DecideReferralQuote, ItemParams, PaperQuery, QuoteParams, RecordReferralQuote, ReferralPackageBody, ReferralQuoteBody, ReferralQuotesBody } from '#contracts';
import { type Call, CallOf } from '../../http/call.js';
import { Operation } from '../../http/operation.decorator.js';
import { asPrinted, PDF } from '../../http/printed.js';
import { Runner } from '../../http/runner.js';
import { DOCUMENTS, LOGGER, UNIT_OF_WORK, VAULT } from '../../http/tokens.js';
import type { DocumentThreads } from '../../threads/document-threads.js';
import { presentPackage, presentQuote } from './referral-package.presenter.js';

/** What a specialist is told and offers, and who says yes to it. Going out and coming back are custody. */
@Controller({ version: '1' })
@ApiTags('Custody')
export class ReferralsController {
  constructor(
    @Inject(Runner) private readonly runner: Runner,
    @Inject(DOCUMENTS) private readonly documents: DocumentThreads,
    @Inject(UNIT_OF_WORK) private readonly unitOfWork: UnitOfWork,
    @Inject(VAULT) private readonly vault: FileVault,
    @Inject(LOGGER) private readonly log: Logger,
  ) {}

  @Get('items/:itemId/referral-package')
  @Operation({
    id: 'getReferralPackage',
    summary: 'Read what a specialist must know of an item',
    description: 'Condition as it came and now, tests, weighings, water, hours since wetting, steps with hands by role, photographs, what can hurt whoever opens it and what to wear, what the owner allows and up to how much, offers. No name and no address stands in it.',
    access: { scope: 'item:read' },
    speaks: true,
    problems: ['not_found'],
    success: { status: 200, description: 'The package.', body: ReferralPackageBody },
  })
  read(@CallOf() call: Call, @Param({ schema: ItemParams }) params: z.output<typeof ItemParams>) {
    return this.runner.query(call, referralPackage, params, (given) => ({ body: presentPackage(given, call.language), language: call.language }));
  }

  @Get('items/:itemId/referral-package/paper')
  @Operation({
    id: 'printReferralPackage',
    summary: 'Print what a specialist must know of an item',
    description: 'As `getReferralPackage`, as PDF to travel with the thing. What can hurt whoever opens it stands first. With up to six of the photographs, the newest, small and with their dates, when the owner has agreed that photographs are shown (scope `photograph` of the consent) and the key has the scope `file:read`.',
    access: { scope: 'item:read' },
    speaks: true,
    problems: ['not_found'],
    success: { status: 200, description: 'The package.', body: null, mediaType: PDF },
  })
  async print(@CallOf() call: Call, @Param({ schema: ItemParams }) params: z.output<typeof ItemParams>, @Query({ schema: PaperQuery }) query: z.output<typeof PaperQuery>) {
    const language = query.language ?? call.language;
    const drawn = await this.runner.query(call, referralPackage, params, async (given) => {
      const pictures = await referralPictures({ unitOfWork: this.unitOfWork, vault: this.vault }, this.runner.about(call), given.dossier, { mayRead: call.scopes.has('file:read'), onUnread: (fileId, error) => this.log.warn({ fileId, err: error }, 'a photograph could not be read for printing') });
      return { body: await this.documents.draw(call.context.networkId, { document: 'referral', given, pictures, style: { language, paper: query.paper } }) };
    });
    return asPrinted(call, drawn, language, 'referral.pdf');
  }

  @Post('items/:itemId/referral-quotes')
  @Operation({
    id: 'recordReferralQuote',
    summary: 'Record the offer of a specialist',
    description: 'What the specialist offers to do, for how much, until when. It binds nobody before it is approved.',
    access: { scope: 'custody:write' },
    command: true,
    problems: ['not_found', 'incident_closed', 'item_terminal', 'reference_unknown', 'command_refused'],
    success: { status: 201, description: 'The offer.', body: ReferralQuoteBody },
  })
  record(@CallOf() call: Call, @Param({ schema: ItemParams }) params: z.output<typeof ItemParams>, @Body({ schema: RecordReferralQuote }) body: z.output<typeof RecordReferralQuote>) {
    const { validUntil, ...rest } = body;
    return this.runner.command(call, recordReferralQuote, { ...params, ...rest, validUntilMs: Date.parse(validUntil) }, (quote) => ({ status: 201, body: presentQuote(quote) }));
  }

  @Get('items/:itemId/referral-quotes')
  @Operation({
    id: 'listReferralQuotes',
    summary: 'List the offers of specialists for an item',
    description: 'Newest first, decided ones too.',
    access: { scope: 'item:read' },
    problems: ['not_found'],
    success: { status: 200, description: 'The offers.', body: ReferralQuotesBody },
  })
  list(@CallOf() call: Call, @Param({ schema: ItemParams }) params: z.output<typeof ItemParams>) {
    return this.runner.query(call, listReferralQuotes, params, (quotes) => ({ body: { items: quotes.map(presentQuote) } }));
  }

  @Post('referral-quotes/:quoteId/decisions')
  @Operation({
    id: 'decideReferralQuote',
    summary: 'Approve or decline the offer of a specialist',
    description: "A yes rests on the owner's word: the limit that the owner named before, or a yes to this very item that was given after the offer came. Where neither covers it, `consent_missing` says what to ask the owner. `referItem` names the approved offer by which the item goes out.",
    access: { scope: 'custody:write' },
    command: true,
    problems: ['not_found', 'already_exists', 'incident_closed', 'item_terminal', 'consent_missing', 'command_refused'],
    success: { status: 200, description: 'The offer as decided.', body: ReferralQuoteBody },
  })
  decide(@CallOf() call: Call, @Param({ schema: QuoteParams }) params: z.output<typeof QuoteParams>, @Body({ schema: DecideReferralQuote }) body: z.output<typeof DecideReferralQuote>) {
    return this.runner.command(call, decideReferralQuote, { ...params, ...body }, (quote) => ({ body: presentQuote(quote) }));
  }
}
