import { Module } from '@nestjs/common';
import { PaperKitsController } from './paper-kits.controller.js';

@Module({ controllers: [PaperKitsController] })
export class PaperModeModule {}
