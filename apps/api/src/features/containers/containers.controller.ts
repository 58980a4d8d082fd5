import { Body, Controller, Get, Inject, Param, Post, Query } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import type { z } from 'zod';
import { getContainer, listContainerContents, listContainerEvents, recordContainerPassing, registerContainer } from '#application';
import { ContainedBody, ContainerBody, ContainerContentsQuery, ContainerParams, CustodyEventBody, IncidentParams, PageQuery, pageOf, RecordContainerPassing, RegisterContainer } from '#contracts';
import { type Call, CallOf } from '../../http/call.js';
import { Operation } from '../../http/operation.decorator.js';
import { Pages } from '../../http/pages.js';
import { Runner } from '../../http/runner.js';
import { presentCustodyEvent } from '../../presenters/custody-event.presenter.js';
import { msOf } from '../../presenters/time.js';
import { presentContained, presentContainer } from './container.presenter.js';

/** Containers with a record of their own, and what is in them. */
@Controller({ version: '1' })
@ApiTags('Custody')
export class ContainersController {
  constructor(
    @Inject(Runner) private readonly runner: Runner,
    @Inject(Pages) private readonly pages: Pages,
  ) {}

  @Post('incidents/:incidentId/containers')
  @Operation({
    id: 'registerContainer',
    summary: 'Register a container',
    description: 'A box, bag, tub or crate under its own tag; items are moved into it like to any other keeper. Its record begins where it stands.',
    access: { scope: 'intake:write' },
    command: true,
    problems: ['not_found', 'incident_closed', 'tag_invalid', 'tag_unknown', 'tag_taken', 'hand_over_open', 'capacity_full', 'reference_unknown', 'command_refused'],
    success: { status: 201, description: 'The container.', body: ContainerBody },
  })
  register(@CallOf() call: Call, @Param({ schema: IncidentParams }) params: z.output<typeof IncidentParams>, @Body({ schema: RegisterContainer }) body: z.output<typeof RegisterContainer>) {
    return this.runner.command(call, registerContainer, { ...params, ...body }, (view) => ({ status: 201, body: presentContainer(view), version: view.container.version, location: `/v1/containers/${view.container.id}` }));
  }

  @Get('containers/:containerId')
  @Operation({
    id: 'getContainer',
    summary: 'Read a container',
    description: 'Who keeps it, where it stands in the end when it lies in other containers, and how much is in it.',
    access: { scope: 'item:read' },
    problems: ['not_found'],
    success: { status: 200, description: 'The container.', body: ContainerBody },
  })
  read(@CallOf() call: Call, @Param({ schema: ContainerParams }) params: z.output<typeof ContainerParams>) {
    return this.runner.query(call, getContainer, params, (view) => ({ body: presentContainer(view), version: view.container.version }));
  }

  @Post('containers/:containerId/custody-events')
  @Operation({
    id: 'recordContainerPassing',
    summary: 'Record that a container passed to another keeper',
    description:
      'What is inside moves with it and keeps the container as its keeper; its volume counts toward the place where the container stands. A container never lies in itself, and nothing is put in or taken out while it is being handed over. It does not go into a freezer as one thing: record `frozen` for each thing in it. What lies in an open one (tub, crate) must not come beside what it must be kept from; a box or bag that closes keeps it apart.',
    access: { scope: 'custody:write' },
    command: true,
    problems: ['not_found', 'incident_closed', 'wrong_keeper', 'hand_over_open', 'location_disputed', 'item_missing', 'capacity_full', 'company_refused', 'reference_unknown', 'command_refused'],
    success: { status: 201, description: 'The event is recorded. `itemId` is the id of the container.', body: CustodyEventBody },
  })
  record(@CallOf() call: Call, @Param({ schema: ContainerParams }) params: z.output<typeof ContainerParams>, @Body({ schema: RecordContainerPassing }) body: z.output<typeof RecordContainerPassing>) {
    const { occurredAt, ...rest } = body;
    return this.runner.command(call, recordContainerPassing, { ...params, ...rest, occurredAtMs: msOf(occurredAt) }, ({ event, container }) => ({ status: 201, body: presentCustodyEvent(event), version: container.version, location: `/v1/containers/${container.id}/custody-events` }));
  }

  @Get('containers/:containerId/custody-events')
  @Operation({
    id: 'listContainerEvents',
    summary: 'Read the custody chain of a container',
    description: 'Every passing since it was registered, gapless and hash-chained as an item\'s. `itemId` is the id of the container.',
    access: { scope: 'item:read' },
    problems: ['not_found', 'cursor_invalid'],
    success: { status: 200, description: 'One page of the chain.', body: pageOf(CustodyEventBody) },
  })
  events(@CallOf() call: Call, @Param({ schema: ContainerParams }) params: z.output<typeof ContainerParams>, @Query({ schema: PageQuery }) query: z.output<typeof PageQuery>) {
    const afterSeq = Number(this.pages.read(call, query.cursor, params)?.[0] ?? 0);
    return this.runner.query(call, listContainerEvents, { ...params, afterSeq, limit: query.limit + 1 }, (rows) => ({
      body: this.pages.answer(call, rows, query.limit, params, (row) => [String(row.seq)], presentCustodyEvent),
    }));
  }

  @Get('containers/:containerId/contents')
  @Operation({
    id: 'listContainerContents',
    summary: 'List what is in a container',
    description: 'Items and containers, with what lies in containers inside it unless `nested=false`.',
    access: { scope: 'item:read' },
    problems: ['not_found', 'cursor_invalid'],
    success: { status: 200, description: 'One page of its contents.', body: pageOf(ContainedBody) },
  })
  contents(@CallOf() call: Call, @Param({ schema: ContainerParams }) params: z.output<typeof ContainerParams>, @Query({ schema: ContainerContentsQuery }) query: z.output<typeof ContainerContentsQuery>) {
    const { limit, cursor, nested } = query;
    const filter = { ...params, nested };
    const after = this.pages.read(call, cursor, filter)?.[0] ?? null;
    return this.runner.query(call, listContainerContents, { ...params, nested: nested === 'true', limit: limit + 1, after }, (rows) => ({
      body: this.pages.answer(call, rows, limit, filter, (row) => [row.id], presentContained),
    }));
  }
}
