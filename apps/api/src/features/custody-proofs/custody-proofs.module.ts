import { Module } from '@nestjs/common';
import { CustodyProofsController } from './custody-proofs.controller.js';
import { CustodyRootsController } from './custody-roots.controller.js';

@Module({ controllers: [CustodyRootsController, CustodyProofsController] })
export class CustodyProofsModule {}
