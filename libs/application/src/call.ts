import type { CallContext, Environment } from './context.js';

/** The call a use case serves: who, and the time and ids it may use. */
export interface UseCaseCall {
  context: CallContext;
  env: Environment;
  /** Where the command was written on paper before it was keyed in: ids and numbers that stand in the references of every custody event of this call. */
  paper?: Readonly<Record<string, string>>;
}
