import { Module } from '@nestjs/common';
import { AlarmsController } from './alarms.controller.js';
import { ArrangementFitsController } from './arrangement-fits.controller.js';
import { RoomClimateController } from './room-climate.controller.js';

@Module({ controllers: [RoomClimateController, ArrangementFitsController, AlarmsController] })
export class RoomClimateModule {}
