import type { CallContext, Stores } from '#application';
import type { Client } from '../pool.js';
import { PgAlarmStore } from './pg-alarm-store.js';
import { PgAssessmentStore } from './pg-assessment-store.js';
import { PgAuditStore } from './pg-audit-store.js';
import { PgCalibrationStore } from './pg-calibration-store.js';
import { PgClimateRecordsStore } from './pg-climate-records-store.js';
import { PgConsentStore } from './pg-consent-store.js';
import { PgContainerStore } from './pg-container-store.js';
import { PgCustodyStore } from './pg-custody-store.js';
import { PgHandBackStore } from './pg-hand-back-store.js';
import { PgHouseholdStore } from './pg-household-store.js';
import { PgImportStore } from './pg-import-store.js';
import { PgItemStore } from './pg-item-store.js';
import { PgOutboxStore } from './pg-outbox-store.js';
import { PgPlaceStore } from './pg-place-store.js';
import { PgPlanStore } from './pg-plan-store.js';
import { PgReportStore } from './pg-report-store.js';
import { PgRoomClimateStore } from './pg-room-climate-store.js';
import { PgRuleBookStore } from './pg-rule-book-store.js';
import { PgStepStore } from './pg-step-store.js';
import { PgTagStore } from './pg-tag-store.js';
import { PgWeatherStore } from './pg-weather-store.js';
import { PgWeighingStore } from './pg-weighing-store.js';

/** All stores on one client, bound to the network of the call. */
export function storesOn(client: Client, context: CallContext): Stores {
  const { networkId } = context;
  return {
    items: new PgItemStore(client, networkId),
    custody: new PgCustodyStore(client, networkId),
    households: new PgHouseholdStore(client, networkId),
    consents: new PgConsentStore(client, networkId),
    containers: new PgContainerStore(client, networkId),
    tags: new PgTagStore(client, networkId),
    places: new PgPlaceStore(client, networkId),
    assessments: new PgAssessmentStore(client, networkId),
    steps: new PgStepStore(client, networkId),
    plans: new PgPlanStore(client, networkId),
    handBacks: new PgHandBackStore(client, networkId),
    imports: new PgImportStore(client, networkId),
    outbox: new PgOutboxStore(client, networkId),
    reports: new PgReportStore(client, networkId),
    audit: new PgAuditStore(client, networkId, context.incidentLimit),
    ruleBook: new PgRuleBookStore(client, networkId),
    roomClimate: new PgRoomClimateStore(client, networkId),
    alarms: new PgAlarmStore(client, networkId),
    climateRecords: new PgClimateRecordsStore(client, networkId),
    weighings: new PgWeighingStore(client, networkId),
    weather: new PgWeatherStore(client, networkId),
    calibration: new PgCalibrationStore(client, networkId),
  };
}
