import { Module } from '@nestjs/common';
import { CalibrationController } from './calibration.controller.js';

@Module({ controllers: [CalibrationController] })
export class CalibrationModule {}
