import { Module } from '@nestjs/common';
import { LabelTemplatesController } from './label-templates.controller.js';
import { TagSheetsController } from './tag-sheets.controller.js';

@Module({ controllers: [LabelTemplatesController, TagSheetsController] })
export class LabelsModule {}
