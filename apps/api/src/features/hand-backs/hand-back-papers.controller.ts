import { Controller, Get, Inject, Param, Query } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import type { z } from 'zod';
import { handBackPaper, itemDossier } from '#application';
import { HandBackParams, ItemParams, PaperQuery } from '#contracts';
import { type Call, CallOf } from '../../http/call.js';
import { Operation } from '../../http/operation.decorator.js';
import { asPrinted, PDF } from '../../http/printed.js';
import { familyLanguage } from '../../http/language.js';
import { Runner } from '../../http/runner.js';
import { DOCUMENTS } from '../../http/tokens.js';
import type { DocumentThreads } from '../../threads/document-threads.js';

type Wanted = z.output<typeof PaperQuery>;

/** Papers that a family takes home, in its language. */
@Controller({ version: '1' })
@ApiTags('Hand-backs')
export class HandBackPapersController {
  constructor(
    @Inject(Runner) private readonly runner: Runner,
    @Inject(DOCUMENTS) private readonly documents: DocumentThreads,
  ) {}

  @Get('hand-backs/:handBackId/receipt-paper')
  @Operation({
    id: 'printHandBackReceipt',
    summary: 'Print the receipt of a hand-back',
    description: "PDF in the language of the household unless you name one: the things, the date, who handed back to whom by role, what was done, what was not or could not be done, what remains uncertain, what the receiver had to say, the signature. It promises nothing. Things of which the same is said stand together. The same hand-back has the same bytes.",
    access: { scope: 'household:read' },
    speaks: true,
    problems: ['not_found'],
    success: { status: 200, description: 'The receipt.', body: null, mediaType: PDF },
  })
  receipt(@CallOf() call: Call, @Param({ schema: HandBackParams }) params: z.output<typeof HandBackParams>, @Query({ schema: PaperQuery }) query: Wanted) {
    return this.ofHandBack(call, params, query, 'receipt');
  }

  @Get('hand-backs/:handBackId/care-sheet')
  @Operation({
    id: 'printCareSheet',
    summary: 'Print the care sheet of a hand-back',
    description: 'PDF in the language of the household unless you name one: by material, what to do in the next weeks, how to keep it, what not to do, and when to ask a conservator, each with what it rests on.',
    access: { scope: 'item:read' },
    speaks: true,
    problems: ['not_found'],
    success: { status: 200, description: 'The care sheet.', body: null, mediaType: PDF },
  })
  careSheet(@CallOf() call: Call, @Param({ schema: HandBackParams }) params: z.output<typeof HandBackParams>, @Query({ schema: PaperQuery }) query: Wanted) {
    return this.ofHandBack(call, params, query, 'care-sheet');
  }

  @Get('items/:itemId/condition-note')
  @Operation({
    id: 'printConditionNote',
    summary: 'Print the condition note of an item',
    description: 'PDF: how it came, tests and weighings, every step with its time and by whose hands (by role, no name), how it stands now, and its photographs. The same record has the same bytes.',
    access: { scope: 'item:read' },
    speaks: true,
    problems: ['not_found'],
    success: { status: 200, description: 'The note.', body: null, mediaType: PDF },
  })
  async conditionNote(@CallOf() call: Call, @Param({ schema: ItemParams }) params: z.output<typeof ItemParams>, @Query({ schema: PaperQuery }) query: Wanted) {
    let language = call.language;
    const drawn = await this.runner.query(call, itemDossier, params, async (dossier) => {
      language = query.language ?? familyLanguage(dossier.householdLanguage);
      return { body: await this.documents.draw(call.context.networkId, { document: 'condition-note', dossier, style: { language, paper: query.paper } }) };
    });
    return asPrinted(call, drawn, language, 'condition-note.pdf');
  }

  private async ofHandBack(call: Call, params: z.output<typeof HandBackParams>, query: Wanted, document: 'receipt' | 'care-sheet'): Promise<unknown> {
    let language = call.language;
    const drawn = await this.runner.query(call, handBackPaper, params, async (given) => {
      language = query.language ?? familyLanguage(given.householdLanguage);
      return { body: await this.documents.draw(call.context.networkId, { document, given, style: { language, paper: query.paper } }) };
    });
    return asPrinted(call, drawn, language, `${document}.pdf`);
  }
}
