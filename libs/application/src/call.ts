import type { CallContext, Environment } from './context.js';

/** The call a use case serves: who, and the time and ids it may use. */
export interface UseCaseCall {
  context: CallContext;
  env: Environment;
}
