import { Module } from '@nestjs/common';
import { ItemsController } from './items.controller.js';
import { LotSplitsController } from './lot-splits.controller.js';

@Module({ controllers: [ItemsController, LotSplitsController] })
export class ItemsModule {}
