import pg from 'pg';
import { type PreparedIncident, type PreparedNetwork, prepareNetworks, startTestServer, type TestServer } from '#testing';
import { fill } from '../scenarios/tenant-matrix/prepared.js';

/** Two networks full of things, and a connection with the login of the application. */
export interface RlsWorld {
  server: TestServer;
  ours: PreparedNetwork;
  theirs: PreparedNetwork;
  app: pg.Pool;
  close(): Promise<void>;
}

export async function startRlsWorld(): Promise<RlsWorld> {
  const server = await startTestServer();
  const { ours, theirs } = await prepareNetworks(server, async (incident) => {
    await fill(incident, server);
    await told(incident, server);
  });
  const app = new pg.Pool({ connectionString: server.database.appUrl, max: 2 });
  return {
    server, ours, theirs, app,
    async close() {
      await app.end();
      await server.close();
    },
  };
}

/** A family that wishes to be told, with something to tell, and an address where nothing arrives. */
async function told(incident: PreparedIncident, server: TestServer): Promise<void> {
  const householdId = incident.the('household');
  await incident.create(`/v1/households/${householdId}/message-wishes`, { wish: 'messages', manner: 'spoken' });
  await server.admin.query(
    `insert into unreached_address (network_id, incident_id, id, household_id, channel, message_id, refused_at) select network_id, incident_id, gen_random_uuid(), household_id, 'email', id, now() from family_message where id = $1`,
    [incident.the('familyMessage')],
  );
}

export interface Settings {
  network: string;
  incident?: string;
}

/** Runs statements as the application under these settings and undoes them. */
export async function under<T>(pool: pg.Pool, settings: Settings | null, work: (client: pg.PoolClient) => Promise<T>): Promise<T> {
  const client = await pool.connect();
  try {
    await client.query('begin');
    if (settings) await client.query("select set_config('app.network_id', $1, true), set_config('app.incident_id', $2, true)", [settings.network, settings.incident ?? '']);
    return await work(client);
  } finally {
    await client.query('rollback');
    client.release();
  }
}

/** SQLSTATE and message of a refusal; null when there was none. */
export async function refusalOf(work: Promise<unknown>): Promise<{ code: string; message: string } | null> {
  return work.then(() => null, (error: { code?: string; message: string }) => ({ code: error.code ?? 'no code', message: error.message }));
}
