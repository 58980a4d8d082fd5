import { Module } from '@nestjs/common';
import { ClimatePlotsController } from './climate-plots.controller.js';

@Module({ controllers: [ClimatePlotsController] })
export class ClimatePlotsModule {}
