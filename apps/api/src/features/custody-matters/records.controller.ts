import { Body, Controller, Inject, Param, Post } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import type { z } from 'zod';
import { mergeItems, swapIdentities } from '#application';
import { ItemParams, MergedItemsBody, MergeItems, SwapIdentities, SwappedItemsBody } from '#contracts';
import { type Call, CallOf } from '../../http/call.js';
import { Operation } from '../../http/operation.decorator.js';
import { Runner } from '../../http/runner.js';
import { presentItem } from '../../presenters/item.presenter.js';

type Item = z.output<typeof ItemParams>;

@Controller({ version: '1' })
@ApiTags('Custody')
export class RecordsController {
  constructor(@Inject(Runner) private readonly runner: Runner) {}

  @Post('items/:itemId/merges')
  @Operation({
    id: 'mergeItems',
    summary: 'Join the records of a thing that has two',
    description:
      'For one thing under two tags, when a lead has looked. The record of the address ends and names the other; `into` goes on and names the first with its last hash. Both chains stay readable, and both tags lead to the thing. Both must be of one household and count the same, and nothing may be open about the record that ends. What was found and done stays on the record on which it was entered: look at both, and assess the thing again. A mistaken merge is put right by a `correction`.',
    access: { scope: 'custody:write' },
    command: true,
    problems: ['not_found', 'incident_closed', 'item_terminal', 'item_missing', 'location_disputed', 'hand_over_open', 'reference_unknown', 'command_refused'],
    success: { status: 201, description: 'The records are joined; ETag and Location are those of the one that goes on.', body: MergedItemsBody },
  })
  merge(@CallOf() call: Call, @Param({ schema: ItemParams }) params: Item, @Body({ schema: MergeItems }) body: MergeItems) {
    return this.runner.command(call, mergeItems, { ...params, ...body }, ({ item, merged }) => ({ status: 201, body: { item: presentItem(item), merged: presentItem(merged) }, version: item.version, location: `/v1/items/${item.id}` }));
  }

  @Post('items/:itemId/identity-swaps')
  @Operation({
    id: 'swapIdentities',
    summary: 'Give two items the tags that they truly carry',
    description:
      'For two things of which each carries the tag of the other, of one household or of two, when a lead has looked at both. Both records go on under the other tag and name each other. Whoever scanned a tag meanwhile put the other thing on record: where the two lie apart, both locations are disputed until a person has looked at each. Assessments and results stay on the records on which they were entered; look at both things again before work goes on.',
    access: { scope: 'custody:write' },
    command: true,
    problems: ['not_found', 'incident_closed', 'item_terminal', 'reference_unknown', 'command_refused'],
    success: { status: 201, description: 'Both go by the tags that they carry; ETag and Location are those of the item of the address.', body: SwappedItemsBody },
  })
  swap(@CallOf() call: Call, @Param({ schema: ItemParams }) params: Item, @Body({ schema: SwapIdentities }) body: SwapIdentities) {
    return this.runner.command(call, swapIdentities, { ...params, ...body }, (items) => ({ status: 201, body: { items: items.map(presentItem) }, version: items[0].version, location: `/v1/items/${items[0].id}` }));
  }
}
