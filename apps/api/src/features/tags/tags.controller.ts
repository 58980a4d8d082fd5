import { Body, Controller, Get, Inject, Param, Post, Query } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import type { z } from 'zod';
import { listTagBlocks, lookUpTag, replaceTag, reserveTags, tieTag } from '#application';
import { formatTagCode } from '#custody';
import { IncidentParams, PageQuery, pageOf, ReplaceTag, ReserveTags, TagBlockBody, TagBlockUseBody, TagLookUpBody, TagParams, TieTag } from '#contracts';
import { type Call, CallOf } from '../../http/call.js';
import { Operation } from '../../http/operation.decorator.js';
import { Pages } from '../../http/pages.js';
import { Runner } from '../../http/runner.js';
import { presentTag, presentTagBlock } from './tag.presenter.js';

@Controller({ version: '1' })
@ApiTags('Tags')
export class TagsController {
  constructor(@Inject(Runner) private readonly runner: Runner, @Inject(Pages) private readonly pages: Pages) {}

  @Post('incidents/:incidentId/tag-blocks')
  @Operation({
    id: 'reserveTags',
    summary: 'Reserve a block of tags for a team',
    description: 'Tags carry check characters (ISO 7064 MOD 97-10) and are never used twice. A reserved block can be printed and tied without a network.',
    access: { scope: 'intake:write' },
    command: true,
    problems: ['not_found', 'incident_closed', 'command_refused'],
    success: { status: 201, description: 'The block.', body: TagBlockBody },
  })
  reserve(@CallOf() call: Call, @Param({ schema: IncidentParams }) params: z.output<typeof IncidentParams>, @Body({ schema: ReserveTags }) body: z.output<typeof ReserveTags>) {
    return this.runner.command(call, reserveTags, { ...params, ...body }, (block) => ({
      status: 201, body: { id: block.id, kind: block.kind, reservedFor: block.reservedFor, tags: block.codes.map(formatTagCode) },
    }));
  }

  @Get('incidents/:incidentId/tag-blocks')
  @Operation({
    id: 'listTagBlocks',
    summary: 'Blocks of reserved tags',
    description: 'Newest first, with how many of each are used: a team that runs short reserves another block in time.',
    access: { scope: 'item:read' },
    problems: ['not_found', 'cursor_invalid'],
    success: { status: 200, description: 'A page of blocks.', body: pageOf(TagBlockUseBody) },
  })
  blocks(@CallOf() call: Call, @Param({ schema: IncidentParams }) params: z.output<typeof IncidentParams>, @Query({ schema: PageQuery }) { limit, cursor }: z.output<typeof PageQuery>) {
    const before = this.pages.read(call, cursor, params)?.[0] ?? null;
    return this.runner.query(call, listTagBlocks, { ...params, limit: limit + 1, before }, (rows) => ({ body: this.pages.answer(call, rows, limit, params, (row) => [row.id], presentTagBlock) }));
  }

  @Get('tags/:tag')
  @Operation({
    id: 'lookUpTag',
    summary: 'Look up a scanned or typed tag',
    description: 'Case, spaces and hyphens do not matter. A tag of an item, container, place or person is answered with its thing; one that was replaced leads to its thing as well, and names the tag that took its place. A tag that fails its check characters is answered with the nearest reserved tags of all incidents that the key sees.',
    access: { scope: 'item:read' },
    problems: ['not_found', 'tag_invalid'],
    success: { status: 200, description: 'What the tag is tied to.', body: TagLookUpBody },
  })
  lookUp(@CallOf() call: Call, @Param({ schema: TagParams }) params: z.output<typeof TagParams>) {
    return this.runner.query(call, lookUpTag, { typed: params.tag }, (found) => ({ body: presentTag(found) }));
  }

  @Post('tags/:tag/ties')
  @Operation({
    id: 'tieTag',
    summary: 'Tie a tag to a place or a person',
    description: 'A rack, freezer, shelf or vehicle can then be scanned, and so can the badge of a volunteer. The tag must be reserved for the incident of the place or person, which has one tag at a time; a lost one is replaced. Items and containers get their tags when they are taken in or registered.',
    access: { scope: 'intake:write' },
    command: true,
    problems: ['not_found', 'incident_closed', 'tag_invalid', 'tag_unknown', 'tag_taken', 'reference_unknown'],
    success: { status: 201, description: 'The tag as it is now.', body: TagLookUpBody },
  })
  tie(@CallOf() call: Call, @Param({ schema: TagParams }) params: z.output<typeof TagParams>, @Body({ schema: TieTag }) body: z.output<typeof TieTag>) {
    return this.runner.command(call, tieTag, { typed: params.tag, ...body }, (found) => ({ status: 201, body: presentTag(found) }));
  }

  @Post('tags/:tag/replacements')
  @Operation({
    id: 'replaceTag',
    summary: 'Replace a lost or illegible tag',
    description: 'Ties a fresh reserved tag of the same kind to the thing of the old one, in one step. The old code stays on record for ever: it still leads to the thing, and it is never tied again. For an item the change is an event of its custody record (`retagged`).',
    access: { scope: 'intake:write' },
    command: true,
    problems: ['not_found', 'incident_closed', 'tag_invalid', 'tag_unknown', 'tag_taken', 'command_refused', 'item_terminal', 'wrong_stage'],
    success: { status: 201, description: 'The new tag.', body: TagLookUpBody },
  })
  replace(@CallOf() call: Call, @Param({ schema: TagParams }) params: z.output<typeof TagParams>, @Body({ schema: ReplaceTag }) body: z.output<typeof ReplaceTag>) {
    return this.runner.command(call, replaceTag, { typed: params.tag, ...body }, (found) => ({ status: 201, body: presentTag(found) }));
  }
}
