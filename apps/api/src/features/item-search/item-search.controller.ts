import { Controller, Get, Inject, Param, Query } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import type { z } from 'zod';
import { searchItems } from '#application';
import { IncidentParams, ItemSearchBody, ItemSearchQuery } from '#contracts';
import { type Call, CallOf } from '../../http/call.js';
import { Operation } from '../../http/operation.decorator.js';
import { Runner } from '../../http/runner.js';
import { presentSearch } from './item-search.presenter.js';

@Controller({ version: '1' })
@ApiTags('Items')
export class ItemSearchController {
  constructor(@Inject(Runner) private readonly runner: Runner) {}

  @Get('incidents/:incidentId/item-search')
  @Operation({
    id: 'searchItems',
    summary: 'Where is it?',
    description: 'One question, by whatever is known of the thing: its tag, also a mistyped one, the code of its household, words of its description or of its story, the day of its photograph. Each hit says where the thing is now, through boxes and vehicles to a place, who keeps it since when, when it was last seen, and what is open about it. Each look is bounded, so the answer is as quick in a large incident as in a small one; where `more` is true, name one word more.',
    access: { scope: 'item:read' },
    speaks: true,
    problems: ['not_found'],
    success: { status: 200, description: 'What was found.', body: ItemSearchBody },
  })
  search(@CallOf() call: Call, @Param({ schema: IncidentParams }) params: z.output<typeof IncidentParams>, @Query({ schema: ItemSearchQuery }) { q, limit }: z.output<typeof ItemSearchQuery>) {
    return this.runner.query(call, searchItems, { ...params, asked: q, limit }, (found) => ({ body: presentSearch(found, call.language), language: call.language }));
  }
}
