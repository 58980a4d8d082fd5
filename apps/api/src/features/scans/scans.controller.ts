import { Body, Controller, Get, Inject, Param, Post, Query } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import type { z } from 'zod';
import { listSightings, recordScans, type SightingRecord } from '#application';
import { ContainerParams, IncidentParams, ItemParams, PageQuery, pageOf, RecordScans, ScanResultsBody, SightingBody } from '#contracts';
import { type Call, CallOf } from '../../http/call.js';
import { Operation } from '../../http/operation.decorator.js';
import { Pages } from '../../http/pages.js';
import { Runner } from '../../http/runner.js';
import { presentScans, presentSighting } from './scan.presenter.js';

@Controller({ version: '1' })
@ApiTags('Custody')
export class ScansController {
  constructor(
    @Inject(Runner) private readonly runner: Runner,
    @Inject(Pages) private readonly pages: Pages,
  ) {}

  @Post('incidents/:incidentId/scans')
  @Operation({
    id: 'recordScans',
    summary: 'Record what a device scanned',
    description:
      'A scan says "this thing is at this place". Each is decided by itself, in the order of `seenAt`, and has a verdict of its own. `applied`: it is on record, by the kind of event that the place calls for. `seen-again`: the record says so already. `seen-late`: it was seen before what is on record. `disputed`: the device did not know the last event and says otherwise; both reports are kept, nothing moves, and a person looks. `refused`: see `problem`. Every scan is kept, whatever its verdict. Work is begun by its own command: a thing that is scanned at a station waits there.',
    access: { scope: 'custody:write' },
    command: true,
    speaks: true,
    problems: ['not_found', 'incident_closed'],
    success: { status: 200, description: 'One result for each scan.', body: ScanResultsBody },
  })
  record(@CallOf() call: Call, @Param({ schema: IncidentParams }) params: z.output<typeof IncidentParams>, @Body({ schema: RecordScans }) body: RecordScans) {
    const scans = body.scans.map(({ seenAt, ...scan }) => ({ ...scan, seenAtMs: Date.parse(seenAt) }));
    return this.runner.command(call, recordScans, { ...params, scans }, (results) => ({ body: presentScans(results, call.language), language: call.language }));
  }

  @Get('items/:itemId/sightings')
  @Operation({
    id: 'listItemSightings',
    summary: 'Read where an item was seen',
    description: 'Scans that moved nothing, in the order in which they came: seen again where it is on record, seen late, or claimed to be elsewhere. What moved it stands in its custody chain.',
    access: { scope: 'item:read' },
    problems: ['not_found', 'cursor_invalid'],
    success: { status: 200, description: 'One page of sightings.', body: pageOf(SightingBody) },
  })
  ofItem(@CallOf() call: Call, @Param({ schema: ItemParams }) params: z.output<typeof ItemParams>, @Query({ schema: PageQuery }) query: z.output<typeof PageQuery>) {
    return this.sightings(call, params, query);
  }

  @Get('containers/:containerId/sightings')
  @Operation({
    id: 'listContainerSightings',
    summary: 'Read where a container was seen',
    description: 'As the sightings of an item.',
    access: { scope: 'item:read' },
    problems: ['not_found', 'cursor_invalid'],
    success: { status: 200, description: 'One page of sightings.', body: pageOf(SightingBody) },
  })
  ofContainer(@CallOf() call: Call, @Param({ schema: ContainerParams }) params: z.output<typeof ContainerParams>, @Query({ schema: PageQuery }) query: z.output<typeof PageQuery>) {
    return this.sightings(call, params, query);
  }

  private sightings(call: Call, thing: SightingRecord['thing'], query: z.output<typeof PageQuery>) {
    const afterId = this.pages.read(call, query.cursor, thing)?.[0] ?? null;
    return this.runner.query(call, listSightings, { thing, afterId, limit: query.limit + 1 }, (rows) => ({
      body: this.pages.answer(call, rows, query.limit, thing, (row) => [row.id], presentSighting),
    }));
  }
}
