import type { Answer, CallContext, CommandIdentity, Replayable } from '../context.js';
import type { AidStore } from './aid-store.js';
import type { AlarmStore } from './alarm-store.js';
import type { AssessmentStore } from './assessment-store.js';
import type { Attempts } from './attempts.js';
import type { AuditStore } from './audit-store.js';
import type { BookingStore } from './booking-store.js';
import type { CalibrationStore } from './calibration-store.js';
import type { ClimateRecordsStore } from './climate-records-store.js';
import type { ConsentStore } from './consent-store.js';
import type { ContainerStore } from './container-store.js';
import type { CustodyAuditStore } from './custody-audit-store.js';
import type { CustodyRootStore } from './custody-root-store.js';
import type { CustodyStore } from './custody-store.js';
import type { FamilyMatterStore } from './family-matter-store.js';
import type { FamilyMessageStore } from './family-message-store.js';
import type { FamilyNewsStore } from './family-news-store.js';
import type { FileStore } from './file-store.js';
import type { ErasureStore } from './erasure-store.js';
import type { HandBackStore } from './hand-back-store.js';
import type { HandOverStore } from './hand-over-store.js';
import type { HouseholdStore } from './household-store.js';
import type { ImportStore } from './import-store.js';
import type { ItemStore } from './item-store.js';
import type { ManifestStore } from './manifest-store.js';
import type { OwnershipStore } from './ownership-store.js';
import type { OutboxStore } from './outbox-store.js';
import type { PaperKitStore } from './paper-kit-store.js';
import type { PersonalStore } from './personal-store.js';
import type { OwnerQuestionStore } from './owner-question-store.js';
import type { PlaceStore } from './place-store.js';
import type { PlanGroundStore } from './plan-ground-store.js';
import type { PlanProgressStore } from './plan-progress-store.js';
import type { PlanStore } from './plan-store.js';
import type { PlanWhatIfStore } from './plan-what-if-store.js';
import type { PlanWishStore } from './plan-wish-store.js';
import type { QuoteStore } from './quote-store.js';
import type { ReportStore } from './report-store.js';
import type { RetentionStore } from './retention-store.js';
import type { RoomClimateStore } from './room-climate-store.js';
import type { RuleBookStore } from './rule-book-store.js';
import type { ScanStore } from './scan-store.js';
import type { StatusLinkStore } from './status-link-store.js';
import type { StockTakeStore } from './stock-take-store.js';
import type { StepStore } from './step-store.js';
import type { TagStore } from './tag-store.js';
import type { LabelTemplateStore } from './label-template-store.js';
import type { UncollectedStore } from './uncollected-store.js';
import type { WeatherStore } from './weather-store.js';
import type { WhereStore } from './where-store.js';
import type { WeighingStore } from './weighing-store.js';

/** Everything a command may load and save, bound to one network and one transaction. */
export interface Stores {
  aid: AidStore;
  items: ItemStore;
  custody: CustodyStore;
  custodyRoots: CustodyRootStore;
  custodyAudit: CustodyAuditStore;
  households: HouseholdStore;
  consents: ConsentStore;
  containers: ContainerStore;
  tags: TagStore;
  labelTemplates: LabelTemplateStore;
  /** Seals and opens what names a family. */
  personal: PersonalStore;
  places: PlaceStore;
  assessments: AssessmentStore;
  steps: StepStore;
  stockTakes: StockTakeStore;
  plans: PlanStore;
  planGrounds: PlanGroundStore;
  planProgress: PlanProgressStore;
  planWhatIfs: PlanWhatIfStore;
  planWishes: PlanWishStore;
  files: FileStore;
  erasures: ErasureStore;
  retention: RetentionStore;
  handBacks: HandBackStore;
  bookings: BookingStore;
  uncollected: UncollectedStore;
  quotes: QuoteStore;
  paperKits: PaperKitStore;
  handOvers: HandOverStore;
  manifests: ManifestStore;
  imports: ImportStore;
  outbox: OutboxStore;
  reports: ReportStore;
  audit: AuditStore;
  ruleBook: RuleBookStore;
  roomClimate: RoomClimateStore;
  alarms: AlarmStore;
  climateRecords: ClimateRecordsStore;
  weighings: WeighingStore;
  weather: WeatherStore;
  calibration: CalibrationStore;
  scans: ScanStore;
  where: WhereStore;
  statusLinks: StatusLinkStore;
  ownerQuestions: OwnerQuestionStore;
  familyMessages: FamilyMessageStore;
  familyMatters: FamilyMatterStore;
  familyNews: FamilyNewsStore;
  ownership: OwnershipStore;
  attempts: Attempts;
}

/** One transaction for one command, with the network as its only tenant. */
export interface UnitOfWork {
  /** Read-only transaction. */
  read<T>(context: CallContext, work: (stores: Stores) => Promise<T>): Promise<T>;
  /** A transaction of the worker; idempotence is the handler's own affair (see the effect rules of `messaging`). */
  write<T>(context: CallContext, work: (stores: Stores) => Promise<T>): Promise<T>;
  /**
   * A command of a client: does it once for a key, stores the answer and an entry of the audit with the effect in one
   * transaction, and replays the answer. Refusals (404, 409, 412, 422) are stored too. Throws `Problem` for `command_running` and
   * `idempotency_key_reused`.
   */
  command(context: CallContext, identity: CommandIdentity, work: (stores: Stores) => Promise<Answer>): Promise<Replayable>;
}
