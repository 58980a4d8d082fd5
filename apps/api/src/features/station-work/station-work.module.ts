import { Module } from '@nestjs/common';
import { DeparturesController } from './departures.controller.js';
import { StepResultsController } from './step-results.controller.js';

@Module({ controllers: [StepResultsController, DeparturesController] })
export class StationWorkModule {}
