import { Module } from '@nestjs/common';
import { FoundItemsController } from './found-items.controller.js';
import { HouseholdLookupController } from './household-lookup.controller.js';
import { OwnershipClaimsController } from './ownership-claims.controller.js';

@Module({ controllers: [FoundItemsController, OwnershipClaimsController, HouseholdLookupController] })
export class FoundItemsModule {}
