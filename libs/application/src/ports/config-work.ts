import type { Answer, CallContext, CommandIdentity, Replayable } from '../context.js';
import type { ApiKeyStore } from './api-key-store.js';
import type { CalibrationInForce } from './calibration-store.js';
import type { LayoutStore } from './layout-store.js';
import type { OutboxStore } from './outbox-store.js';
import type { PlanStore } from './plan-store.js';

/** Stores of the configuration (served by the ORM): few, wide, simple writes. */
export interface ConfigStores {
  layout: LayoutStore;
  keys: ApiKeyStore;
  /** What a change of the layout asks of plans. */
  plans: Pick<PlanStore, 'requestRun'>;
  outbox: Pick<OutboxStore, 'append' | 'hasten'>;
  calibration: CalibrationInForce;
}

/** The unit of work of the configuration; the same rules as `UnitOfWork`, another writer, never mixed with it in one use case. */
export interface ConfigWork {
  read<T>(context: CallContext, work: (stores: ConfigStores) => Promise<T>): Promise<T>;
  command(context: CallContext, identity: CommandIdentity, work: (stores: ConfigStores) => Promise<Answer>): Promise<Replayable>;
}
