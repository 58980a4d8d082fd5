import { Module } from '@nestjs/common';
import { ItemSearchController } from './item-search.controller.js';

@Module({ controllers: [ItemSearchController] })
export class ItemSearchModule {}
