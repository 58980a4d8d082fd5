import { Module } from '@nestjs/common';
import { FamilyWorkController } from './family-work.controller.js';
import { MessageWishesController } from './message-wishes.controller.js';
import { OwnerQuestionsController } from './owner-questions.controller.js';
import { StatusLinksController } from './status-links.controller.js';
import { StatusPages } from './status-pages.js';

@Module({ controllers: [FamilyWorkController, MessageWishesController, OwnerQuestionsController, StatusLinksController], providers: [StatusPages] })
export class FamiliesModule {}
