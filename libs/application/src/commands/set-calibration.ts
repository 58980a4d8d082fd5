import { notFound, Problem } from '#contracts';
import type { UseCaseCall } from '../call.js';
import { ownValues } from '../calibration/in-force.js';
import { entryOf, faultIn } from '../calibration/tables.js';
import { refuseNoLead } from '../care/claims.js';
import { PLAN_REASONS } from '../planning/plan-reasons.js';
import { requestPlan } from '../planning/request-plan.js';
import type { CalibrationDecision, CalibrationLibrary } from '../ports/calibration-store.js';
import type { Stores } from '../ports/work.js';
import { scheduleLooks } from '../privacy/run-retention-look.js';
import { staleVersion } from './change-versioned.js';

export interface SetCalibrationInput {
  library: CalibrationLibrary;
  key: string;
  /** In the unit of the table; null for the default again. */
  value: number | null;
  reason: string;
  /** The lead who answers for it; of any incident of the network. */
  personId: string;
  /** Number of the newest decision that its reader saw, 0 for none. */
  expectedNumber: number;
}

/** Libraries that no plan is made with. */
const UNPLANNED: ReadonlySet<CalibrationLibrary> = new Set(['retention', 'messages', 'found']);

/**
 * Sets one number of our own calibration for the whole network, or returns it to its default. Everything that is reckoned from
 * then on uses it; what was reckoned before stays as it is, and every open incident is asked for a new plan where plans are made with it.
 */
export async function setCalibration(stores: Stores, call: UseCaseCall, input: SetCalibrationInput): Promise<CalibrationDecision> {
  if (call.context.incidentLimit !== null) throw new Problem('scope_missing', 'Your key is limited to one incident, and the whole network works with these numbers. Use a key of the whole network.');
  if (entryOf(input.library, input.key) === null) throw notFound('number of our own calibration');
  const before = await stores.calibration.inForce();
  const number = Math.max(0, ...before.map((one) => one.number));
  if (number !== input.expectedNumber) throw staleVersion('calibration', number);
  refuseValue(before, input);
  await refuseNoLead(stores, { incidentId: null, personId: input.personId, may: 'set a number that the network works with. Ask a lead to decide.' });
  const { library, key, value, reason, personId } = input;
  const record = { id: call.env.newId(), number: number + 1, library, key, value, reason, decidedBy: personId, decidedAtMs: call.env.nowMs, principalId: call.context.principalId };
  // Somebody was faster between the reading above and the writing.
  if (!(await stores.calibration.append(record))) throw staleVersion('calibration', record.number);
  if (!UNPLANNED.has(library)) for (const incidentId of await stores.ruleBook.openIncidents()) await requestPlan(stores, call, incidentId, PLAN_REASONS.calibration);
  if (library === 'retention' && key.startsWith('schedule')) await scheduleLooks(stores, call);
  const [decided] = await stores.calibration.page(1, null);
  if (decided === undefined) throw new Error('a decision that was written cannot be read');
  return decided;
}

/** The limits of the number, and what others of its library bound it by: two that contradict each other cannot both be in force. @throws Problem command_refused */
function refuseValue(before: readonly CalibrationDecision[], { library, key, value }: SetCalibrationInput): void {
  const { [key]: _replaced, ...others } = ownValues(library, before);
  const fault = faultIn(library, value === null ? others : { ...others, [key]: value });
  if (fault === null) return;
  throw new Problem('command_refused', `${fault} Nothing was changed. GET /v1/calibration shows limits, units and values in force.`, { errors: [{ detail: fault, code: 'calibration_out_of_limits', pointer: '#/value' }] });
}
