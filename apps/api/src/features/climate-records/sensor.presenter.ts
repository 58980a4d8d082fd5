import type { z } from 'zod';
import type { SensorRecord } from '#application';
import type { SensorBody } from '#contracts';
import { iso, isoOrNull } from '../../presenters/time.js';

export function presentSensor({ id, incidentId, code, name, place, state, withdrawnAtMs, expectedEveryMinutes, version, createdAtMs }: SensorRecord): z.output<typeof SensorBody> {
  return { id, incidentId, code, name, placeKind: place.kind, placeId: place.id, state, withdrawnAt: isoOrNull(withdrawnAtMs), expectedEveryMinutes, version, createdAt: iso(createdAtMs) };
}
