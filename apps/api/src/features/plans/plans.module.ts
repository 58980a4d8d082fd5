import { Module } from '@nestjs/common';
import { PlansController } from './plans.controller.js';
import { WorkListsController } from './work-lists.controller.js';

@Module({ controllers: [PlansController, WorkListsController] })
export class PlansModule {}
