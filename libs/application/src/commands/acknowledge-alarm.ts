import { notFound, Problem, type AcknowledgeAlarm } from '#contracts';
import type { UseCaseCall } from '../call.js';
import { personOf } from '../care/claims.js';
import { openIncidentOf } from '../custody/open-incident.js';
import type { AlarmView } from '../ports/alarm-store.js';
import type { Stores } from '../ports/work.js';

/**
 * Somebody says by name that an alarm was seen and is in hand. It does not clear it: only what is measured does. The first word
 * stands; whoever comes later is told whose it is.
 */
export async function acknowledgeAlarm(stores: Stores, call: UseCaseCall, input: AcknowledgeAlarm & { alarmId: string }): Promise<AlarmView> {
  const alarm = await stores.alarms.find(input.alarmId);
  if (!alarm) throw notFound('alarm');
  await openIncidentOf(stores, alarm.incidentId);
  await personOf(stores, alarm.incidentId, input.personId);
  if (!(await stores.alarms.acknowledge(alarm.id, { atMs: call.env.nowMs, by: input.personId, note: input.note }))) throw alreadySeen(alarm);
  const acknowledged = await stores.alarms.find(alarm.id);
  if (!acknowledged) throw new Error('an alarm went while it was acknowledged');
  return acknowledged;
}

function alreadySeen({ acknowledged, acknowledgedByName }: AlarmView): Problem {
  const members = acknowledged === null ? {} : { acknowledgedBy: acknowledged.by, acknowledgedByName, acknowledgedAt: new Date(acknowledged.atMs).toISOString() };
  return new Problem('already_exists', 'Somebody has acknowledged this alarm already. It stays open until what is measured clears it.', { members });
}
