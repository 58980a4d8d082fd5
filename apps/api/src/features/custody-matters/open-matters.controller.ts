import { Controller, Get, Inject, Param, Query } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import type { z } from 'zod';
import { listOpenMatters } from '#application';
import { IncidentParams, OpenMatterBody, OpenMattersQuery, pageOf } from '#contracts';
import { type Call, CallOf } from '../../http/call.js';
import { Operation } from '../../http/operation.decorator.js';
import { Pages } from '../../http/pages.js';
import { Runner } from '../../http/runner.js';
import { presentOpenMatter } from './matter.presenter.js';

@Controller({ version: '1' })
@ApiTags('Custody')
export class OpenMattersController {
  constructor(
    @Inject(Runner) private readonly runner: Runner,
    @Inject(Pages) private readonly pages: Pages,
  ) {}

  @Get('incidents/:incidentId/open-matters')
  @Operation({
    id: 'listOpenMatters',
    summary: 'List the items about which something is open',
    description: 'A hand-over that nobody has answered, a location that two reports disagree about, or an item that is missing; with `matter` only those of one kind. Each waits for a person: nothing here settles itself.',
    access: { scope: 'item:read' },
    problems: ['not_found', 'cursor_invalid'],
    success: { status: 200, description: 'One page of items.', body: pageOf(OpenMatterBody) },
  })
  list(@CallOf() call: Call, @Param({ schema: IncidentParams }) params: z.output<typeof IncidentParams>, @Query({ schema: OpenMattersQuery }) { limit, cursor, matter }: z.output<typeof OpenMattersQuery>) {
    const asked = { ...params, matter };
    const after = this.pages.read(call, cursor, asked)?.[0] ?? null;
    return this.runner.query(call, listOpenMatters, { ...params, kind: matter ?? null, limit: limit + 1, after }, (rows) => ({ body: this.pages.answer(call, rows, limit, asked, ({ item }) => [item.id], presentOpenMatter) }));
  }
}
