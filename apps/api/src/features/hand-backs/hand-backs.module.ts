import { Module } from '@nestjs/common';
import { HandBacksController } from './hand-backs.controller.js';

@Module({ controllers: [HandBacksController] })
export class HandBacksModule {}
