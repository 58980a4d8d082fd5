import type { CallContext } from '../context.js';
import type { UnitOfWork } from '../ports/work.js';

/** Rows of one transaction; our own calibration: a step takes some tens of milliseconds. */
export const SEAL_STEP_ROWS = 200;

/**
 * Seals what stood in the clear before there were keys, a few rows in one transaction. Killed anywhere it has lost nothing: what is sealed is sealed, the
 * rest still stands as it stood, and the next run goes on with it. Answers how many rows were sealed.
 */
export async function sealExisting(work: UnitOfWork, context: CallContext, incidentId: string, stepRows = SEAL_STEP_ROWS): Promise<number> {
  let sealed = 0;
  for (;;) {
    const step = await work.write(context, (stores) => stores.erasures.sealInClear(incidentId, stepRows));
    sealed += step;
    if (step === 0) return sealed;
  }
}
