import type { Zone } from '#care';
import type { ChangeStation } from '#contracts';
import type { UseCaseCall } from '../call.js';
import { LAYOUT_REASONS } from '../planning/plan-reasons.js';
import { requestPlan } from '../planning/request-plan.js';
import type { ConfigStores } from '../ports/config-work.js';
import type { StationOpeningRecord, StationRecord } from '../ports/layout-store.js';
import { findUnchanged, saveUnchanged, type VersionedTarget } from './change-versioned.js';

export interface StationView {
  station: StationRecord;
  zone: Zone;
  openings: StationOpeningRecord[];
}

/** Opens or closes a station, or changes how many items it takes at once. */
export async function changeStation(stores: ConfigStores, call: UseCaseCall, input: ChangeStation & VersionedTarget): Promise<StationView> {
  const { name, state, capacity } = input;
  const found = await findUnchanged(stores.layout, 'station', input);
  const station = await saveUnchanged(stores.layout, 'station', input, found, { name, state, capacity });
  const view = { station, zone: await stores.layout.zoneKind(station.zoneId), openings: await stores.layout.openings(station.id) };
  if (station.state !== found.state || station.capacity !== found.capacity) await requestPlan(stores, call, input.incidentId, LAYOUT_REASONS.stationChanged(station.code));
  return view;
}
