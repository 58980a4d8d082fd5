import { Module } from '@nestjs/common';
import { HandBackPapersController } from './hand-back-papers.controller.js';
import { HandBackSlotsController } from './hand-back-slots.controller.js';
import { HandBacksController } from './hand-backs.controller.js';
import { UnclaimedController } from './unclaimed.controller.js';
import { UncollectedController } from './uncollected.controller.js';

@Module({ controllers: [HandBacksController, HandBackPapersController, HandBackSlotsController, UnclaimedController, UncollectedController] })
export class HandBacksModule {}
