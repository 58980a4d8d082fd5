import { Module } from '@nestjs/common';
import { ScansController } from './scans.controller.js';

@Module({ controllers: [ScansController] })
export class ScansModule {}
