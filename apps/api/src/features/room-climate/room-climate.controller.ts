import { Controller, Get, Inject, Param, Query } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import type { z } from 'zod';
import { type AcceptanceReckoner, getItemClimate, getRoomAcceptance, getRoomForecast, getRoomState, listRoomItems } from '#application';
import { DryingRoomClimateParams, ItemClimateBody, ItemClimateParams, pageOf, RoomAcceptanceBody, RoomAcceptanceQuery, RoomForecastBody, RoomItemBody, RoomItemsQuery, RoomStateBody } from '#contracts';
import { type Call, CallOf } from '../../http/call.js';
import { Operation } from '../../http/operation.decorator.js';
import { Pages } from '../../http/pages.js';
import { Runner } from '../../http/runner.js';
import { ACCEPTANCE } from '../../http/tokens.js';
import { presentAcceptance, presentForecast, presentItemClimate, presentRoomItem, presentRoomState } from './room-climate.presenter.js';

type RoomParams = z.output<typeof DryingRoomClimateParams>;

@Controller({ version: '1' })
@ApiTags('Climate')
export class RoomClimateController {
  constructor(@Inject(Runner) private readonly runner: Runner, @Inject(Pages) private readonly pages: Pages, @Inject(ACCEPTANCE) private readonly reckoner: AcceptanceReckoner) {}

  @Get('drying-rooms/:dryingRoomId/climate')
  @Operation({
    id: 'getRoomState',
    summary: 'How a drying room stands',
    description: 'Its air, the water left in what hangs there, what takes that water away, the clocks, and the highest humidity to come. Reckoned in the background; `asOf` says of when it is.',
    access: { scope: 'station:work' },
    speaks: true,
    problems: ['not_found'],
    success: { status: 200, description: 'The room by its newest reckoning.', body: RoomStateBody },
  })
  state(@CallOf() call: Call, @Param({ schema: DryingRoomClimateParams }) params: RoomParams) {
    return this.runner.query(call, getRoomState, params, (view) => ({ body: presentRoomState(view, call.language), language: call.language }));
  }

  @Get('drying-rooms/:dryingRoomId/forecast')
  @Operation({
    id: 'getRoomForecast',
    summary: 'What comes in a drying room',
    description: 'Humidity, evaporation, removal and water left by the hour for 72 hours, if nothing is hung, taken or switched.',
    access: { scope: 'station:work' },
    speaks: true,
    problems: ['not_found'],
    success: { status: 200, description: 'The forecast of the newest reckoning.', body: RoomForecastBody },
  })
  forecast(@CallOf() call: Call, @Param({ schema: DryingRoomClimateParams }) params: RoomParams) {
    return this.runner.query(call, getRoomForecast, params, (view) => ({ body: presentForecast(view, call.language), language: call.language }));
  }

  @Get('drying-rooms/:dryingRoomId/items')
  @Operation({
    id: 'listRoomItems',
    summary: 'What hangs in a drying room, with water and clocks',
    description: 'Every thing that hangs there by the newest reckoning, in the order of ids.',
    access: { scope: 'station:work' },
    speaks: true,
    problems: ['not_found', 'cursor_invalid'],
    success: { status: 200, description: 'A page of things.', body: pageOf(RoomItemBody) },
  })
  items(@CallOf() call: Call, @Param({ schema: DryingRoomClimateParams }) params: RoomParams, @Query({ schema: RoomItemsQuery }) query: z.output<typeof RoomItemsQuery>) {
    const { limit, cursor } = query;
    const after = this.pages.read(call, cursor, params)?.[0] ?? null;
    return this.runner.query(call, listRoomItems, { ...params, limit: limit + 1, after }, (rows) => ({
      body: this.pages.answer(call, rows, limit, params, (row) => [row.itemId], (row) => presentRoomItem(row, call.language)), language: call.language,
    }));
  }

  @Get('drying-rooms/:dryingRoomId/acceptance')
  @Operation({
    id: 'getRoomAcceptance',
    summary: 'How many more things a drying room can take now',
    description: 'For each of up to four standard kinds by itself, with all that hangs there already: the most that still let everything dry in time, below the cap, within the clocks and on the rack that is free.',
    access: { scope: 'station:work' },
    speaks: true,
    problems: ['not_found'],
    success: { status: 200, description: 'The room for more.', body: RoomAcceptanceBody },
  })
  acceptance(@CallOf() call: Call, @Param({ schema: DryingRoomClimateParams }) params: RoomParams, @Query({ schema: RoomAcceptanceQuery }) query: z.output<typeof RoomAcceptanceQuery>) {
    const { language, context } = call;
    const { kinds, withinHours } = query;
    return this.runner.query(call, getRoomAcceptance, params, async (parts) => ({
      body: presentAcceptance(parts, await this.reckoner.ofRoom(context.networkId, parts, kinds, withinHours), withinHours, language), language,
    }));
  }

  @Get('items/:itemId/climate')
  @Operation({
    id: 'getItemClimate',
    summary: 'Water and clock of a thing',
    description: 'The water left in it, the band in which it should be dry, and its mould clock with what is measured of it and what is assumed, by the newest reckoning of the drying room where it hangs or hung last.',
    access: { scope: 'item:read' },
    speaks: true,
    problems: ['not_found'],
    success: { status: 200, description: 'The thing by the newest reckoning of its room.', body: ItemClimateBody },
  })
  item(@CallOf() call: Call, @Param({ schema: ItemClimateParams }) params: z.output<typeof ItemClimateParams>) {
    return this.runner.query(call, getItemClimate, params, (view) => ({ body: presentItemClimate(view, call.language), language: call.language }));
  }
}
