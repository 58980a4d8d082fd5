import { Module } from '@nestjs/common';
import { AidAgreementsController } from './aid-agreements.controller.js';
import { AidOffersController } from './aid-offers.controller.js';

@Module({ controllers: [AidAgreementsController, AidOffersController] })
export class MutualAidModule {}
