import { Module } from '@nestjs/common';
import { PlanExplanationsController } from './plan-explanations.controller.js';
import { PlanWhatIfsController } from './plan-what-ifs.controller.js';

@Module({ controllers: [PlanWhatIfsController, PlanExplanationsController] })
export class PlanWhatIfsModule {}
