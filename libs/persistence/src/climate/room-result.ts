/** What a reckoning of a room stores, one statement a table. */
import type { ItemClimateRow, RoomResult } from '#application';
import type { Client } from '../pool.js';
import { at } from '../stores/row.js';

export async function saveRoomResult(client: Client, networkId: string, incidentId: string, roomId: string, result: RoomResult): Promise<void> {
  await client.query({
    name: 'room_course_store',
    text: 'update room_course set as_of = $3, basis = $4, standing = $5, forecast = $6 where network_id = $1 and drying_room_id = $2',
    values: [networkId, roomId, at(result.asOfMs), result.basis, JSON.stringify(result.standing), JSON.stringify(result.forecast)],
  });
  await saveCheckpoints(client, networkId, incidentId, roomId, result);
  await saveItems(client, networkId, incidentId, roomId, result);
}

async function saveCheckpoints(client: Client, networkId: string, incidentId: string, roomId: string, { checkpoints, keep }: RoomResult): Promise<void> {
  await client.query({
    name: 'room_checkpoint_thin',
    text: 'delete from room_checkpoint where network_id = $1 and drying_room_id = $2 and at <> all ($3::timestamptz[])',
    values: [networkId, roomId, keep.map((ms) => at(ms))],
  });
  for (const { mark, state } of checkpoints) {
    await client.query({
      name: 'room_checkpoint_store',
      text: `insert into room_checkpoint (network_id, incident_id, drying_room_id, at, basis, state) values ($1, $2, $3, $4, $5, $6)
             on conflict (network_id, drying_room_id, at) do update set basis = excluded.basis, state = excluded.state`,
      values: [networkId, incidentId, roomId, at(mark.atMs), mark.basis, JSON.stringify(state)],
    });
  }
}

const ITEMS = `
  insert into item_climate (network_id, incident_id, item_id, drying_room_id, hung_at, taken_at, as_of, moisture_x, water_kg, dose, clock_state, dry_earliest_at, dry_expected_at, dry_latest_at, detail)
  select $1, $2, r.item_id, $3, r.hung_at, r.taken_at, r.as_of, r.moisture_x, r.water_kg, r.dose, r.clock_state, r.dry_earliest_at, r.dry_expected_at, r.dry_latest_at, r.detail
  from jsonb_to_recordset($4::jsonb) as r (item_id uuid, hung_at timestamptz, taken_at timestamptz, as_of timestamptz, moisture_x float8, water_kg float8, dose float8, clock_state text,
                                          dry_earliest_at timestamptz, dry_expected_at timestamptz, dry_latest_at timestamptz, detail jsonb)
  on conflict (network_id, item_id, drying_room_id) do update
    set hung_at = excluded.hung_at, taken_at = excluded.taken_at, as_of = excluded.as_of, moisture_x = excluded.moisture_x, water_kg = excluded.water_kg, dose = excluded.dose,
        clock_state = excluded.clock_state, dry_earliest_at = excluded.dry_earliest_at, dry_expected_at = excluded.dry_expected_at, dry_latest_at = excluded.dry_latest_at, detail = excluded.detail`;

async function saveItems(client: Client, networkId: string, incidentId: string, roomId: string, { items, everHung }: RoomResult): Promise<void> {
  await client.query({
    name: 'item_climate_never_hung',
    text: 'delete from item_climate where network_id = $1 and drying_room_id = $2 and item_id <> all ($3::uuid[])',
    values: [networkId, roomId, everHung],
  });
  if (items.length > 0) await client.query({ name: 'item_climate_store', text: ITEMS, values: [networkId, incidentId, roomId, JSON.stringify(items.map(toRow))] });
}

function toRow({ standing, clockState }: ItemClimateRow): Record<string, unknown> {
  const moment = (ms: number | null): string | null => (ms === null ? null : new Date(ms).toISOString());
  return {
    item_id: standing.itemId, hung_at: moment(standing.hungAtMs), taken_at: moment(standing.takenAtMs), as_of: moment(standing.asOfMs), moisture_x: standing.moistureX, water_kg: standing.waterKg,
    dose: standing.clock?.dose ?? 0, clock_state: standing.clock?.state ?? 'none', dry_earliest_at: moment(standing.dryEarliestMs), dry_expected_at: moment(standing.dryExpectedMs), dry_latest_at: moment(standing.dryLatestMs),
    detail: { standing, clockState },
  };
}
