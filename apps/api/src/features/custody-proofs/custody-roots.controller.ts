import { Controller, Get, Inject, Param, Query } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import type { z } from 'zod';
import { getCustodyRoot, listCustodyKeys, listCustodyRoots } from '#application';
import { CustodyKeysBody, CustodyRootBody, CustodyRootParams, PageQuery, pageOf } from '#contracts';
import { printRoot } from '../../documents/root-print.js';
import { type Call, CallOf } from '../../http/call.js';
import { Operation } from '../../http/operation.decorator.js';
import { Pages } from '../../http/pages.js';
import { Runner } from '../../http/runner.js';
import { presentCustodyKey, presentCustodyRoot } from './custody-root.presenter.js';

@Controller({ version: '1' })
@ApiTags('Custody')
export class CustodyRootsController {
  constructor(
    @Inject(Runner) private readonly runner: Runner,
    @Inject(Pages) private readonly pages: Pages,
  ) {}

  @Get('custody-roots')
  @Operation({
    id: 'listCustodyRoots',
    summary: 'List the signed roots of the custody record',
    description:
      'All roots of your network in the order of their numbers, which have no gaps. Keep them where we cannot reach them: with a root that you keep, nobody can rewrite what is under it unseen, not even the owner of the database. A root is made a little after every hour in which something was recorded; it says how many events of the whole network it covers and names none, so a key that is limited to one incident may read it, too.',
    access: { scope: 'item:read' },
    problems: ['cursor_invalid'],
    success: { status: 200, description: 'One page of roots.', body: pageOf(CustodyRootBody) },
  })
  list(@CallOf() call: Call, @Query({ schema: PageQuery }) query: z.output<typeof PageQuery>) {
    const afterNo = Number(this.pages.read(call, query.cursor, {})?.[0] ?? 0);
    return this.runner.query(call, listCustodyRoots, { afterNo, limit: query.limit + 1 }, (rows) => ({
      body: this.pages.answer(call, rows, query.limit, {}, ({ root }) => [String(root.rootNo)], presentCustodyRoot),
    }));
  }

  @Get('custody-roots/:rootNo')
  @Operation({
    id: 'getCustodyRoot',
    summary: 'Read a signed root',
    description: 'The statement as it was signed, with everything that is needed to check it without us.',
    access: { scope: 'item:read' },
    problems: ['not_found'],
    success: { status: 200, description: 'The root.', body: CustodyRootBody },
  })
  get(@CallOf() call: Call, @Param({ schema: CustodyRootParams }) params: z.output<typeof CustodyRootParams>) {
    return this.runner.query(call, getCustodyRoot, params, (root) => ({ body: presentCustodyRoot(root) }));
  }

  @Get('custody-roots/:rootNo/print')
  @Operation({
    id: 'printCustodyRoot',
    summary: 'Print a signed root',
    description: 'One page (A4) with the statement in groups of four digits and as a QR code, to be filed by somebody else.',
    access: { scope: 'item:read' },
    speaks: true,
    problems: ['not_found'],
    success: { status: 200, description: 'The page as PDF.', body: null, mediaType: 'application/pdf' },
  })
  async print(@CallOf() call: Call, @Param({ schema: CustodyRootParams }) params: z.output<typeof CustodyRootParams>) {
    const page = await this.runner.query(call, getCustodyRoot, params, async (root) => ({ body: await printRoot(presentCustodyRoot(root), call.language), language: call.language }));
    call.reply.header('content-type', 'application/pdf').header('content-disposition', `inline; filename="custody-root-${params.rootNo}.pdf"`).header('x-content-type-options', 'nosniff');
    return page;
  }

  @Get('custody-keys')
  @Operation({
    id: 'listCustodyKeys',
    summary: 'List the public keys of the roots',
    description: 'Every key that has signed roots of your network, the earliest first; a key that is no longer used stays. Compare it with what the operator told you by another way.',
    access: { scope: 'item:read' },
    success: { status: 200, description: 'The keys.', body: CustodyKeysBody },
  })
  keys(@CallOf() call: Call) {
    return this.runner.query(call, listCustodyKeys, {}, (keys) => ({ body: { items: keys.map(presentCustodyKey) } }));
  }
}
