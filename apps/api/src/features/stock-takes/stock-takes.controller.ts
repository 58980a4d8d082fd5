import { Body, Controller, Get, Inject, Param, Post, Query } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import type { z } from 'zod';
import { closeStockTake, differenceKey, getStockTake, listStockTakeDifferences, recordStockTakeScans, resolveStockTakeDifference, startStockTake, type StockTakeView } from '#application';
import { CloseStockTake, IncidentParams, PageQuery, pageOf, RecordStockTakeScans, ResolveDifference, StartStockTake, StockTakeBody, StockTakeDifferenceBody, StockTakeDifferenceParams, StockTakeParams, StockTakeResolutionBody, StockTakeScansBody } from '#contracts';
import { type Call, CallOf } from '../../http/call.js';
import { Operation } from '../../http/operation.decorator.js';
import { Pages } from '../../http/pages.js';
import { Runner } from '../../http/runner.js';
import { presentDifference, presentResolution, presentStockTake, presentStockTakeScans } from './stock-take.presenter.js';

const answer = (view: StockTakeView) => ({ status: 201, body: presentStockTake(view), version: view.stockTake.version, location: `/v1/stock-takes/${view.stockTake.id}` });

/** What the record says should be there, held against what people see there. */
@Controller({ version: '1' })
@ApiTags('Custody')
export class StockTakesController {
  constructor(
    @Inject(Runner) private readonly runner: Runner,
    @Inject(Pages) private readonly pages: Pages,
  ) {}

  @Post('incidents/:incidentId/stock-takes')
  @Operation({
    id: 'startStockTake',
    summary: 'Begin a stock-take',
    description: 'Of a whole site or of single places, with what is in the containers there. What the record says should be there now is kept and held against what is scanned; work goes on meanwhile, and what it moves is no difference.',
    access: { scope: 'custody:write' },
    command: true,
    problems: ['not_found', 'incident_closed', 'reference_unknown', 'command_refused'],
    success: { status: 201, description: 'The stock-take.', body: StockTakeBody },
  })
  start(@CallOf() call: Call, @Param({ schema: IncidentParams }) params: z.output<typeof IncidentParams>, @Body({ schema: StartStockTake }) body: z.output<typeof StartStockTake>) {
    return this.runner.command(call, startStockTake, { ...params, ...body }, answer);
  }

  @Get('stock-takes/:stockTakeId')
  @Operation({
    id: 'getStockTake',
    summary: 'Read how far a stock-take is',
    description: 'How much of what was expected was seen, what differs by kind, and how differences were worked off.',
    access: { scope: 'item:read' },
    problems: ['not_found'],
    success: { status: 200, description: 'The stock-take.', body: StockTakeBody },
  })
  read(@CallOf() call: Call, @Param({ schema: StockTakeParams }) params: z.output<typeof StockTakeParams>) {
    return this.runner.query(call, getStockTake, params, (view) => ({ body: presentStockTake(view) }));
  }

  @Post('stock-takes/:stockTakeId/scans')
  @Operation({
    id: 'recordStockTakeScans',
    summary: 'Send what was seen in a stock-take',
    description: 'Several people may send at once. A scan moves nothing. Each is taken by itself: `counted`, `again` when its `scanId` came before, or `refused` with its `problem`. The latest look at a thing counts. A tag that is not `ours` becomes a difference.',
    access: { scope: 'custody:write' },
    command: true,
    problems: ['not_found', 'stock_take_closed'],
    success: { status: 200, description: 'One result for each scan.', body: StockTakeScansBody },
  })
  scan(@CallOf() call: Call, @Param({ schema: StockTakeParams }) params: z.output<typeof StockTakeParams>, @Body({ schema: RecordStockTakeScans }) body: RecordStockTakeScans) {
    const scans = body.scans.map(({ seenAt, ...scan }) => ({ ...scan, seenAtMs: Date.parse(seenAt) }));
    return this.runner.command(call, recordStockTakeScans, { ...params, scans }, (results) => ({ body: presentStockTakeScans(results) }));
  }

  @Get('stock-takes/:stockTakeId/differences')
  @Operation({
    id: 'listStockTakeDifferences',
    summary: 'List what differs in a stock-take',
    description: 'Misplaced things first, then missing and foreign ones, as they stand now. What nobody has scanned yet counts as missing. What was put right is a difference no more and stands among the resolutions of the stock-take.',
    access: { scope: 'item:read' },
    speaks: true,
    problems: ['not_found', 'cursor_invalid'],
    success: { status: 200, description: 'One page.', body: pageOf(StockTakeDifferenceBody) },
  })
  differences(@CallOf() call: Call, @Param({ schema: StockTakeParams }) params: z.output<typeof StockTakeParams>, @Query({ schema: PageQuery }) query: z.output<typeof PageQuery>) {
    const after = this.pages.read(call, query.cursor, params)?.[0] ?? null;
    return this.runner.query(call, listStockTakeDifferences, { ...params, limit: query.limit + 1, after }, (rows) => ({
      body: this.pages.answer(call, rows, query.limit, params, (row) => [differenceKey(row)], (row) => presentDifference(row, call.language)), language: call.language,
    }));
  }

  @Post('stock-takes/:stockTakeId/differences/:differenceId/resolutions')
  @Operation({
    id: 'resolveStockTakeDifference',
    summary: 'Work off a difference',
    description: '`move-on-record`: a custody event puts the item on record where it was seen. `put-back`: a person has put it where the record has it. `reported-missing`: it was looked for and not found. `foreign-to-coordinator`: somebody who decides has it now. `recount`: earlier looks at it count no more.',
    access: { scope: 'custody:write' },
    command: true,
    problems: ['not_found', 'incident_closed', 'stock_take_closed', 'already_exists', 'wrong_stage', 'item_terminal', 'hand_over_open', 'location_disputed', 'item_missing', 'consent_missing', 'capacity_full', 'reference_unknown', 'command_refused'],
    success: { status: 201, description: 'How it was worked off.', body: StockTakeResolutionBody },
  })
  resolve(@CallOf() call: Call, @Param({ schema: StockTakeDifferenceParams }) params: z.output<typeof StockTakeDifferenceParams>, @Body({ schema: ResolveDifference }) body: z.output<typeof ResolveDifference>) {
    return this.runner.command(call, resolveStockTakeDifference, { ...params, ...body }, (done) => ({ status: 201, body: presentResolution(done) }));
  }

  @Post('stock-takes/:stockTakeId/closure')
  @Operation({
    id: 'closeStockTake',
    summary: 'Close a stock-take',
    description: 'Refused while a difference is open, with the list of those that are.',
    access: { scope: 'custody:write' },
    command: true,
    problems: ['not_found', 'stock_take_closed', 'stock_take_differs', 'reference_unknown'],
    success: { status: 201, description: 'The stock-take, closed.', body: StockTakeBody },
  })
  close(@CallOf() call: Call, @Param({ schema: StockTakeParams }) params: z.output<typeof StockTakeParams>, @Body({ schema: CloseStockTake }) body: z.output<typeof CloseStockTake>) {
    return this.runner.command(call, closeStockTake, { ...params, ...body }, answer);
  }
}
