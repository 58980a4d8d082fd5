import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import type { CallContext, ConfigStores, Stores } from '#application';
import { createPool, PgUnitOfWork, type Pool, PrismaConfigWork } from '#persistence';
import { BUILT_IN_TEMPLATES } from '#custody';
import { newId, parseMasterKeys } from '#platform';
import { idsOf, networkDigest, type PreparedIncident, TEST_MASTER_KEY } from '#testing';
import { CONFIG_READS, CONFIG_WRITES, type Foreign, type Read, READS, WRITES } from './reads.js';
import { NOT_DRILLED } from './not-drilled.js';
import { type StrippedPool, strippedPool } from './stripped.js';
import { type RlsWorld, startRlsWorld } from './world.js';

// OWASP ASVS 5.0.0, 8.4.1: a drill of a forgotten condition. The real stores send their real statements without the
// condition on the network; the policies of the database alone must keep the other network out. The same statements as
// a superuser show what such a mistake would otherwise give away, so that the drill cannot pass by asking nothing.

let world: RlsWorld;
let foreign: Foreign;
let usualPool: Pool;
let asApp: StrippedPool;
let asSuperuser: StrippedPool;
let context: CallContext;

beforeAll(async () => {
  world = await startRlsWorld();
  foreign = await foreignThings();
  context = { networkId: world.ours.network.networkId, incidentLimit: null, principalId: world.ours.network.networkId, requestId: 'drill', traceparent: '' };
  usualPool = createPool({ connectionString: world.server.database.appUrl, max: 6, applicationName: 'drill', onError: () => undefined });
  asApp = strippedPool(world.server.database.appUrl);
  asSuperuser = strippedPool(world.server.database.adminUrl);
}, 400_000);

afterAll(async () => {
  await Promise.all([usualPool?.end(), asApp?.pool.end(), asSuperuser?.pool.end()]);
  await world?.close();
});

async function foreignThings(): Promise<Foreign> {
  const { theirs, server } = world;
  const incident = theirs.first;
  const one = async (sql: string, values: unknown[]) => (await server.admin.query<{ value: string }>(sql, values)).rows[0]?.value ?? '';
  const item = await incident.newItem();
  const waiting = await incident.create(`/v1/incidents/${incident.id}/intake-imports?siteId=${incident.places.site()}&fileName=more`, `tag,household\n${await incident.newTag()},HH-1\n`, { 'content-type': 'text/csv' });
  await server.admin.query("update item set keeper_kind = 'station', keeper_id = $2, stage = 'in-work' where id = $1", [item.id, incident.places.station('TEST')]);
  const hung = await incident.newItem();
  await server.admin.query("update item set keeper_kind = 'drying-place', keeper_id = $2, stage = 'drying', waiting_for_owner = true where id = $1", [hung.id, incident.places.place('R1')]);
  await server.admin.query('update plan_assignment set drying_place_id = $2 where incident_id = $1', [incident.id, incident.places.place('R1')]);
  await planReferral(incident, server, (await incident.newItem()).id);
  await planRide(incident, server, (await incident.newItem()).id);
  Object.assign(incident.made, {
    farTag: item['tag'] as string, freeTag: await incident.newTag(), waitingImport: waiting.id,
    referral: await one('select id as value from referral where item_id = $1', [incident.the('referred')]),
    zone: await one('select id as value from zone where incident_id = $1 limit 1', [incident.id]),
  });
  incident.made['familyNews'] = await one('select id as value from family_news where household_id = $1 limit 1', [incident.the('household')]);
  Object.assign(incident.made, await foreignTags(incident, server));
  await incident.create(`/v1/incidents/${incident.id}/plan-runs`, { reason: 'for the drill' }).catch(() => undefined);
  const proposal = newId();
  await server.admin.query("insert into plan_revision select (jsonb_populate_record(r, jsonb_build_object('id', $2::text, 'number', 1000, 'published_at', null))).* from plan_revision r where incident_id = $1 order by number limit 1", [incident.id, proposal]);
  incident.made['planProposal'] = proposal;
  const dead = newId();
  await server.admin.query("insert into outbox (network_id, id, incident_id, kind, subject_id, dead_at, dead_reason) values ($1, $2, $3, 'plan.requested', $2, now(), 'for the drill')", [theirs.network.networkId, dead, incident.id]);
  const delayed = newId();
  await server.admin.query("insert into outbox (network_id, id, incident_id, kind, subject_id, leased_until) values ($1, $2, $3, 'plan.requested', $2, now() + interval '1 day')", [theirs.network.networkId, delayed, incident.id]);
  return {
    incident,
    householdCode: await one('select code as value from household where id = $1', [incident.the('household')]),
    revision: await one('select id as value from plan_revision where incident_id = $1 order by number limit 1', [incident.id]),
    outbox: await one('select id as value from outbox where incident_id = $1 and done_at is null and dead_at is null limit 1', [incident.id]),
    dead,
    delayed,
    key: await one('select id as value from api_key where network_id = $1 limit 1', [theirs.network.networkId]),
  };
}

/** Tags with codes that the other network does not have. */
/** The newest plan sends an item to a specialist whose time is known. */
async function planReferral(incident: PreparedIncident, server: RlsWorld['server'], itemId: string): Promise<void> {
  const specialist = incident.places.specialist('SP1');
  await server.admin.query('update specialist set pieces_at_once = 1, hours_per_piece = 6 where id = $1', [specialist]);
  await server.admin.query(
    `insert into plan_assignment (network_id, incident_id, revision_id, item_id, position, step, disposition, person_ids, starts_at, ends_at, service_id)
     select network_id, incident_id, id, $2, 0, 'refer', 'refer', '{}', now(), now() + interval '6 h', $3 from plan_revision where id = $1`,
    [incident.the('planRevision'), itemId, specialist]);
}

/** The newest plan has an item carried by a vehicle whose rides are known, before its next step. */
async function planRide(incident: PreparedIncident, server: RlsWorld['server'], itemId: string): Promise<void> {
  const site = incident.places.site();
  const ride = { id: newId(), fromSiteId: site, toSiteId: site, minutes: 20 };
  await server.admin.query('update vehicle set max_load_kg = 300, rides = $2 where id = $1', [incident.the('vehicle'), JSON.stringify([ride])]);
  await server.admin.query(
    `insert into plan_assignment (network_id, incident_id, revision_id, item_id, position, step, disposition, person_ids, starts_at, ends_at, service_id)
     select v.network_id, v.incident_id, v.id, i.id, s.position, s.step, i.disposition, '{}', now(), now() + interval '20 min', s.service_id
     from plan_revision v, item i, lateral (values (0, 'carry', $3::uuid), (1, i.next_step, null)) as s (position, step, service_id) where v.id = $1 and i.id = $2`,
    [incident.the('planRevision'), itemId, ride.id]);
}

async function foreignTags(incident: PreparedIncident, server: RlsWorld['server']): Promise<Record<string, string>> {
  const first = 2_000_000;
  await server.admin.query("insert into tag_serial (network_id, kind, next_serial) values ($1, 'place', $2) on conflict (network_id, kind) do update set next_serial = $2", [incident.network.networkId, first]);
  const block = await incident.create(`/v1/incidents/${incident.id}/tag-blocks`, { kind: 'place', count: 2, reservedFor: incident.text('Team') });
  const taggedFreezer = incident.places.freezer('F1');
  await incident.create(`/v1/tags/${(block['tags'] as string[])[0]}/ties`, { place: { kind: 'freezer', id: taggedFreezer } });
  const newTag = await incident.newTag();
  await incident.create(`/v1/tags/${(await incident.newItem())['tag'] as string}/replacements`, { newTag, reason: 'lost' });
  const limited = incident.network.as(await incident.network.newKey({ incidentId: incident.id }));
  const template = await limited.post('/v1/label-templates', { name: incident.text('Film'), template: BUILT_IN_TEMPLATES[0]?.template }).expect(201);
  return { tagBlock: block.id, tagBlockFirst: String(first), taggedFreezer, newTag, labelTemplate: template.body.id as string };
}

class RollBack extends Error {}

/** Runs on the stores of commands in a transaction that is undone; answers the result as text. */
async function onStores(pool: StrippedPool['pool'], work: (stores: Stores) => Promise<unknown>): Promise<string> {
  let result = '';
  await new PgUnitOfWork(pool, parseMasterKeys(TEST_MASTER_KEY, 'test')).write(context, async (stores) => {
    result = asText(await work(stores));
    throw new RollBack();
  }).catch((error: unknown) => {
    if (!(error instanceof RollBack)) throw error;
  });
  return result;
}

/** The same on the stores of the configuration; a command whose work throws leaves nothing. */
async function onConfig(pool: StrippedPool['pool'], work: (stores: ConfigStores) => Promise<unknown>): Promise<string> {
  const config = new PrismaConfigWork(pool);
  let result = '';
  const identity = { operation: 'drill', key: crypto.randomUUID(), fingerprint: 'drill', subjectOf: () => ({ kind: 'drill', id: null }) };
  await config.command(context, identity, async (stores) => {
    result = asText(await work(stores));
    throw new RollBack();
  }).catch((error: unknown) => {
    if (!(error instanceof RollBack)) throw error;
  });
  await config.close();
  return result;
}

function asText(value: unknown): string {
  return JSON.stringify(value, (_, member: unknown) => (member instanceof Map ? [...member] : member instanceof Uint8Array ? Buffer.from(member).toString('utf8') : member)) ?? 'undefined';
}

type Run<S> = (pool: StrippedPool['pool'], work: (stores: S) => Promise<unknown>) => Promise<string>;

async function drillRead<S>(run: Run<S>, read: Read<S>): Promise<void> {
  const usual = await run(usualPool, (stores) => read(stores, foreign));
  const [appBefore, superBefore] = [asApp.changed.length, asSuperuser.changed.length];
  const drilled = await run(asApp.pool, (stores) => read(stores, foreign));
  // Words of another network are reached then, and do not open: their key is bound to it. That they were reached is what is asked here.
  const open = await run(asSuperuser.pool, (stores) => read(stores, foreign)).catch((error: Error) => {
    if (error.message !== 'A sealed value does not open where it stands.') throw error;
    return error.message;
  });
  // The statements really lost their conditions, and nothing of them is left.
  expect(asApp.changed.length).toBeGreaterThan(appBefore);
  expect(asSuperuser.changed.length).toBeGreaterThan(superBefore);
  expect(asApp.changed.slice(appBefore).filter((text) => /network_id"?\s*=\s*(CAST\()?\$|network_id"?\s*=\s*"?\w+"?\./.test(text))).toEqual([]);
  expect(open).not.toBe(usual);
  expect(drilled).toBe(usual);
}

async function drillWrite<S>(run: Run<S>, write: Read<S>): Promise<void> {
  const { networkId } = world.theirs.network;
  /** Their rows as this very transaction sees them after the write. */
  const after = async (pool: StrippedPool, work: () => Promise<unknown>) => {
    await work().catch((error: Error) => {
      // "The row is gone" is the right answer here; a fault of the statement would hide that nothing was tried.
      if (/syntax|type|column|operator/i.test(error.message)) throw error;
    });
    return networkDigest(pool.look, networkId).catch(() => null);
  };
  const before = await networkDigest(world.server.admin, networkId);
  const seen: { app?: unknown; superuser?: unknown } = {};
  await run(asSuperuser.pool, async (stores) => void (seen.superuser = await after(asSuperuser, () => write(stores, foreign))));
  expect(seen.superuser).not.toBeNull();
  expect(seen.superuser).not.toEqual(before);
  const changed = asApp.changed.length;
  await run(asApp.pool, async (stores) => {
    await write(stores, foreign).catch((error: Error) => {
      if (/syntax|type|column|operator/i.test(error.message)) throw error;
    });
  });
  expect(asApp.changed.length).toBeGreaterThan(changed);
  expect(await networkDigest(world.server.admin, networkId)).toEqual(before);
}

describe('with the condition on the network removed from their SQL, these still show nothing of another network', () => {
  test.each(Object.entries(READS))('%s', (_, read) => drillRead(onStores, read));
  test.each(Object.entries(CONFIG_READS))('%s', (_, read) => drillRead(onConfig, read));
});

describe('with the condition removed, these still change nothing of another network', () => {
  test.each(Object.entries(WRITES))('%s', (_, write) => drillWrite(onStores, write));
  test.each(Object.entries(CONFIG_WRITES))('%s', (_, write) => drillWrite(onConfig, write));
});

test('the item list without its condition holds no id of the other network', async () => {
  const ids = await idsOf(world.server.admin, world.theirs.network.networkId);
  const text = await onStores(asApp.pool, async (stores) => [await stores.items.page(world.ours.first.id, {}, 200, null), await stores.items.page(foreign.incident.id, {}, 200, null)]);
  expect((text.match(/[0-9a-f-]{36}/g) ?? []).filter((id) => ids.has(id))).toEqual([]);
  expect(text).toContain(world.ours.first.the('item'));
});

test('every method of every store is in the drill, or is left out for a reason', async () => {
  const methods = (stores: object) =>
    Object.entries(stores).flatMap(([store, object]) => Object.getOwnPropertyNames(Object.getPrototypeOf(object)).filter((name) => name !== 'constructor').map((name) => `${store}.${name}`));
  const all: string[] = [];
  await onStores(usualPool, async (stores) => void all.push(...methods(stores)));
  await onConfig(usualPool, async (stores) => void all.push(...methods(stores)));
  const known = new Set([...Object.keys(READS), ...Object.keys(CONFIG_READS), ...Object.keys(WRITES), ...Object.keys(CONFIG_WRITES), ...Object.keys(NOT_DRILLED)]);
  expect(all.filter((name) => !known.has(name))).toEqual([]);
  expect([...known].filter((name) => !all.includes(name))).toEqual([]);
});
