import { Body, Controller, Get, Inject, Param, Post, Query } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import type { z } from 'zod';
import { listCustodyEvents, recordPassing } from '#application';
import { CustodyEventBody, ItemParams, PageQuery, pageOf, RecordPassing } from '#contracts';
import { type Call, CallOf } from '../../http/call.js';
import { Operation } from '../../http/operation.decorator.js';
import { Pages } from '../../http/pages.js';
import { Runner } from '../../http/runner.js';
import { presentCustodyEvent } from '../../presenters/custody-event.presenter.js';
import { msOf } from '../../presenters/time.js';

@Controller({ version: '1' })
@ApiTags('Custody')
export class CustodyController {
  constructor(
    @Inject(Runner) private readonly runner: Runner,
    @Inject(Pages) private readonly pages: Pages,
  ) {}

  @Post('items/:itemId/custody-events')
  @Operation({
    id: 'recordPassing',
    summary: 'Record that an item passed to another keeper',
    description:
      'Moves, the start and end of work, of drying, of freezing. `from` must be the keeper that holds it now; if it is not, the answer says who does and nothing changes. A mistake is answered by a `correction` that names the wrong event. `drying-started` is taken when the drying is what comes next, or from a lead (`personId`) who gives a `reason`; what hangs may be hung elsewhere at any time. What must not be together (mould with what is free of it, unrinsed with rinsed, what bleeds with what takes colour, what can hurt people) is refused by the kind of place, with what is there and where else it may go; a lead may say why it is there all the same.',
    access: { scope: 'custody:write' },
    command: true,
    problems: ['not_found', 'incident_closed', 'wrong_keeper', 'wrong_stage', 'item_terminal', 'hand_over_open', 'location_disputed', 'item_missing', 'capacity_full', 'company_refused', 'consent_missing', 'reference_unknown', 'command_refused', 'household_erased'],
    success: { status: 201, description: 'The event is recorded.', body: CustodyEventBody },
  })
  record(@CallOf() call: Call, @Param({ schema: ItemParams }) params: z.output<typeof ItemParams>, @Body({ schema: RecordPassing }) body: RecordPassing) {
    const { occurredAt, ...rest } = body;
    return this.runner.command(call, recordPassing, { ...params, ...rest, occurredAtMs: msOf(occurredAt) }, ({ event, item }) => ({ status: 201, body: presentCustodyEvent(event), version: item.version, location: `/v1/items/${item.id}/custody-events` }));
  }

  @Get('items/:itemId/custody-events')
  @Operation({
    id: 'listCustodyEvents',
    summary: 'Read the custody chain of an item',
    description: 'Every passing from intake to now, gapless and hash-chained.',
    access: { scope: 'item:read' },
    problems: ['not_found', 'cursor_invalid'],
    success: { status: 200, description: 'One page of the chain.', body: pageOf(CustodyEventBody) },
  })
  list(@CallOf() call: Call, @Param({ schema: ItemParams }) params: z.output<typeof ItemParams>, @Query({ schema: PageQuery }) query: z.output<typeof PageQuery>) {
    const afterSeq = Number(this.pages.read(call, query.cursor, params)?.[0] ?? 0);
    return this.runner.query(call, listCustodyEvents, { ...params, afterSeq, limit: query.limit + 1 }, (rows) => ({
      body: this.pages.answer(call, rows, query.limit, params, (row) => [String(row.seq)], presentCustodyEvent),
    }));
  }
}
