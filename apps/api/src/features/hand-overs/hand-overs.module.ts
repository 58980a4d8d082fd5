import { Module } from '@nestjs/common';
import { HandOversController } from './hand-overs.controller.js';

@Module({ controllers: [HandOversController] })
export class HandOversModule {}
