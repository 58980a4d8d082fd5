import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { newId } from '#platform';
import { startTestServer, type TestServer } from '#testing';
import { ask, shortOfFreezer, type ShortIncident } from '../support/what-ifs.js';

let server: TestServer;
let short: ShortIncident;
beforeAll(async () => {
  server = await startTestServer();
  short = await shortOfFreezer(server);
});
afterAll(() => server.close());

const path = () => `/v1/incidents/${short.incident.id}/plan-what-ifs`;
const post = (changes: object[], more: object = {}) => short.network.post(path(), { changes, ...more });
const none = async () => expect((await server.admin.query("select 1 from plan_what_if where incident_id = $1 union all select 1 from outbox where incident_id = $1 and kind = 'plan.what_if'", [short.incident.id])).rowCount).toBe(0);
const at = '2026-05-09T08:00:00Z';

test('an incident of another network, or none, answers 404 word for word alike and rings for nothing', async () => {
  const theirs = await server.network();
  const foreign = (await theirs.post(path(), {}).expect(404)).body;
  const nowhere = (await theirs.post(`/v1/incidents/${newId()}/plan-what-ifs`, {}).expect(404)).body;
  expect(foreign.detail).toBe(nowhere.detail);
  await none();
});

test('an incident without a plan answers 404 and says so', async () => {
  const incident = await short.network.incident();
  expect((await short.network.post(`/v1/incidents/${incident.id}/plan-what-ifs`, {}).expect(404)).body.detail).toMatch(/plan/);
});

test.each<[string, string, (incident: ShortIncident['incident']) => object]>([
  ['a station', 'stationId', () => ({ kind: 'station-units', stationId: newId(), units: 1 })],
  ['a site', 'siteId', () => ({ kind: 'freezer', siteId: newId(), volumeL: 500 })],
  ['a room', 'dryingRoomId', () => ({ kind: 'drying-area', dryingRoomId: newId(), areaM2: 10 })],
  ['a person', 'personId', () => ({ kind: 'person-leaves', personId: newId(), at })],
  ['a dehumidifier', 'dehumidifierId', () => ({ kind: 'dehumidifier-fails', dehumidifierId: newId() })],
  ['a freezer', 'freezerId', () => ({ kind: 'freezer-fails', freezerId: newId() })],
  ['a specialist', 'specialistId', () => ({ kind: 'specialist-units', specialistId: newId(), units: 1 })],
])('%s that is not of the incident answers 422 and points at it', async (_, member, change) => {
  const { body } = await post([{ kind: 'freezer', siteId: short.incident.site(), volumeL: 500 }, change(short.incident)]).expect(422);
  expect(body).toMatchObject({ code: 'reference_unknown', errors: [{ pointer: `#/changes/1/${member}` }] });
  expect(body.detail).toMatch(/Take the id from the layout/);
  await none();
});

test('a specialist of whom nobody said what they can take answers 422 and says what is asked for', async () => {
  const { body } = await post([{ kind: 'specialist-units', specialistId: short.incident.specialist('SP1'), units: 1 }]).expect(422);
  expect(body).toMatchObject({ code: 'reference_unknown', errors: [{ pointer: '#/changes/0/specialistId' }] });
  expect(body.detail).toMatch(/specialist of whom it is known what they can take/);
  await none();
});

test('an item of another incident answers 422', async () => {
  const other = await shortOfFreezer(server);
  expect((await post([{ kind: 'freezer', siteId: short.incident.site(), volumeL: 500 }], { itemId: other.quilts[0] }).expect(422)).body).toMatchObject({ code: 'reference_unknown', errors: [{ pointer: '#/itemId' }] });
  await none();
});

test.each<[string, object, string]>([
  ['changes nothing', { kind: 'station-units', stationId: newId(), units: 0 }, '#/changes/0/units'],
  ['changes nothing of a specialist', { kind: 'specialist-units', specialistId: newId(), units: 0 }, '#/changes/0/units'],
  ['ends before it begins', { kind: 'station-open', stationId: newId(), from: '2026-05-09T12:00:00Z', to: at }, '#/changes/0/to'],
  ['has a shift that ends before it begins', { kind: 'people', siteId: newId(), count: 1, shifts: [{ startsAt: at, endsAt: at }] }, '#/changes/0/shifts/0/endsAt'],
  ['has nobody come', { kind: 'people', siteId: newId(), count: 0, shifts: [{ startsAt: at, endsAt: '2026-05-09T12:00:00Z' }] }, '#/changes/0/count'],
  ['has a skill that we do not know', { kind: 'people', siteId: newId(), count: 1, skills: ['juggling'], shifts: [{ startsAt: at, endsAt: '2026-05-09T12:00:00Z' }] }, '#/changes/0/skills/0'],
  ['is of a kind that we do not know', { kind: 'miracle' }, '#/changes/0/kind'],
])('a change that %s answers 400 and points at it', async (_, change, pointer) => {
  const { body } = await post([change]).expect(400);
  expect(body).toMatchObject({ code: 'validation_failed', errors: [{ pointer }] });
  await none();
});

test('no changes at all, and more than a dozen, answer 400', async () => {
  await post([]).expect(400);
  await post(Array.from({ length: 13 }, () => ({ kind: 'freezer', siteId: short.incident.site(), volumeL: 500 }))).expect(400);
  await none();
});

test('a key without plan:write answers 403; a closed incident 409', async () => {
  const reader = short.network.as(await short.network.newKey({ scopes: ['item:read'] }));
  expect((await reader.post(path(), {}).expect(403)).body.code).toBe('scope_missing');
  const network = await server.network();
  const incident = await network.incident();
  await network.patch(`/v1/incidents/${incident.id}`, { state: 'closed' }, { 'if-match': '"1"' }).expect(200);
  expect((await network.post(`/v1/incidents/${incident.id}/plan-what-ifs`, {}).expect(409)).body.code).toBe('incident_closed');
});

test('while two wait, a third answers 422 and says to wait', async () => {
  const { network, incident } = await shortOfFreezer(server);
  await ask(network, incident, {});
  await ask(network, incident, {});
  const { body } = await network.post(`/v1/incidents/${incident.id}/plan-what-ifs`, {}).expect(422);
  expect(body.code).toBe('command_refused');
  expect(body.detail).toMatch(/Wait until one is/);
});
