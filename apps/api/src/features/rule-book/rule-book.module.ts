import { Module } from '@nestjs/common';
import { RuleBookController } from './rule-book.controller.js';

@Module({ controllers: [RuleBookController] })
export class RuleBookModule {}
