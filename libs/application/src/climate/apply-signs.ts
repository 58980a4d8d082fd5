import type { Environment } from '../context.js';
import type { Stores } from '../ports/work.js';
import { judgeAlarms, type AnySign } from './alarms/index.js';

/** Writes what the signs change; answers whether anything about these things is alarming now. */
export async function applySigns(stores: Stores, env: Environment, incidentId: string, signs: readonly AnySign[]): Promise<boolean> {
  const subjects = [...new Set(signs.map(({ subject }) => subject.id))];
  const { raise, renew, clear } = judgeAlarms(await stores.alarms.open(subjects), signs);
  for (const { kind, subject, severity, evidence } of raise) await stores.alarms.raise({ id: env.newId(), incidentId, kind, subject, severity, raisedAtMs: env.nowMs, evidence });
  for (const { id, sign } of renew) await stores.alarms.renew(id, sign.severity, sign.evidence, env.nowMs);
  for (const { id, sign } of clear) await stores.alarms.clear(id, sign.evidence, env.nowMs);
  return (await stores.alarms.countOpen(subjects)) > 0;
}
