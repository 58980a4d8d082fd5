import { Module } from '@nestjs/common';
import { PrivacyController } from './privacy.controller.js';
import { RetentionController } from './retention.controller.js';

@Module({ controllers: [PrivacyController, RetentionController] })
export class PrivacyModule {}
