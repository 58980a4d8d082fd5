import { Module } from '@nestjs/common';
import { LayoutChangesController } from './layout-changes.controller.js';
import { LayoutController } from './layout.controller.js';

@Module({ controllers: [LayoutController, LayoutChangesController] })
export class LayoutModule {}
