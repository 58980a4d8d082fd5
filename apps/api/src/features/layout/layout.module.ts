import { Module } from '@nestjs/common';
import { LayoutChangesController } from './layout-changes.controller.js';
import { StorageController } from './storage.controller.js';
import { LayoutController } from './layout.controller.js';

@Module({ controllers: [LayoutController, LayoutChangesController, StorageController] })
export class LayoutModule {}
