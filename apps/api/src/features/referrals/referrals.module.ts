import { Module } from '@nestjs/common';
import { ReferralsController } from './referrals.controller.js';

@Module({ controllers: [ReferralsController] })
export class ReferralsModule {}
