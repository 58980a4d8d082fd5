import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import { networkDigest, PreparedIncident, startTestServer, type TestNetwork, type TestServer } from '#testing';

// Conditional requests: RFC 9110, 13.1.1 (If-Match compares strongly) and 15.5.13 (412); 428: RFC 6585, section 3.

let server: TestServer;
let network: TestNetwork;
let incident: PreparedIncident;

beforeAll(async () => {
  server = await startTestServer();
  network = await server.network();
  incident = new PreparedIncident(network, await network.incident(), 'etags');
  incident.made['household'] = (await incident.newHousehold()).id;
  incident.made['item'] = (await incident.newItem()).id;
});
afterAll(() => server.close());

interface Versioned {
  /** Where it is read with an ETag; null where only the layout shows its version. */
  read: string | null;
  change: string;
  body: Record<string, unknown>;
  version(): Promise<number>;
}

async function things(): Promise<Record<string, Versioned>> {
  const { id } = incident;
  const layout = async () => (await network.get(`/v1/incidents/${id}/layout`).expect(200)).body;
  const inLayout = (path: string, pick: (body: { sites: { stations: Thing[]; freezers: Thing[]; dryingRooms: { dehumidifiers: Thing[] }[] }[]; people: (Thing & { shifts: Thing[] })[]; specialists: Thing[] }) => Thing | undefined) => async (body: Record<string, unknown>): Promise<Versioned> => {
    const thingId = pick(await layout())?.id ?? '';
    return { read: null, change: `/v1/incidents/${id}/${path}/${thingId}`, body, version: async () => pick(await layout())?.version ?? 0 };
  };
  const read = (path: string, body: Record<string, unknown>): Versioned => ({ read: path, change: path, body, version: async () => (await network.get(path).expect(200)).body.version });
  const sensor = async (): Promise<Versioned> => {
    const path = `/v1/incidents/${id}/sensors`;
    const made = await incident.create(path, { code: `T-${Date.now()}`, name: 'Logger', placeKind: 'freezer', placeId: incident.places.freezer('F1') });
    const version = async () => (await network.get(path).expect(200)).body.items.find((one: Thing) => one.id === made.id)?.version ?? 0;
    return { read: null, change: `${path}/${made.id}`, body: { name: 'By the door' }, version };
  };
  /** A new shelf or vehicle; only the layout shows its version. */
  const stored = async (path: 'shelves' | 'vehicles', made: object): Promise<Versioned> => {
    const { id: thingId } = await incident.create(`/v1/incidents/${id}/${path}`, made);
    const version = async () => {
      const body = await layout();
      const all: Thing[] = path === 'vehicles' ? body.vehicles : body.sites.flatMap((site: { shelves: Thing[] }) => site.shelves);
      return all.find((one) => one.id === thingId)?.version ?? 0;
    };
    return { read: null, change: `/v1/incidents/${id}/${path}/${thingId}`, body: { volumeL: 4_444 }, version };
  };
  return {
    changeIncident: read(`/v1/incidents/${id}`, { place: 'Upper bank' }),
    changeItemWords: read(`/v1/items/${incident.the('item')}`, { description: 'Quilt with a blue border' }),
    changeStation: await inLayout('stations', (body) => body.sites[0]?.stations[0])({ capacity: 7 }),
    changeFreezer: await inLayout('freezers', (body) => body.sites[0]?.freezers[0])({ volumeL: 444 }),
    changeDehumidifier: await inLayout('dehumidifiers', (body) => body.sites[0]?.dryingRooms[0]?.dehumidifiers[0])({ state: 'off' }),
    changePerson: await inLayout('people', (body) => body.people[0])({ respiratorFitUntil: '2028-01-31' }),
    changeSpecialist: await inLayout('specialists', (body) => body.specialists[0])({ field: 'paintings' }),
    changeSensor: await sensor(),
    changeShelf: await stored('shelves', { siteId: incident.places.site(), code: `S-${Date.now()}`, name: 'Shelf', zone: 'clean' }),
    changeVehicle: await stored('vehicles', { code: `V-${Date.now()}`, name: 'Van' }),
    changeShift: await inLayout('shifts', (body) => body.people[0]?.shifts[0])({ endsAt: '2026-05-09T13:00:00Z' }),
  };
}

interface Thing {
  id: string;
  version: number;
}

const CHANGES = ['changeIncident', 'changeSensor', 'changeItemWords', 'changeStation', 'changeFreezer', 'changeDehumidifier', 'changePerson', 'changeSpecialist', 'changeShelf', 'changeVehicle', 'changeShift'];

test('these are all the changes of versioned things that the document knows', () => {
  // What is made after a version was read (a split, a decision about the rule book) has its own tests.
  const conditional = Object.values(server.document.paths).flatMap(({ patch }) => [patch ?? {}] as unknown as { operationId: string; parameters?: { name: string; in: string; required?: boolean }[] }[])
    .filter((operation) => operation.parameters?.some((parameter) => parameter.in === 'header' && parameter.name === 'If-Match' && parameter.required === true));
  expect(conditional.map((operation) => operation.operationId).sort()).toEqual([...CHANGES].sort());
});

describe.each(CHANGES)('%s', (name) => {
  let thing: Versioned;
  beforeAll(async () => {
    const found = (await things())[name];
    if (!found) throw new Error(`nothing is prepared for ${name}`);
    thing = found;
  });

  async function refused(headers: Record<string, string>, status: number, code: string) {
    const before = await networkDigest(server.admin, network.networkId, ['idempotency_record']);
    const answer = await network.patch(thing.change, thing.body, headers).expect(status);
    expect(answer.body.code).toBe(code);
    expect(await networkDigest(server.admin, network.networkId, ['idempotency_record'])).toEqual(before);
    return answer;
  }

  test('without If-Match answers 428', async () => {
    await refused({}, 428, 'precondition_required');
  });

  test('with a stale version answers 412 with the current ETag', async () => {
    const version = await thing.version();
    const answer = await refused({ 'if-match': `"${version + 5}"` }, 412, 'version_stale');
    expect(answer.body.currentEtag).toBe(`"${version}"`);
  });

  test.each(['W/"1"', '*', '1', '"1", "2"', '"01"', '"x"', '""'])('with %s instead of one strong tag answers 412', async (tag) => {
    await refused({ 'if-match': tag }, 412, 'version_stale');
  });

  test('with the ETag that was read changes it, and answers the next ETag', async () => {
    const version = await thing.version();
    if (thing.read !== null) expect((await network.get(thing.read).expect(200)).headers['etag']).toBe(`"${version}"`);
    const changed = await network.patch(thing.change, thing.body, { 'if-match': `"${version}"` }).expect(200);
    expect(changed.headers['etag']).toBe(`"${version + 1}"`);
    expect(changed.body).toMatchObject({ version: version + 1 });
    await refused({ 'if-match': `"${version}"` }, 412, 'version_stale');
  });

  test('of 10 changes at the same moment with one ETag one is made and nine answer 412', async () => {
    const version = await thing.version();
    const answers = await Promise.all(Array.from({ length: 10 }, () => network.patch(thing.change, thing.body, { 'if-match': `"${version}"` })));
    expect(answers.map((answer) => answer.status).sort()).toEqual([200, ...Array.from({ length: 9 }, () => 412)]);
    expect(await thing.version()).toBe(version + 1);
  });
});
