import { Module } from '@nestjs/common';
import { AirEstimatesController } from './air-estimates.controller.js';
import { BodyEstimatesController } from './body-estimates.controller.js';

@Module({ controllers: [AirEstimatesController, BodyEstimatesController] })
export class ClimateEstimatesModule {}
