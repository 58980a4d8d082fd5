import { Module } from '@nestjs/common';
import { StockTakesController } from './stock-takes.controller.js';

@Module({ controllers: [StockTakesController] })
export class StockTakesModule {}
