import type { Answer, CallContext, CommandIdentity, Replayable } from '../context.js';
import type { ApiKeyStore } from './api-key-store.js';
import type { LayoutStore } from './layout-store.js';

/** Stores of the configuration (served by the ORM): few, wide, simple writes. */
export interface ConfigStores {
  layout: LayoutStore;
  keys: ApiKeyStore;
}

/** The unit of work of the configuration; the same rules as `UnitOfWork`, another writer, never mixed with it in one use case. */
export interface ConfigWork {
  read<T>(context: CallContext, work: (stores: ConfigStores) => Promise<T>): Promise<T>;
  command(context: CallContext, identity: CommandIdentity, work: (stores: ConfigStores) => Promise<Answer>): Promise<Replayable>;
}
