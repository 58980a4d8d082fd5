import { Body, Controller, Get, Inject, Param, Post } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import type { z } from 'zod';
import { lookUpTag, registerContainer, reserveTags } from '#application';
import { formatTagCode } from '#custody';
import { ContainerBody, IncidentParams, RegisterContainer, ReserveTags, TagBlockBody, TagLookUpBody, TagParams } from '#contracts';
import { type Call, CallOf } from '../../http/call.js';
import { Operation } from '../../http/operation.decorator.js';
import { Runner } from '../../http/runner.js';
import { presentItem } from '../../presenters/item.presenter.js';

@Controller({ version: '1' })
@ApiTags('Tags')
export class TagsController {
  constructor(@Inject(Runner) private readonly runner: Runner) {}

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

  @Get('tags/:tag')
  @Operation({
    id: 'lookUpTag',
    summary: 'Look up a scanned or typed tag',
    description: 'Case, spaces and hyphens do not matter. A tag that fails its check characters is answered with the nearest reserved tags of all incidents that the key sees.',
    access: { scope: 'item:read' },
    problems: ['not_found', 'tag_invalid'],
    success: { status: 200, description: 'What the tag is tied to.', body: TagLookUpBody },
  })
  lookUp(@CallOf() call: Call, @Param({ schema: TagParams }) params: z.output<typeof TagParams>) {
    return this.runner.query(call, lookUpTag, { typed: params.tag }, ({ tag, item }) => ({
      body: { tag: formatTagCode(tag.code), kind: tag.kind, containerId: tag.containerId, item: item === null ? null : presentItem(item) },
    }));
  }

  @Post('incidents/:incidentId/containers')
  @Operation({
    id: 'registerContainer',
    summary: 'Register a container',
    description: 'A box, bag, tub or crate under its own tag; items are moved into it like to any other keeper.',
    access: { scope: 'intake:write' },
    command: true,
    problems: ['not_found', 'incident_closed', 'tag_invalid', 'tag_unknown', 'tag_taken', 'reference_unknown'],
    success: { status: 201, description: 'The container.', body: ContainerBody },
  })
  container(@CallOf() call: Call, @Param({ schema: IncidentParams }) params: z.output<typeof IncidentParams>, @Body({ schema: RegisterContainer }) body: z.output<typeof RegisterContainer>) {
    return this.runner.command(call, registerContainer, { ...params, ...body }, (container) => ({
      status: 201,
      body: { id: container.id, incidentId: container.incidentId, siteId: container.siteId, tag: formatTagCode(container.tagCode), kind: container.kind, description: container.description },
    }));
  }
}
