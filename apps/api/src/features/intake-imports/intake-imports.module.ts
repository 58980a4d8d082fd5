import { Module } from '@nestjs/common';
import { IntakeImportsController } from './intake-imports.controller.js';

@Module({ controllers: [IntakeImportsController] })
export class IntakeImportsModule {}
