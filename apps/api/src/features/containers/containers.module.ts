import { Module } from '@nestjs/common';
import { ContainersController } from './containers.controller.js';

@Module({ controllers: [ContainersController] })
export class ContainersModule {}
