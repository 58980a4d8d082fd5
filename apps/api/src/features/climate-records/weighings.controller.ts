import { Body, Controller, Get, Inject, Param, Post, Query } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import type { z } from 'zod';
import { listWeighings, recordWeighing, recordWeighings } from '#application';
import { IncidentParams, ItemParams, PageQuery, pageOf, RecordWeighing, RecordWeighings, WeighingBody, WeighingsReportBody } from '#contracts';
import { type Call, CallOf } from '../../http/call.js';
import { Operation } from '../../http/operation.decorator.js';
import { Pages } from '../../http/pages.js';
import { Runner } from '../../http/runner.js';
import { presentWeighing, presentWeighingsReport } from './weighing.presenter.js';

@Controller({ version: '1' })
@ApiTags('Climate')
export class WeighingsController {
  constructor(
    @Inject(Runner) private readonly runner: Runner,
    @Inject(Pages) private readonly pages: Pages,
  ) {}

  @Post('items/:itemId/weighings')
  @Operation({
    id: 'recordWeighing',
    summary: 'Record a weighing',
    description:
      'What a scale shows with a thing or a whole lot on it, and what of it is tub or board. Two weighings some hours apart say more about its drying than any formula. A weight that such a thing cannot have is refused; one that is more than before, or odd for its size class, is kept and asked about (limits of our own calibration). ' +
      'The same weighing again answers the one that is there. Weigh wet things in their tub or on their board, and lift heavy ones with somebody.',
    access: { scope: 'station:work' },
    command: true,
    speaks: true,
    problems: ['not_found', 'incident_closed', 'reference_unknown', 'measurement_refused', 'measurement_conflicts'],
    success: { status: 201, description: 'The weighing is kept.', body: WeighingBody },
    alsoSuccess: { status: 200, description: 'It was there already.', body: WeighingBody },
  })
  record(@CallOf() call: Call, @Param({ schema: ItemParams }) params: z.output<typeof ItemParams>, @Body({ schema: RecordWeighing }) body: RecordWeighing) {
    return this.runner.command(call, recordWeighing, { ...params, ...body }, ({ weighing, created }) => ({ status: created ? 201 : 200, body: presentWeighing(weighing, call.language), language: call.language, location: `/v1/items/${params.itemId}/weighings` }));
  }

  @Post('incidents/:incidentId/weighings')
  @Operation({
    id: 'recordWeighings',
    summary: 'Record many weighings at once',
    description:
      'What a scale beside the racks has written down, each with the tag or id of its thing. Every weighing is judged as if it had been sent alone, in the order of the rows, and a bad one does not hold up the others; the same weighing again is kept once. ' +
      'When not one weighing could be kept, the answer is 422 with every reason.',
    access: { scope: 'station:work' },
    command: true,
    speaks: true,
    problems: ['not_found', 'incident_closed', 'measurement_refused', 'measurement_conflicts'],
    success: { status: 200, description: 'What became of every weighing.', body: WeighingsReportBody },
  })
  recordMany(@CallOf() call: Call, @Param({ schema: IncidentParams }) params: z.output<typeof IncidentParams>, @Body({ schema: RecordWeighings }) body: z.output<typeof RecordWeighings>) {
    return this.runner.command(call, recordWeighings, { ...params, ...body }, (outcomes) => ({ body: presentWeighingsReport(outcomes, call.language), language: call.language }));
  }

  @Get('items/:itemId/weighings')
  @Operation({
    id: 'listWeighings',
    summary: 'List the weighings of an item',
    description: 'By pages, the latest first, with what is asked about each.',
    access: { scope: 'climate:read' },
    speaks: true,
    problems: ['not_found', 'cursor_invalid'],
    success: { status: 200, description: 'One page of weighings.', body: pageOf(WeighingBody) },
  })
  list(@CallOf() call: Call, @Param({ schema: ItemParams }) params: z.output<typeof ItemParams>, @Query({ schema: PageQuery }) query: z.output<typeof PageQuery>) {
    const at = this.pages.read(call, query.cursor, params)?.[0];
    return this.runner.query(call, listWeighings, { ...params, limit: query.limit + 1, afterMs: at === undefined ? null : Number(at) }, (rows) => ({
      body: this.pages.answer(call, rows, query.limit, params, (row) => [String(row.weighedAtMs)], (row) => presentWeighing(row, call.language)), language: call.language,
    }));
  }
}
