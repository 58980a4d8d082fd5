import type { Type } from '@nestjs/common';
import { ApiKeysModule } from './api-keys/api-keys.module.js';
import { AuditModule } from './audit/audit.module.js';
import { CalibrationModule } from './calibration/calibration.module.js';
import { CareModule } from './care/care.module.js';
import { ClimateEstimatesModule } from './climate-estimates/climate-estimates.module.js';
import { ClimatePlotsModule } from './climate-plots/climate-plots.module.js';
import { ClimateRecordsModule } from './climate-records/climate-records.module.js';
import { CustodyModule } from './custody/custody.module.js';
import { EstimatesModule } from './estimates/estimates.module.js';
import { HandBacksModule } from './hand-backs/hand-backs.module.js';
import { HouseholdsModule } from './households/households.module.js';
import { IncidentsModule } from './incidents/incidents.module.js';
import { IntakeImportsModule } from './intake-imports/intake-imports.module.js';
import { ItemsModule } from './items/items.module.js';
import { LayoutModule } from './layout/layout.module.js';
import { PlansModule } from './plans/plans.module.js';
import { ReportsModule } from './reports/reports.module.js';
import { RoomClimateModule } from './room-climate/room-climate.module.js';
import { RuleBookModule } from './rule-book/rule-book.module.js';
import { StationWorkModule } from './station-work/station-work.module.js';
import { TagsModule } from './tags/tags.module.js';

/** Every feature of the API; siblings do not know each other. */
export const features: Type<unknown>[] = [ApiKeysModule, AuditModule, CalibrationModule, CareModule, ClimateEstimatesModule, ClimatePlotsModule, ClimateRecordsModule, CustodyModule, EstimatesModule, HandBacksModule, HouseholdsModule, IncidentsModule, IntakeImportsModule, ItemsModule, LayoutModule, PlansModule, ReportsModule, RoomClimateModule, RuleBookModule, StationWorkModule, TagsModule];
