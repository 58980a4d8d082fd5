import { Module } from '@nestjs/common';
import { PlanChartsController } from './plan-charts.controller.js';

@Module({ controllers: [PlanChartsController] })
export class PlanChartsModule {}
