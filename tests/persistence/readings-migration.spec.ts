import { afterAll, beforeAll, expect, test } from '@jest/globals';
import pg from 'pg';
import { migrate, readMigrations } from '#persistence';
import { newId } from '#platform';
import { createEmptyDatabase } from '#testing';

const READINGS = '20261127104000_readings';
let database: Awaited<ReturnType<typeof createEmptyDatabase>>;
let admin: pg.Pool;
beforeAll(async () => {
  database = await createEmptyDatabase();
  admin = new pg.Pool({ connectionString: database.url, max: 1 });
  await admin.query(`alter database ${new URL(database.url).pathname.slice(1)} owner to wl_owner; alter schema public owner to wl_owner`);
});
afterAll(async () => {
  await admin.end();
  await database.drop();
});

/** A login that owns the tables and is no superuser is bound by their policies; a superuser would hide that. */
function asOwner(url: string): string {
  const owner = new URL(url);
  owner.searchParams.set('options', '-c role=wl_owner');
  return owner.toString();
}

test('readings by hand move with their ids into the order in which they were recorded, whatever network they are of, and the air of a room is among them', async () => {
  const migrations = (await readMigrations()).filter(({ name }) => name <= READINGS);
  await migrate(database.url, migrations.filter(({ name }) => name < READINGS));
  await admin.query('grant all on _prisma_migrations to wl_owner');
  const rooms = [await roomWithReadings(['2026-05-09T10:00:00Z', '2026-05-09T09:00:00Z'], '2026-05-09T10:00:00Z'), await roomWithReadings([], '2026-05-09T06:30:00Z')];
  await migrate(asOwner(database.url), migrations);
  const { rows } = await admin.query<{ id: string; place_id: string; sequence: string; measured_at: Date; state: string; source: string }>('select id, place_id, sequence, measured_at, state, source from climate_reading order by place_id, sequence');
  expect(rows.every(({ state, source }) => state === 'accepted' && source === 'hand')).toBe(true);
  // The first room's air is one of its readings; the second one's was only registered, and becomes the first reading.
  expect(rooms.map(({ room }) => rows.filter(({ place_id: id }) => id === room).map(({ sequence, measured_at: at }) => [Number(sequence), at.toISOString()]))).toEqual([
    [[1, '2026-05-09T10:00:00.000Z'], [2, '2026-05-09T09:00:00.000Z']], [[1, '2026-05-09T06:30:00.000Z']],
  ]);
  expect(rows.filter(({ place_id: id }) => id === rooms[0]?.room).map(({ id }) => id)).toEqual(rooms[0]?.readings);
  const { rows: tables } = await admin.query("select relname, relrowsecurity and relforcerowsecurity as bound from pg_class where relname in ('incident', 'drying_room', 'climate_reading', 'room_reading') order by 1");
  expect(tables).toEqual(['climate_reading', 'drying_room', 'incident'].map((relname) => ({ relname, bound: true })));
  const { rows: incidents } = await admin.query('select outdoor_air_at is not null as known from incident');
  expect(incidents).toEqual([{ known: true }, { known: true }]);
});

/** A room of a network of its own with readings as the first version stored them, recorded one after the other. */
async function roomWithReadings(measured: string[], airAt: string): Promise<{ room: string; readings: string[] }> {
  const [network, incident, site, room] = [newId(), newId(), newId(), newId()];
  const readings = measured.map(() => newId());
  await admin.query('insert into network (network_id, name, created_at) values ($1, $2, now())', [network, 'n']);
  await admin.query("insert into incident (network_id, id, name, flood_at, outdoor_air_temp_c, outdoor_relative_humidity_pct, created_at, updated_at) values ($1, $2, 'i', now(), 20, 80, now(), now())", [network, incident]);
  await admin.query("insert into site (network_id, incident_id, id, code, name) values ($1, $2, $3, 'S', 's')", [network, incident, site]);
  await admin.query("insert into drying_room (network_id, incident_id, id, site_id, code, name, volume_m3, air_changes_per_h, air_temp_c, relative_humidity_pct, measured_at) values ($1, $2, $3, $4, 'R', 'r', 60, 1, 21, 62, $5)", [network, incident, room, site, airAt]);
  for (const [at, moment] of measured.entries()) {
    await admin.query("insert into room_reading (network_id, incident_id, id, drying_room_id, air_temp_c, relative_humidity_pct, measured_at, recorded_at) values ($1, $2, $3, $4, 21, 62, $5, now() + $6 * interval '1 minute')", [network, incident, readings[at], room, moment, at]);
  }
  return { room, readings };
}
