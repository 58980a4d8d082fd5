/** Rides stand in a column of their vehicle, and plans name them by their ids. */
import type { PlannedRide } from '#application';

/**
 * A lateral subquery for the ride that `id` names: its vehicle, its ends and a name made of their codes. No row for what is no ride, or none
 * any more.
 * @param network column that holds the network
 */
export function rideOf(network: string, id: string): string {
  return `
    select v.id as vehicle_id, v.code as vehicle_code, v.name as vehicle_name, f.id as from_id, f.code as from_code, f.name as from_name, t.id as to_id, t.code as to_code, t.name as to_name,
           v.code || ' ' || f.code || '–' || t.code as name
    from vehicle v
    cross join lateral jsonb_array_elements(v.rides) as ride
    join site f on f.network_id = v.network_id and f.id = (ride->>'fromSiteId')::uuid
    join site t on t.network_id = v.network_id and t.id = (ride->>'toSiteId')::uuid
    where ${id} is not null and v.network_id = ${network} and ride->>'id' = (${id})::text`;
}

/** The columns of a ride as `alias` brings them, under names that no other column has. */
export function rideColumns(alias: string): string {
  return `${alias}.vehicle_id as ride_vehicle_id, ${alias}.vehicle_code as ride_vehicle_code, ${alias}.vehicle_name as ride_vehicle_name, ${alias}.from_id as ride_from_id, ${alias}.from_code as ride_from_code, ${alias}.from_name as ride_from_name,
          ${alias}.to_id as ride_to_id, ${alias}.to_code as ride_to_code, ${alias}.to_name as ride_to_name`;
}

/** All null for no ride. */
export interface RideColumns {
  ride_vehicle_id: string | null;
  ride_vehicle_code: string | null;
  ride_vehicle_name: string | null;
  ride_from_id: string | null;
  ride_from_code: string | null;
  ride_from_name: string | null;
  ride_to_id: string | null;
  ride_to_code: string | null;
  ride_to_name: string | null;
}

export function toRide(row: RideColumns): PlannedRide | null {
  const named = (id: string | null, code: string | null, name: string | null) => ({ id: id ?? '', code: code ?? '', name: name ?? '' });
  if (row.ride_vehicle_id === null) return null;
  return { vehicle: named(row.ride_vehicle_id, row.ride_vehicle_code, row.ride_vehicle_name), from: named(row.ride_from_id, row.ride_from_code, row.ride_from_name), to: named(row.ride_to_id, row.ride_to_code, row.ride_to_name) };
}
