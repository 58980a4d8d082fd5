import { Module } from '@nestjs/common';
import { CarryListController } from './carry-list.controller.js';
import { PlanRevisionsController } from './plan-revisions.controller.js';
import { PlanWishesController } from './plan-wishes.controller.js';
import { PlansController } from './plans.controller.js';
import { ReferralListController } from './referral-list.controller.js';
import { WorkListsController } from './work-lists.controller.js';

@Module({ controllers: [CarryListController, PlansController, PlanRevisionsController, PlanWishesController, ReferralListController, WorkListsController] })
export class PlansModule {}
