import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import { giveUpIntakeImport } from '#application';
import { workerContext } from '#messaging';
import { newId } from '#platform';
import { startTestServer, type TestServer } from '#testing';
import { CSV, outboxOf, reserve, submit, take, work } from './intake-files.js';

let server: TestServer;
beforeAll(async () => {
  server = await startTestServer();
});
afterAll(() => server.close());

const FILE = 'tag,household\nA,HH-1\n';

describe('submitIntakeImport answers 200', () => {
  test('the same file again, with a fresh key, answers the earlier import and queues nothing', async () => {
    const network = await server.network();
    const incident = await network.incident();
    const first = await submit(network, incident, FILE).expect(201);
    const again = await submit(network, incident, FILE).expect(200);
    expect(again.body).toEqual(first.body);
    expect(again.headers['idempotency-replayed']).toBeUndefined();
    expect(await outboxOf(server, first.body.id)).toHaveLength(1);
  });

  test('ten sent at once are one import', async () => {
    const network = await server.network();
    const incident = await network.incident();
    const answers = await Promise.all(Array.from({ length: 10 }, () => submit(network, incident, FILE)));
    expect(answers.map(({ status }) => status).sort()).toEqual([200, 200, 200, 200, 200, 200, 200, 200, 200, 201]);
    expect(new Set(answers.map(({ body }) => body.id)).size).toBe(1);
    expect(await outboxOf(server, answers[0]?.body.id)).toHaveLength(1);
  });

  test('the same command again is replayed word for word, as the 201 that it was', async () => {
    const network = await server.network();
    const incident = await network.incident();
    const headers = { ...CSV, 'idempotency-key': newId() };
    const first = await submit(network, incident, FILE, headers).expect(201);
    const again = await submit(network, incident, FILE, headers).expect(201);
    expect(again.body).toEqual(first.body);
    expect(again.headers['idempotency-replayed']).toBe('true');
    const other = await submit(network, incident, `${FILE}B,HH-2\n`, headers).expect(422);
    expect(other.body.code).toBe('idempotency_key_reused');
  });

  test('after the import is done the answer shows what became of it', async () => {
    const network = await server.network();
    const incident = await network.incident();
    await take(server, network, incident, FILE);
    const again = await submit(network, incident, FILE).expect(200);
    expect(again.body).toMatchObject({ state: 'done', refused: 1 });
  });

  test('an import that was given up goes on where it stopped when its file is sent again', async () => {
    const network = await server.network();
    const incident = await network.incident();
    const [tag] = await reserve(network, incident, 1);
    const file = `tag,household,object\n${tag},HH-1,Quilt\n`;
    const first = await submit(network, incident, file).expect(201);
    const [outbox] = await outboxOf(server, first.body.id);
    await giveUpIntakeImport(server.unitOfWork, { id: outbox?.id ?? '', subjectId: first.body.id }, workerContext(network.networkId, 'test', ''), { nowMs: server.clock.nowMs(), newId: () => newId() });
    const failed = await network.get(`/v1/intake-imports/${first.body.id}`).expect(200);
    expect(failed.body).toMatchObject({ state: 'failed', failure: expect.stringContaining('Send the same file again') });
    const again = await submit(network, incident, file).expect(201);
    expect(again.body).toMatchObject({ id: first.body.id, state: 'queued', failure: null });
    await work(server, network, first.body.id);
    const done = await network.get(`/v1/intake-imports/${first.body.id}`).expect(200);
    expect(done.body).toMatchObject({ state: 'done', rowsDone: 1, refused: 0 });
  });
});
