import { Body, Controller, Get, Inject, Param, Patch, Post, Query } from '@nestjs/common';
import { ApiConsumes, ApiTags } from '@nestjs/swagger';
import type { z } from 'zod';
import { changeItemWords, getItem, listItems, takeInItem } from '#application';
import { ChangeItemWords, IncidentParams, ItemBody, ItemListQuery, ItemParams, pageOf, TakeInItem } from '#contracts';
import { type Call, CallOf } from '../../http/call.js';
import { Operation } from '../../http/operation.decorator.js';
import { Pages } from '../../http/pages.js';
import { Runner } from '../../http/runner.js';
import { presentItem } from '../../presenters/item.presenter.js';
import { msOf } from '../../presenters/time.js';

@Controller({ version: '1' })
@ApiTags('Items')
export class ItemsController {
  constructor(
    @Inject(Runner) private readonly runner: Runner,
    @Inject(Pages) private readonly pages: Pages,
  ) {}

  @Post('incidents/:incidentId/items')
  @Operation({
    id: 'takeInItem',
    summary: 'Take in an item or a lot',
    description: 'Ties the tag, writes the first custody event and triages the item on the cautious side. From the answer on the network is its keeper.',
    access: { scope: 'intake:write' },
    command: true,
    problems: ['not_found', 'tag_invalid', 'tag_unknown', 'tag_taken', 'hand_over_open', 'capacity_full', 'company_refused', 'reference_unknown', 'command_refused', 'observations_contradict', 'incident_closed', 'household_erased', 'owner_unknown'],
    success: { status: 201, description: 'The item is taken in.', body: ItemBody },
  })
  takeIn(@CallOf() call: Call, @Param({ schema: IncidentParams }) params: z.output<typeof IncidentParams>, @Body({ schema: TakeInItem }) body: TakeInItem) {
    const input = { ...params, ...body, lot: body.count > 1, arrivedAtMs: msOf(body.arrivedAt), wettedAtMs: msOf(body.wettedAt) };
    return this.runner.command(call, takeInItem, input, (item) => ({ status: 201, body: presentItem(item), version: item.version, location: `/v1/items/${item.id}` }));
  }

  @Get('incidents/:incidentId/items')
  @Operation({
    id: 'listItems',
    summary: 'List the items of an incident',
    description: 'In the order of intake, by pages; filters can be combined.',
    access: { scope: 'item:read' },
    problems: ['not_found', 'cursor_invalid'],
    success: { status: 200, description: 'One page of items.', body: pageOf(ItemBody) },
  })
  list(@CallOf() call: Call, @Param({ schema: IncidentParams }) params: z.output<typeof IncidentParams>, @Query({ schema: ItemListQuery }) query: z.output<typeof ItemListQuery>) {
    const { limit, cursor, keeperKind, keeperId, ...rest } = query;
    const filter = { ...rest, ...(keeperKind && keeperId ? { keeper: { kind: keeperKind, id: keeperId } } : {}) };
    const after = this.pages.read(call, cursor, { ...params, filter })?.[0] ?? null;
    return this.runner.query(call, listItems, { ...params, filter, limit: limit + 1, after }, (rows) => ({
      body: this.pages.answer(call, rows, limit, { ...params, filter }, (row) => [row.id], presentItem),
    }));
  }

  @Get('items/:itemId')
  @Operation({
    id: 'getItem',
    summary: 'Read an item',
    description: 'Where it is, who holds it, how urgent it is and what comes next.',
    access: { scope: 'item:read' },
    problems: ['not_found'],
    success: { status: 200, description: 'The item.', body: ItemBody },
  })
  get(@CallOf() call: Call, @Param({ schema: ItemParams }) params: z.output<typeof ItemParams>) {
    return this.runner.query(call, getItem, params, (item) => ({ body: presentItem(item), version: item.version }));
  }

  @Patch('items/:itemId')
  @ApiConsumes('application/merge-patch+json')
  @Operation({
    id: 'changeItemWords',
    summary: 'Change what people wrote about an item',
    description: 'Description, the family\'s words and the photograph reference, as a JSON Merge Patch.',
    access: { scope: 'intake:write' },
    command: true,
    conditional: true,
    problems: ['not_found', 'incident_closed', 'household_erased'],
    success: { status: 200, description: 'The item as it is now.', body: ItemBody },
  })
  change(@CallOf() call: Call, @Param({ schema: ItemParams }) params: z.output<typeof ItemParams>, @Body({ schema: ChangeItemWords }) body: z.output<typeof ChangeItemWords>) {
    return this.runner.command(call, changeItemWords, { ...params, ...body, expectedVersion: call.expectedVersion() }, (item) => ({ body: presentItem(item), version: item.version }));
  }
}
