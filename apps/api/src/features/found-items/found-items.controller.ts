import { Body, Controller, Get, Inject, Param, Post, Query } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import type { z } from 'zod';
import { getFoundNotice, getFoundRecord, listFoundItems, recordOwnerMark, takeInFoundItem } from '#application';
import { FoundItemBody, FoundItemListQuery, FoundListItemBody, FoundNoticeBody, FoundRecordBody, IncidentParams, ItemParams, OwnerMarkBody, pageOf, RecordOwnerMark, TakeInFoundItem } from '#contracts';
import { type Call, CallOf } from '../../http/call.js';
import { Operation } from '../../http/operation.decorator.js';
import { Pages } from '../../http/pages.js';
import { Runner } from '../../http/runner.js';
import { msOf } from '../../presenters/time.js';
import { presentFoundInList, presentFoundItem, presentFoundRecord, presentMark, presentNotice } from './found-items.presenter.js';

@Controller({ version: '1' })
@ApiTags('Households')
export class FoundItemsController {
  constructor(
    @Inject(Runner) private readonly runner: Runner,
    @Inject(Pages) private readonly pages: Pages,
  ) {}

  @Post('incidents/:incidentId/found-items')
  @Operation({
    id: 'takeInFoundItem',
    summary: 'Take in something that was found',
    description: 'As taking in an item, for a thing that nobody says is theirs. It belongs to the record of unknown owners of the incident, which is no household: nothing is agreed, asked, handed back or released for it, and what its way needs the word of an owner for waits. Where and by whom it was found is sealed, and so are the marks: questions with answers that only the owner can know, such as what is written on the back. Keep them out of the description, which our people read in lists and searches.',
    access: { scope: 'household:write' },
    command: true,
    problems: ['not_found', 'tag_invalid', 'tag_unknown', 'tag_taken', 'hand_over_open', 'capacity_full', 'reference_unknown', 'command_refused', 'observations_contradict', 'incident_closed'],
    success: { status: 201, description: 'It is with us.', body: FoundItemBody },
  })
  takeIn(@CallOf() call: Call, @Param({ schema: IncidentParams }) params: z.output<typeof IncidentParams>, @Body({ schema: TakeInFoundItem }) body: z.output<typeof TakeInFoundItem>) {
    const input = { ...params, ...body, lot: body.count > 1, arrivedAtMs: msOf(body.arrivedAt), wettedAtMs: msOf(body.wettedAt) };
    return this.runner.command(call, takeInFoundItem, input, (taken) => ({ status: 201, body: presentFoundItem(taken), location: `/v1/items/${taken.item.id}` }));
  }

  @Get('incidents/:incidentId/found-items')
  @Operation({
    id: 'listFoundItems',
    summary: 'List what was found',
    description: 'The oldest record first, by `state` if you like. Where and by whom a thing was found, what a claimant is asked and how claims stand is told by its record alone (`getFoundRecord`), where each look is put down in the audit.',
    access: { scope: 'household:read' },
    problems: ['not_found', 'cursor_invalid'],
    success: { status: 200, description: 'One page.', body: pageOf(FoundListItemBody) },
  })
  list(@CallOf() call: Call, @Param({ schema: IncidentParams }) params: z.output<typeof IncidentParams>, @Query({ schema: FoundItemListQuery }) query: z.output<typeof FoundItemListQuery>) {
    const { limit, cursor, state } = query;
    const asked = { ...params, state };
    const after = this.pages.read(call, cursor, asked)?.[0] ?? null;
    return this.runner.query(call, listFoundItems, { ...params, state: state ?? null, limit: limit + 1, after }, (rows) => ({ body: this.pages.answer(call, rows, limit, asked, (row) => [row.id], presentFoundInList) }));
  }

  @Get('items/:itemId/found-record')
  @Operation({
    id: 'getFoundRecord',
    summary: 'Read where a thing was found and who claims it',
    description: 'With the questions that a claimant is asked, and never an answer. Each look is put down in the audit. Questions can give something away, too: ask them one after the other, and show the list to no claimant.',
    access: { scope: 'household:read' },
    speaks: true,
    problems: ['not_found'],
    success: { status: 200, description: 'What is on record.', body: FoundRecordBody },
  })
  get(@CallOf() call: Call, @Param({ schema: ItemParams }) params: z.output<typeof ItemParams>) {
    return this.runner.auditedQuery(call, getFoundRecord, params, (view) => ({ body: presentFoundRecord(view, call.language), language: call.language }));
  }

  @Post('items/:itemId/owner-marks')
  @Operation({
    id: 'recordOwnerMark',
    summary: 'Write down what only the owner can know',
    description: 'A question and its answer, both sealed; at most 10 for one thing, and none while a claim is open. Neither is told back. Who writes them down takes no claimant\'s answers about this thing, and neither does their key.',
    access: { scope: 'household:write' },
    command: true,
    problems: ['not_found', 'owner_known', 'reference_unknown', 'command_refused'],
    success: { status: 201, description: 'It is written down.', body: OwnerMarkBody },
  })
  mark(@CallOf() call: Call, @Param({ schema: ItemParams }) params: z.output<typeof ItemParams>, @Body({ schema: RecordOwnerMark }) body: z.output<typeof RecordOwnerMark>) {
    return this.runner.command(call, recordOwnerMark, { ...params, ...body }, (mark) => ({ status: 201, body: presentMark(mark) }));
  }

  @Get('items/:itemId/found-notice')
  @Operation({
    id: 'getFoundNotice',
    summary: 'Read what may be told in public of a found thing',
    description: 'Fixed sentences in English and Spanish: a broad kind of thing, the place of the incident and the week. Nothing of the description, the marks, the finder or the exact place is in it, so that nobody can claim the thing by it. Hang it up without a photograph. We publish nothing by ourselves.',
    access: { scope: 'item:read' },
    problems: ['not_found', 'owner_known'],
    success: { status: 200, description: 'The words of the notice.', body: FoundNoticeBody },
  })
  notice(@CallOf() call: Call, @Param({ schema: ItemParams }) params: z.output<typeof ItemParams>) {
    return this.runner.query(call, getFoundNotice, params, (words) => ({ body: presentNotice(params.itemId, words) }));
  }
}
