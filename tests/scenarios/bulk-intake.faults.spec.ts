import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { setTimeout as sleep } from 'node:timers/promises';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import { ROWS_PER_CHUNK, takeInItem, type Stores, type UnitOfWork } from '#application';
import { workerContext } from '#messaging';
import { newId } from '#platform';
import { startTestServer, TEST_MASTER_KEY, type IncidentOnTest, type TestNetwork, type TestServer } from '#testing';
import { counts, outboxOf, refusalsOf, reserve, rowsOf, submit, work } from '../api/submitIntakeImport/intake-files.js';

let server: TestServer;
beforeAll(async () => {
  server = await startTestServer();
});
afterAll(() => server.close());

/** A file of sound rows, three things to a household. */
async function longFile(network: TestNetwork, incident: IncidentOnTest, rows: number): Promise<{ importId: string; tags: string[] }> {
  const tags = await reserve(network, incident, rows);
  const file = `tag,household,object,material,consentTreat\n${tags.map((tag, at) => `${tag},HH-${Math.floor(at / 3)},Thing ${at},quilt,yes`).join('\n')}\n`;
  const { body } = await submit(network, incident, file).expect(201);
  return { importId: body.id as string, tags };
}

async function expectEachOnce(network: TestNetwork, importId: string, tags: string[]): Promise<void> {
  const { body } = await network.get(`/v1/intake-imports/${importId}`).expect(200);
  expect(body).toMatchObject({ state: 'done', rowsDone: tags.length, accepted: tags.length, refused: 0, repaired: 0, alreadyThere: 0 });
  const households = Math.ceil(tags.length / 3);
  expect(await counts(server, network)).toMatchObject({ item: tags.length, custody_event: tags.length, assessment: tags.length, triage_result: tags.length, household: households, household_contact: households, consent: households, intake_import_row: tags.length });
  const { rows } = await server.admin.query<{ same: boolean }>('select i.description = \'Thing \' || (r.row_number - 2) as same from intake_import_row r join item i on i.id = r.item_id where r.import_id = $1', [importId]);
  expect(rows.length).toBe(tags.length);
  expect(rows.every(({ same }) => same)).toBe(true);
  expect((await outboxOf(server, importId)).every(({ doneAt }) => doneAt !== null)).toBe(true);
}

describe('a worker that dies', () => {
  test('killed three times with SIGKILL in the middle of a file, no row is lost and none is done twice', async () => {
    const network = await server.network();
    const incident = await network.incident();
    const { importId, tags } = await longFile(network, incident, 1_000);
    const [outbox] = await outboxOf(server, importId);
    const done = async () => (await server.admin.query<{ rows_done: number }>('select rows_done from intake_import where id = $1', [importId])).rows[0]?.rows_done ?? 0;
    const killedAt: number[] = [];
    for (const chunk of [1, 2, 3]) {
      // It stands between two commits until it is killed: some rows of the next chunk are written and not committed.
      const input = JSON.stringify({ url: server.database.appUrl, masterKey: TEST_MASTER_KEY, networkId: network.networkId, outboxId: outbox?.id, importId, nowMs: server.clock.nowMs(), standsAfter: ROWS_PER_CHUNK + 20 * chunk });
      const child = spawn(process.execPath, [fileURLToPath(new URL('./bulk-intake.worker.mjs', import.meta.url)), input], { stdio: ['ignore', 'pipe', 'inherit'] });
      const ended = once(child, 'exit');
      await Promise.race([once(child.stdout, 'data'), ended]);
      child.kill('SIGKILL');
      expect((await ended)[1]).toBe('SIGKILL');
      killedAt.push(await done());
    }
    expect(killedAt).toEqual([1, 2, 3].map((chunks) => chunks * ROWS_PER_CHUNK));
    await work(server, network, importId);
    await expectEachOnce(network, importId, tags);
  }, 300_000);

  test('two workers on one file at once do each row once', async () => {
    const network = await server.network();
    const incident = await network.incident();
    const { importId, tags } = await longFile(network, incident, 450);
    await Promise.all([work(server, network, importId), work(server, network, importId)]);
    await expectEachOnce(network, importId, tags);
    await work(server, network, importId);
    await expectEachOnce(network, importId, tags);
  }, 300_000);
});

/** The unit of work of the server, to put something around one of its methods. */
function passing(): UnitOfWork {
  const { unitOfWork } = server;
  return { read: (context, task) => unitOfWork.read(context, task), write: (context, task) => unitOfWork.write(context, task), command: (context, identity, task) => unitOfWork.command(context, identity, task) };
}

describe('while a file is worked through', () => {
  /** A tablet's intake of one thing, held open between its writes and its commit. */
  async function heldOpen(network: TestNetwork, incident: IncidentOnTest, tag: string, householdId: string, description: string): Promise<{ commit(): Promise<unknown> }> {
    let release = (): void => undefined;
    const gate = new Promise<void>((resolve) => (release = resolve));
    let written = (): void => undefined;
    const ready = new Promise<void>((resolve) => (written = resolve));
    const context = workerContext(network.networkId, 'tablet', '');
    const open = server.unitOfWork.write(context, async (stores) => {
      await takeInItem(stores, { context, env: { nowMs: server.clock.nowMs(), newId: () => newId() } }, {
        incidentId: incident.id, householdId, siteId: incident.site(), tag, count: 1, lot: false, description, familyWords: '', photographRef: '', materialClass: 'unknown', sizeClass: 'garment',
        significance: 'valued', arrivedAtMs: null, wettedAtMs: null, water: null, to: null,
      });
      written();
      await gate;
    });
    await ready;
    return { commit: () => (release(), open) };
  }

  test.each([
    ['another thing: that row is refused, all others go in', 'HH-9', 'Teddy', ['refused', 'accepted'], [['tag:tag_taken'], []]],
    ['the very thing of the row: it is already there', 'HH-1', 'quilt', ['already-there', 'accepted'], [[], []]],
  ])('a tablet is just tying the tag of a row to %s', async (_name, code, description, outcomes, refusals) => {
    const network = await server.network();
    const incident = await network.incident();
    const [a = '', b = ''] = await reserve(network, incident, 2);
    const { body: household } = await network.post(`/v1/incidents/${incident.id}/households`, { code, contact: { name: 'Contact nine' } }).expect(201);
    const { body } = await submit(network, incident, `tag,household,object\n${a},HH-1,Quilt\n${b},HH-1,Shirt\n`).expect(201);
    const tablet = await heldOpen(network, incident, a, household.id, description);
    const worked = work(server, network, body.id);
    await sleep(300);
    await tablet.commit();
    await worked;
    const rows = await rowsOf(network, body.id);
    expect(rows.map(({ outcome }) => outcome)).toEqual(outcomes);
    expect(rows.map(refusalsOf)).toEqual(refusals);
    expect(await counts(server, network)).toMatchObject({ item: 2, custody_event: 2, household: code === 'HH-9' ? 2 : 1 });
  });

  test('the intake refuses a row after it was decided for: the transaction is undone, the row refused, and the others go in once', async () => {
    const network = await server.network();
    const incident = await network.incident();
    const [a = '', b = '', c = ''] = await reserve(network, incident, 3);
    const { body } = await submit(network, incident, `tag,household,object\n${a},HH-1,Quilt\n${b},HH-2,Shirt\n${c},HH-1,Map\n`).expect(201);
    const refusing: UnitOfWork = {
      ...passing(),
      write: (context, task) =>
        server.unitOfWork.write(context, (stores: Stores) => {
          const tags = Object.create(stores.tags) as Stores['tags'];
          tags.tie = async (code, ...rest) => code !== b.replaceAll('-', '') && stores.tags.tie(code, ...rest);
          return task({ ...stores, tags });
        }),
    };
    await work(server, network, body.id, refusing);
    const rows = await rowsOf(network, body.id);
    expect(rows.map(({ outcome }) => outcome)).toEqual(['accepted', 'refused', 'accepted']);
    expect(refusalsOf(rows[1])).toEqual(['tag:tag_taken']);
    expect(await counts(server, network)).toMatchObject({ item: 2, custody_event: 2, household: 1, household_contact: 1, intake_import_row: 3 });
  });

  test("the worker's clock runs an hour behind that of the API: nothing is refused for it", async () => {
    const network = await server.network();
    const incident = await network.incident();
    const [a = ''] = await reserve(network, incident, 1);
    const { body } = await submit(network, incident, `tag,household,object\n${a},HH-1,Quilt\n`).expect(201);
    const nowMs = server.clock.nowMs();
    server.clock.set(nowMs - 3_600_000);
    await work(server, network, body.id).finally(() => server.clock.set(nowMs));
    expect((await rowsOf(network, body.id)).map(({ outcome }) => outcome)).toEqual(['accepted']);
  });

  test('the incident is closed: the rest of the rows is refused with the reason', async () => {
    const network = await server.network();
    const incident = await network.incident();
    const [a = ''] = await reserve(network, incident, 1);
    const { body } = await submit(network, incident, `tag,household,object\n${a},HH-1,Quilt\n`).expect(201);
    await network.patch(`/v1/incidents/${incident.id}`, { state: 'closed' }, { 'if-match': '"1"' }).expect(200);
    await work(server, network, body.id);
    expect((await rowsOf(network, body.id)).map(refusalsOf)).toEqual([[':incident_closed']]);
  });

  test('the network has a time zone that is none: the import fails with a sentence, and goes on when that is put right', async () => {
    const network = await server.network();
    const incident = await network.incident();
    const [a = ''] = await reserve(network, incident, 1);
    const file = `tag,household,object\n${a},HH-1,Quilt\n`;
    const { body } = await submit(network, incident, file).expect(201);
    const setZone = (zone: string) => server.admin.query('update network set time_zone = $2 where network_id = $1', [network.networkId, zone]);
    await setZone('Nowhere/Land');
    await work(server, network, body.id);
    const failed = await network.get(`/v1/intake-imports/${body.id}`).expect(200);
    expect(failed.body).toMatchObject({ state: 'failed', failure: expect.stringContaining('Nowhere/Land'), rowsDone: 0 });
    await setZone('UTC');
    await submit(network, incident, file).expect(201);
    await work(server, network, body.id);
    expect((await rowsOf(network, body.id)).map(({ outcome }) => outcome)).toEqual(['accepted']);
  });

  test('progress can be read between two chunks', async () => {
    const network = await server.network();
    const incident = await network.incident();
    const { importId, tags } = await longFile(network, incident, ROWS_PER_CHUNK + 1);
    let between: unknown;
    let chunks = 0;
    const watching: UnitOfWork = {
      ...passing(),
      async write(context, task) {
        const result = await server.unitOfWork.write(context, task);
        chunks += 1;
        if (chunks === 1) between = (await network.get(`/v1/intake-imports/${importId}`)).body;
        return result;
      },
    };
    await work(server, network, importId, watching);
    expect(between).toMatchObject({ state: 'running', rowsTotal: tags.length, rowsDone: ROWS_PER_CHUNK, accepted: ROWS_PER_CHUNK, finishedAt: null });
    expect(chunks).toBe(2);
  });
});
