import { Module } from '@nestjs/common';
import { ReadingsController } from './readings.controller.js';
import { SensorsController } from './sensors.controller.js';
import { WeatherController } from './weather.controller.js';
import { WeighingsController } from './weighings.controller.js';

@Module({ controllers: [SensorsController, ReadingsController, WeighingsController, WeatherController] })
export class ClimateRecordsModule {}
