import { Controller, Get, Inject, Param, Query } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import type { z } from 'zod';
import { getItemPlot, getRoomPlot, itemPlotData, roomPlotData } from '#application';
import { plotSvg } from '#climate';
import { DryingRoomClimateParams, ItemClimateParams, ItemPlotQuery, RoomPlotQuery } from '#contracts';
import { type Call, CallOf } from '../../http/call.js';
import { Operation } from '../../http/operation.decorator.js';
import { asPicture, SVG } from '../../http/picture.js';
import { Runner } from '../../http/runner.js';
import { presentItemPlot } from './item-plot.presenter.js';
import { presentRoomPlot } from './room-plot.presenter.js';

@Controller({ version: '1' })
@ApiTags('Climate')
export class ClimatePlotsController {
  constructor(@Inject(Runner) private readonly runner: Runner) {}

  @Get('drying-rooms/:dryingRoomId/climate/plot')
  @Operation({
    id: 'plotRoomClimate',
    summary: 'A drying room as a picture',
    description: 'Temperature, humidity, water left and where it goes: what was measured, what is reckoned, and what comes if nothing is hung, taken or switched. Times are those of the network. SVG 1.1 with its main numbers in words in `title` and `desc`; it holds no script and loads nothing.',
    access: { scope: 'station:work' },
    speaks: true,
    problems: ['not_found'],
    success: { status: 200, description: 'The picture.', body: null, mediaType: SVG },
  })
  async room(@CallOf() call: Call, @Param({ schema: DryingRoomClimateParams }) params: z.output<typeof DryingRoomClimateParams>, @Query({ schema: RoomPlotQuery }) query: z.output<typeof RoomPlotQuery>) {
    const picture = await this.runner.query(call, getRoomPlot, { ...params, ...query }, async (parts) => ({ body: plotSvg(presentRoomPlot(await roomPlotData(parts), call.language)), language: call.language }));
    return asPicture(call, picture);
  }

  @Get('items/:itemId/climate/plot')
  @Operation({
    id: 'plotItemClimate',
    summary: 'Water and clock of a thing as a picture',
    description: 'The water left in it with its weighings and the band of the reckoning, its mould clock with what the sources span, and the air where it hangs or hung last. SVG 1.1 with its main numbers in words in `title` and `desc`; it holds no script and loads nothing.',
    access: { scope: 'item:read' },
    speaks: true,
    problems: ['not_found'],
    success: { status: 200, description: 'The picture.', body: null, mediaType: SVG },
  })
  async item(@CallOf() call: Call, @Param({ schema: ItemClimateParams }) params: z.output<typeof ItemClimateParams>, @Query({ schema: ItemPlotQuery }) query: z.output<typeof ItemPlotQuery>) {
    const picture = await this.runner.query(call, getItemPlot, { ...params, ...query }, async (parts) => ({ body: plotSvg(presentItemPlot(await itemPlotData(parts), call.language)), language: call.language }));
    return asPicture(call, picture);
  }
}
