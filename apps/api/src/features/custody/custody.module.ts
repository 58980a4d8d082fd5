import { Module } from '@nestjs/common';
import { CustodyController } from './custody.controller.js';

@Module({ controllers: [CustodyController] })
export class CustodyModule {}
