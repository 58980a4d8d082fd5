import { DAY } from '../calibration.js';
import { incidentDocument } from './incident-document.js';
import { CODES, MAIN_SITE } from './region.js';
import { TrueRoom } from './true-room.js';
import type { DemoWorld, NetworkKey, SiteCode } from './types.js';

/** The drying rooms of the played world as they truly are, by site. They begin with the air that was read when they were registered. */
export function trueRooms(world: DemoWorld): Map<SiteCode, TrueRoom> {
  const sites = (['valley', 'bank'] as NetworkKey[]).flatMap((network) => incidentDocument(network, world.seed, world.scale).sites);
  return new Map(sites.map((site) => {
    const room = site.dryingRooms?.[0];
    if (!room) throw new Error(`${site.name} has no drying room`);
    const machines = (room.dehumidifiers ?? []).map(({ code, ratedLPerDay, ratedTempC, ratedRelativeHumidityPct }) => ({ code, ratedLPerDay, ratedTempC, ratedRelativeHumidityPct }));
    const { volumeM3, airChangesPerH, airTempC, relativeHumidityPct } = room;
    const stopped = site.code === MAIN_SITE ? { code: CODES.trippingDehumidifier, fromMs: DAY.dehumidifierTripsAtMs, toMs: DAY.dehumidifierMendedAtMs } : null;
    return [site.code as SiteCode, new TrueRoom(world.seed, { site: site.code as SiteCode, code: room.code, volumeM3, airChangesPerH, airTempC, relativeHumidityPct, machines, stopped })];
  }));
}
