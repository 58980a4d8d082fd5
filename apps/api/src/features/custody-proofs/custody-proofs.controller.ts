import { Controller, Get, Inject, Param, Query } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import type { z } from 'zod';
import { listCustodyProofs, loadCustodyVerification } from '#application';
import { CustodyProofBody, CustodyVerificationBody, ItemParams, PageQuery, pageOf } from '#contracts';
import { type Call, CallOf } from '../../http/call.js';
import { Operation } from '../../http/operation.decorator.js';
import { Pages } from '../../http/pages.js';
import { Runner } from '../../http/runner.js';
import { presentCustodyProof } from './custody-root.presenter.js';
import { presentCustodyVerification } from './custody-verification.presenter.js';

@Controller({ version: '1' })
@ApiTags('Custody')
export class CustodyProofsController {
  constructor(
    @Inject(Runner) private readonly runner: Runner,
    @Inject(Pages) private readonly pages: Pages,
  ) {}

  @Get('items/:itemId/custody-proof')
  @Operation({
    id: 'listCustodyProofs',
    summary: 'Prove the custody record of an item',
    description:
      'Every event with the path to the signed root that it is under, so that the record of one thing can be proved to somebody who may not see the others. An event is checked from its own members: its `hash` is SHA-256 over the canonical form that is written down with our source, its leaf is `itemId|seq|hash`.',
    access: { scope: 'item:read' },
    problems: ['not_found', 'cursor_invalid'],
    success: { status: 200, description: 'One page of events with their proofs.', body: pageOf(CustodyProofBody) },
  })
  prove(@CallOf() call: Call, @Param({ schema: ItemParams }) params: z.output<typeof ItemParams>, @Query({ schema: PageQuery }) query: z.output<typeof PageQuery>) {
    const afterSeq = Number(this.pages.read(call, query.cursor, params)?.[0] ?? 0);
    return this.runner.query(call, listCustodyProofs, { ...params, afterSeq, limit: query.limit + 1 }, (rows) => ({
      body: this.pages.answer(call, rows, query.limit, params, ({ event }) => [String(event.seq)], presentCustodyProof),
    }));
  }

  @Get('items/:itemId/custody-verification')
  @Operation({
    id: 'verifyCustody',
    summary: 'Check the custody record of an item',
    description: 'Checks every event of the item, its present state, and each event against the signed root that it is under; names what does not fit by event and root.',
    access: { scope: 'item:read' },
    problems: ['not_found'],
    success: { status: 200, description: 'What was found; nothing, when the record is sound.', body: CustodyVerificationBody },
  })
  verify(@CallOf() call: Call, @Param({ schema: ItemParams }) params: z.output<typeof ItemParams>) {
    return this.runner.query(call, loadCustodyVerification, params, (loaded) => ({ body: presentCustodyVerification(loaded) }));
  }
}
