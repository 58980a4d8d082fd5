import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, test } from '@jest/globals';
import type { ApiKeyRecord, CallContext, CommandIdentity, IncidentRecord } from '#application';
import { createPool, type Pool, PrismaConfigWork } from '#persistence';
import { newId } from '#platform';
import { createTestDatabase, type TestDatabase } from '#testing';

let database: TestDatabase;
let pool: Pool;
let work: PrismaConfigWork;
let context: CallContext;

beforeAll(async () => {
  database = await createTestDatabase();
});
afterAll(() => database.drop());

beforeEach(async () => {
  pool = createPool({ connectionString: database.appUrl, max: 3, applicationName: 'config-work-test', onError: () => undefined });
  work = new PrismaConfigWork(pool);
  context = await newNetwork();
});
afterEach(async () => {
  await work.close();
  await pool.end();
});

async function newNetwork(): Promise<CallContext> {
  const networkId = newId();
  await database.admin.query("insert into network (network_id, name, created_at) values ($1, 'n', now())", [networkId]);
  return { networkId, incidentLimit: null, principalId: newId(), requestId: newId(), traceparent: '' };
}

const identity = (): CommandIdentity => ({ operation: 'test', key: newId(), fingerprint: 'f', subjectOf: () => ({ kind: 'tests', id: null }) });
const done = { status: 200, body: { ok: true }, headers: { etag: '"1"' } };

function incident(): IncidentRecord {
  return { id: newId(), name: 'i', place: '', floodAtMs: 0, defaultWater: 'black', outdoorAirTempC: null, outdoorRelativeHumidityPct: null, outdoorAirAtMs: null, state: 'open', planPublishing: 'automatic', version: 1, createdAtMs: 0, updatedAtMs: 0 };
}

function key(limitedToIncidentId: string | null = null): ApiKeyRecord {
  const id = newId();
  return { id, prefix: id.slice(-8), label: 'k', scopes: ['keys:manage'], limitedToIncidentId, expiresAtMs: Date.now() + 1e9, revokedAtMs: null, replacesId: null, createdAtMs: 0 };
}

const HASH = new Uint8Array(32);

describe('a transaction of the configuration', () => {
  test('a failure in the middle leaves nothing behind', async () => {
    const record = incident();
    const failing = work.command(context, identity(), async (stores) => {
      await stores.layout.insertIncident(record);
      throw new Error('in the middle');
    });
    await expect(failing).rejects.toThrow('in the middle');
    expect(await work.read(context, (stores) => stores.layout.incident(record.id))).toBeNull();
  });

  test('a read cannot write', async () => {
    await expect(work.read(context, (stores) => stores.layout.insertIncident(incident()))).rejects.toMatchObject({ code: '25006' });
  });

  test('the network is forgotten with the transaction, on the same connection', async () => {
    const single = createPool({ connectionString: database.appUrl, max: 1, applicationName: 'config-work-single', onError: () => undefined });
    const alone = new PrismaConfigWork(single);
    const record = incident();
    await alone.command(context, identity(), async (stores) => {
      await stores.layout.insertIncident(record);
      return done;
    });
    const { rows } = await single.query("select current_setting('app.network_id', true) as network, (select count(*)::int from incident) as incidents");
    expect(rows).toEqual([{ network: '', incidents: 0 }]);
    await alone.close();
    expect((await single.query('select 1 as alive')).rows).toEqual([{ alive: 1 }]);
    await single.end();
  });

  test('nothing can hang on a parent of another network: every key leads with the network', async () => {
    const foreign = await newNetwork();
    const record = incident();
    await work.command(foreign, identity(), async (stores) => {
      await stores.layout.insertIncident(record);
      return done;
    });
    const freezer = { id: newId(), incidentId: record.id, siteId: newId(), code: 'F', name: 'F', volumeL: 1, setPointC: -18, availableFromMs: 0, version: 1 };
    await expect(work.command(context, identity(), async (stores) => {
      await stores.layout.insertFreezer(freezer);
      return done;
    })).rejects.toMatchObject({ code: '23503' });
    expect(await work.read(context, (stores) => stores.layout.incident(record.id))).toBeNull();
  });
});

describe('a command of the configuration', () => {
  test('is done once for its key, also when both requests come at the same moment', async () => {
    const same = identity();
    let runs = 0;
    const once = () => work.command(context, same, async (stores) => {
      runs += 1;
      await stores.layout.insertIncident(incident());
      return done;
    });
    const results = await Promise.allSettled([once(), once()]);
    expect(runs).toBe(1);
    const refused = results.find((result) => result.status === 'rejected');
    if (refused) expect(refused.reason).toMatchObject({ code: 'command_running' });
    expect(await once()).toEqual({ ...done, replayed: true });
    expect(await work.read(context, (stores) => stores.layout.incidentPage(10, null))).toHaveLength(1);
  });

  test('with the key of another command is refused', async () => {
    const same = identity();
    await work.command(context, same, async () => done);
    await expect(work.command(context, { ...same, fingerprint: 'other' }, async () => done)).rejects.toMatchObject({ code: 'idempotency_key_reused' });
  });

  test('that the database breaks off by a deadlock runs again', async () => {
    const [a, b] = [key(), key()];
    await work.command(context, identity(), async (stores) => {
      await stores.keys.insert(a, HASH);
      await stores.keys.insert(b, HASH);
      return done;
    });
    let attempts = 0;
    let waiting = 0;
    let release: () => void = () => undefined;
    const bothHold = new Promise<void>((resolve) => (release = resolve));
    const cross = (first: string, second: string) => work.command(context, identity(), async (stores) => {
      attempts += 1;
      await stores.keys.lock(first);
      if ((waiting += 1) === 2) release();
      await bothHold;
      await stores.keys.lock(second);
      return done;
    });
    await Promise.all([cross(a.id, b.id), cross(b.id, a.id)]);
    expect(attempts).toBe(3);
  });
});

describe('the version of a thing', () => {
  test('decides in the statement that saves: of two who read the same version one saves, the other is told', async () => {
    const record = incident();
    await work.command(context, identity(), async (stores) => {
      await stores.layout.insertIncident(record);
      return done;
    });
    let readers = 0;
    let release: () => void = () => undefined;
    const bothRead = new Promise<void>((resolve) => (release = resolve));
    const rename = (name: string) => work.command(context, identity(), async (stores) => {
      const read = await stores.layout.incident(record.id);
      if ((readers += 1) === 2) release();
      await bothRead;
      const saved = await stores.layout.saveIncident(record.id, read?.version ?? 0, { name }, 1);
      return { status: 200, body: saved?.name ?? null, headers: {} };
    });
    const bodies = (await Promise.all([rename('one'), rename('two')])).map((answer) => answer.body);
    expect(bodies.filter((body) => body === null)).toHaveLength(1);
    const after = await work.read(context, (stores) => stores.layout.incident(record.id));
    expect(after).toMatchObject({ version: 2, name: bodies.find((body) => body !== null) });
  });

  test('decides for stations, dehumidifiers, shifts and freezers too', async () => {
    const record = incident();
    const [siteId, zoneId, roomId, personId] = [newId(), newId(), newId(), newId()];
    const of = { incidentId: record.id };
    const things = { station: newId(), dehumidifier: newId(), shift: newId(), freezer: newId() };
    await work.command(context, identity(), async ({ layout }) => {
      await layout.insertIncident(record);
      await layout.insertLayout({
        sites: [{ ...of, id: siteId, code: 'A', name: 'A', place: '', version: 1 }],
        zones: [{ ...of, id: zoneId, siteId, kind: 'dirty' }],
        stations: [{ ...of, id: things.station, siteId, zoneId, code: 'S', name: 'S', steps: ['rinse'], capacity: 1, state: 'open', version: 1 }],
        openings: [], holdingAreas: [], dryingPlaces: [], specialists: [], shelves: [], vehicles: [],
        dryingRooms: [{ ...of, id: roomId, siteId, code: 'R', name: 'R', volumeM3: 1, airChangesPerH: 0, humidityCapPct: 75, airTempC: 20, relativeHumidityPct: 50, measuredAtMs: 0, version: 1 }],
        dehumidifiers: [{ ...of, id: things.dehumidifier, dryingRoomId: roomId, code: 'D', name: 'D', ratedLPerDay: 1, ratedTempC: 20, ratedRelativeHumidityPct: 60, state: 'running', version: 1 }],
        freezers: [{ ...of, id: things.freezer, siteId, code: 'F', name: 'F', volumeL: 1, setPointC: -18, availableFromMs: 0, version: 1 }],
        people: [{ ...of, id: personId, siteId, code: 'P', displayName: 'P', skills: [], restrictions: [], respiratorFitUntil: null, version: 1 }],
        shifts: [{ ...of, id: things.shift, personId, startsAtMs: 0, endsAtMs: 10, version: 1 }],
      });
      return done;
    });
    await work.command(context, identity(), async ({ layout }) => {
      for (const kind of ['station', 'dehumidifier', 'shift', 'freezer'] as const) {
        expect(await layout.save(kind, record.id, things[kind], 2, {})).toBeNull();
        expect(await layout.save(kind, newId(), things[kind], 1, {})).toBeNull();
        expect(await layout.save(kind, record.id, things[kind], 1, {})).toMatchObject({ id: things[kind], version: 2 });
      }
      return done;
    });
  });
});

describe('when the database is in trouble', () => {
  test('a lost connection is told by a code the API knows, without a word of the ORM, and the next read works', async () => {
    const lost = work.read(context, async (stores) => {
      await database.admin.query("select pg_terminate_backend(pid) from pg_stat_activity where application_name = 'config-work-test' and state = 'idle in transaction'");
      return stores.layout.incident(newId());
    });
    const error: unknown = await lost.then(() => null, (reason: unknown) => reason);
    expect(error).toMatchObject({ name: 'ConfigDatabaseError', code: expect.stringMatching(/^(08006|57P01)$/) });
    expect(await work.read(context, (stores) => stores.layout.incidentPage(1, null))).toEqual([]);
  });

  test('a server that is not there is told as a lost connection', async () => {
    const nowhere = createPool({ connectionString: 'postgres://wl_app@127.0.0.1:9/none', max: 1, applicationName: 'nowhere', onError: () => undefined });
    const dark = new PrismaConfigWork(nowhere);
    await expect(dark.read(context, (stores) => stores.layout.incident(newId()))).rejects.toMatchObject({ code: '08006' });
    await dark.close();
    await nowhere.end();
  });
});
