import type { Answer, CallContext, CommandIdentity, Replayable } from '../context.js';
import type { AlarmStore } from './alarm-store.js';
import type { AssessmentStore } from './assessment-store.js';
import type { AuditStore } from './audit-store.js';
import type { CalibrationStore } from './calibration-store.js';
import type { ClimateRecordsStore } from './climate-records-store.js';
import type { ConsentStore } from './consent-store.js';
import type { ContainerStore } from './container-store.js';
import type { CustodyStore } from './custody-store.js';
import type { HandBackStore } from './hand-back-store.js';
import type { HouseholdStore } from './household-store.js';
import type { ImportStore } from './import-store.js';
import type { ItemStore } from './item-store.js';
import type { OutboxStore } from './outbox-store.js';
import type { PlaceStore } from './place-store.js';
import type { PlanStore } from './plan-store.js';
import type { ReportStore } from './report-store.js';
import type { RoomClimateStore } from './room-climate-store.js';
import type { RuleBookStore } from './rule-book-store.js';
import type { StepStore } from './step-store.js';
import type { TagStore } from './tag-store.js';
import type { WeatherStore } from './weather-store.js';
import type { WeighingStore } from './weighing-store.js';

/** Everything a command may load and save, bound to one network and one transaction. */
export interface Stores {
  items: ItemStore;
  custody: CustodyStore;
  households: HouseholdStore;
  consents: ConsentStore;
  containers: ContainerStore;
  tags: TagStore;
  places: PlaceStore;
  assessments: AssessmentStore;
  steps: StepStore;
  plans: PlanStore;
  handBacks: HandBackStore;
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
