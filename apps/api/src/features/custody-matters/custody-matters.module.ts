import { Module } from '@nestjs/common';
import { LocationsController } from './locations.controller.js';
import { OpenMattersController } from './open-matters.controller.js';
import { RecordsController } from './records.controller.js';

@Module({ controllers: [LocationsController, OpenMattersController, RecordsController] })
export class CustodyMattersModule {}
