import { Module } from '@nestjs/common';
import { PlanRevisionsController } from './plan-revisions.controller.js';
import { PlanWishesController } from './plan-wishes.controller.js';
import { PlansController } from './plans.controller.js';
import { WorkListsController } from './work-lists.controller.js';

@Module({ controllers: [PlansController, PlanRevisionsController, PlanWishesController, WorkListsController] })
export class PlansModule {}
