import type { CallContext, Stores } from '#application';
import type { MasterKeys } from '#platform';
import type { Client } from '../pool.js';
import { PgAidStore } from './pg-aid-store.js';
import { PgAlarmStore } from './pg-alarm-store.js';
import { PgAssessmentStore } from './pg-assessment-store.js';
import { PgAttempts } from './pg-attempts.js';
import { PgAuditStore } from './pg-audit-store.js';
import { PgBookingStore } from './pg-booking-store.js';
import { PgCalibrationStore } from './pg-calibration-store.js';
import { PgClimateRecordsStore } from './pg-climate-records-store.js';
import { PgConsentStore } from './pg-consent-store.js';
import { PgContainerStore } from './pg-container-store.js';
import { PgCustodyAuditStore } from './pg-custody-audit-store.js';
import { PgCustodyRootStore } from './pg-custody-root-store.js';
import { PgCustodyStore } from './pg-custody-store.js';
import { PgFamilyNewsStore } from './pg-family-news-store.js';
import { PgFileStore } from './pg-file-store.js';
import { PgFamilyMatterStore } from './pg-family-matter-store.js';
import { PgFamilyMessageStore } from './pg-family-message-store.js';
import { PgErasureStore } from './pg-erasure-store.js';
import { PgHandBackStore } from './pg-hand-back-store.js';
import { PgHandOverStore } from './pg-hand-over-store.js';
import { PgHouseholdStore } from './pg-household-store.js';
import { PgImportStore } from './pg-import-store.js';
import { PgItemStore } from './pg-item-store.js';
import { PgManifestStore } from './pg-manifest-store.js';
import { PgOutboxStore } from './pg-outbox-store.js';
import { PgPaperKitStore } from './pg-paper-kit-store.js';
import { PgPersonalStore } from './pg-personal-store.js';
import { PgOwnershipStore } from './pg-ownership-store.js';
import { PgOwnerQuestionStore } from './pg-owner-question-store.js';
import { PgPlaceStore } from './pg-place-store.js';
import { PgPlanGroundStore } from './pg-plan-ground-store.js';
import { PgPlanProgressStore } from './pg-plan-progress-store.js';
import { PgPlanStore } from './pg-plan-store.js';
import { PgPlanWhatIfStore } from './pg-plan-what-if-store.js';
import { PgPlanWishStore } from './pg-plan-wish-store.js';
import { PgQuoteStore } from './pg-quote-store.js';
import { PgReportStore } from './pg-report-store.js';
import { PgRetentionStore } from './pg-retention-store.js';
import { PgRoomClimateStore } from './pg-room-climate-store.js';
import { PgRuleBookStore } from './pg-rule-book-store.js';
import { PgScanStore } from './pg-scan-store.js';
import { PgStatusLinkStore } from './pg-status-link-store.js';
import { PgStockTakeStore } from './pg-stock-take-store.js';
import { PgStepStore } from './pg-step-store.js';
import { PgLabelTemplateStore } from './pg-label-template-store.js';
import { PgTagStore } from './pg-tag-store.js';
import { PgUncollectedStore } from './pg-uncollected-store.js';
import { PgWeatherStore } from './pg-weather-store.js';
import { PgWhereStore } from './pg-where-store.js';
import { PgWeighingStore } from './pg-weighing-store.js';

/** All stores on one client, bound to the network of the call. */
export function storesOn(client: Client, context: CallContext, masters: MasterKeys | null): Stores {
  const { networkId } = context;
  const personal = new PgPersonalStore(client, networkId, masters);
  const households = new PgHouseholdStore(client, networkId, personal);
  return {
    aid: new PgAidStore(client, context, (there) => storesOn(client, there, masters)),
    items: new PgItemStore(client, networkId, personal),
    custody: new PgCustodyStore(client, networkId, personal),
    custodyRoots: new PgCustodyRootStore(client, networkId),
    custodyAudit: new PgCustodyAuditStore(client, networkId),
    households,
    erasures: new PgErasureStore(client, networkId, personal, households),
    retention: new PgRetentionStore(client, networkId),
    consents: new PgConsentStore(client, networkId, personal),
    containers: new PgContainerStore(client, networkId),
    tags: new PgTagStore(client, networkId),
    labelTemplates: new PgLabelTemplateStore(client, networkId),
    personal,
    places: new PgPlaceStore(client, networkId),
    assessments: new PgAssessmentStore(client, networkId),
    steps: new PgStepStore(client, networkId),
    stockTakes: new PgStockTakeStore(client, networkId),
    plans: new PgPlanStore(client, networkId, personal),
    planGrounds: new PgPlanGroundStore(client, networkId),
    planProgress: new PgPlanProgressStore(client, networkId),
    planWhatIfs: new PgPlanWhatIfStore(client, networkId),
    planWishes: new PgPlanWishStore(client, networkId),
    files: new PgFileStore(client, networkId),
    handBacks: new PgHandBackStore(client, networkId),
    bookings: new PgBookingStore(client, networkId),
    uncollected: new PgUncollectedStore(client, networkId),
    quotes: new PgQuoteStore(client, networkId),
    paperKits: new PgPaperKitStore(client, networkId),
    handOvers: new PgHandOverStore(client, networkId),
    manifests: new PgManifestStore(client, networkId),
    imports: new PgImportStore(client, networkId, personal),
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
    scans: new PgScanStore(client, networkId),
    where: new PgWhereStore(client, networkId, personal),
    statusLinks: new PgStatusLinkStore(client, networkId),
    ownerQuestions: new PgOwnerQuestionStore(client, networkId),
    familyMessages: new PgFamilyMessageStore(client, networkId),
    familyMatters: new PgFamilyMatterStore(client, networkId),
    familyNews: new PgFamilyNewsStore(client, networkId),
    ownership: new PgOwnershipStore(client, networkId, personal),
    attempts: new PgAttempts(client),
  };
}
