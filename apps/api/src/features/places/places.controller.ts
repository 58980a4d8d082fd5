import { Controller, Get, Inject, Param, Query } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import type { z } from 'zod';
import { listUnseenItems, placeContents } from '#application';
import { ContentsQuery, IncidentParams, LyingThingBody, pageOf, PageQuery, UnseenItemBody } from '#contracts';
import { type Call, CallOf } from '../../http/call.js';
import { Operation } from '../../http/operation.decorator.js';
import { Pages } from '../../http/pages.js';
import { Runner } from '../../http/runner.js';
import { presentLying, presentUnseen } from './lying.presenter.js';

@Controller({ version: '1' })
@ApiTags('Custody')
export class PlacesController {
  constructor(
    @Inject(Runner) private readonly runner: Runner,
    @Inject(Pages) private readonly pages: Pages,
  ) {}

  @Get('incidents/:incidentId/contents')
  @Operation({
    id: 'listContents',
    summary: 'List what lies at a place',
    description: 'Everything that a place, container or vehicle keeps, with what is in the containers there, in the order of ids. Name it by its tag or by kind and id.',
    access: { scope: 'item:read' },
    problems: ['not_found', 'cursor_invalid', 'tag_invalid', 'tag_unknown', 'reference_unknown'],
    success: { status: 200, description: 'One page of things.', body: pageOf(LyingThingBody) },
  })
  contents(@CallOf() call: Call, @Param({ schema: IncidentParams }) params: z.output<typeof IncidentParams>, @Query({ schema: ContentsQuery }) query: z.output<typeof ContentsQuery>) {
    const { limit, cursor, placeTag, placeKind, placeId } = query;
    const at = placeKind !== undefined && placeId !== undefined ? { place: { kind: placeKind, id: placeId } } : { tag: placeTag ?? '' };
    const after = this.pages.read(call, cursor, { ...params, at })?.[0] ?? null;
    return this.runner.query(call, placeContents, { ...params, at, limit: limit + 1, after }, ({ things }) => ({ body: this.pages.answer(call, things, limit, { ...params, at }, (thing) => [thing.id], presentLying) }));
  }

  @Get('incidents/:incidentId/unseen-items')
  @Operation({
    id: 'listUnseenItems',
    summary: 'List things that nobody has met for too long',
    description: 'Things here that no person and no scan has met for longer than their stage allows (calibration `sight`: our own numbers, which a network may set), the longest unseen first. Look for them where they are on record; a scan takes a thing off the list.',
    access: { scope: 'item:read' },
    problems: ['not_found', 'cursor_invalid'],
    success: { status: 200, description: 'One page of things.', body: pageOf(UnseenItemBody) },
  })
  unseen(@CallOf() call: Call, @Param({ schema: IncidentParams }) params: z.output<typeof IncidentParams>, @Query({ schema: PageQuery }) query: z.output<typeof PageQuery>) {
    const at = this.pages.read(call, query.cursor, params);
    const after = at === null ? null : { lastSeenAtMs: Number(at[0]), itemId: at[1] ?? '' };
    return this.runner.query(call, listUnseenItems, { ...params, limit: query.limit + 1, after }, (rows) => ({ body: this.pages.answer(call, rows, query.limit, params, ({ thing }) => [String(thing.lastSeenAtMs), thing.itemId], presentUnseen) }));
  }
}
