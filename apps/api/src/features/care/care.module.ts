import { Module } from '@nestjs/common';
import { CareController } from './care.controller.js';
import { TriageHistoryController } from './triage-history.controller.js';

@Module({ controllers: [CareController, TriageHistoryController] })
export class CareModule {}
