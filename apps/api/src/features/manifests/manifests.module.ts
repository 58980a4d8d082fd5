import { Module } from '@nestjs/common';
import { ManifestsController } from './manifests.controller.js';

@Module({ controllers: [ManifestsController] })
export class ManifestsModule {}
