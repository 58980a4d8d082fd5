import { type ChangeSensor, notFound } from '#contracts';
import type { UseCaseCall } from '../call.js';
import { ringSensed } from '../climate/ring-room.js';
import { openIncidentOf } from '../custody/open-incident.js';
import type { SensorRecord } from '../ports/climate-records-store.js';
import type { Stores } from '../ports/work.js';
import { definedMembers, staleVersion } from './change-versioned.js';

export type ChangeSensorInput = ChangeSensor & { incidentId: string; sensorId: string; expectedVersion: number };

/** Renames a sensor, says how often it is expected to report, takes it out of service or puts it back. What it measured before it was withdrawn still comes in. */
export async function changeSensor(stores: Stores, call: UseCaseCall, input: ChangeSensorInput): Promise<SensorRecord> {
  const { incidentId, sensorId, expectedVersion, name, state, expectedEveryMinutes } = input;
  await openIncidentOf(stores, incidentId);
  const before = await stores.climateRecords.sensor(incidentId, sensorId);
  if (!before) throw notFound('sensor');
  if (before.version !== expectedVersion) throw staleVersion('sensor', before.version);
  const withdrawnAtMs = state === undefined || state === before.state ? undefined : state === 'withdrawn' ? call.env.nowMs : null;
  const changed = definedMembers({ name, state, withdrawnAtMs, expectedEveryMinutes });
  if (Object.keys(changed).length === 0) return before;
  const saved = await stores.climateRecords.saveSensor(incidentId, sensorId, expectedVersion, changed);
  if (saved) {
    // How long its place may be silent goes by the sensors in service.
    if (saved.expectedEveryMinutes !== before.expectedEveryMinutes || saved.state !== before.state) await ringSensed(stores, call, saved);
    return saved;
  }
  const present = await stores.climateRecords.sensor(incidentId, sensorId);
  throw staleVersion('sensor', present?.version ?? expectedVersion + 1);
}
