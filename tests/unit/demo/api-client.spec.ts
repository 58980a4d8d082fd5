import { createServer, type IncomingMessage, type Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import { afterEach, describe, expect, test } from '@jest/globals';
import { ApiClient, ApiRefusal, eachOf, type Traffic } from '../../../apps/ops/src/demo/api-client.js';

type Answer = { status: number; body?: object; headers?: Record<string, string> } | 'cut';
interface Seen {
  key: string | undefined;
  body: string;
  path: string | undefined;
}

let server: Server | null = null;
afterEach(() => new Promise<void>((resolve) => (server === null ? resolve() : server.close(() => resolve()))));

/** A server that answers in the given order and writes down what it was sent. */
async function answering(answers: Answer[]): Promise<{ url: string; seen: Seen[] }> {
  const seen: Seen[] = [];
  server = createServer((request, reply) => {
    void read(request).then((body) => {
      seen.push({ key: request.headers['idempotency-key'] as string | undefined, body, path: request.url });
      const answer = answers[seen.length - 1] ?? 'cut';
      if (answer === 'cut') return request.socket.destroy();
      reply.writeHead(answer.status, { 'content-type': 'application/json', connection: 'close', ...answer.headers }).end(JSON.stringify(answer.body ?? {}));
    });
  });
  await new Promise<void>((resolve) => server?.listen(0, '127.0.0.1', resolve));
  return { url: `http://127.0.0.1:${(server.address() as AddressInfo).port}`, seen };
}

async function read(request: IncomingMessage): Promise<string> {
  let body = '';
  for await (const chunk of request) body += String(chunk);
  return body;
}

const traffic = (): Traffic => ({ requests: 0, sentAgain: 0, replayed: 0 });

describe('the client of the demo', () => {
  test('a command goes on under one Idempotency-Key until its answer is definite', async () => {
    const { url, seen } = await answering(['cut', { status: 503 }, { status: 429 }, { status: 409, body: { code: 'command_running' } }, { status: 201, body: { id: 'x' }, headers: { 'idempotency-replayed': 'true' } }]);
    const counts = traffic();
    const answer = await new ApiClient([url], 'wk_test', counts).post<{ id: string }>('/v1/things', { name: 'a' });
    expect(answer).toEqual({ status: 201, body: { id: 'x' }, replayed: true });
    expect(seen).toHaveLength(5);
    expect(new Set(seen.map(({ key }) => key)).size).toBe(1);
    expect(new Set(seen.map(({ body }) => body))).toEqual(new Set(['{"name":"a"}']));
    expect(counts).toEqual({ requests: 5, sentAgain: 4, replayed: 1 });
  });

  test('two commands never share a key', async () => {
    const { url, seen } = await answering([{ status: 201 }, { status: 201 }]);
    const api = new ApiClient([url], 'wk_test', traffic());
    await api.post('/v1/things', {});
    await api.post('/v1/things', {});
    expect(seen[0]?.key).not.toBe(seen[1]?.key);
  });

  test.each([404, 409, 412, 422, 500])('a definite %d is thrown at once with its code, not sent again', async (status) => {
    const { url, seen } = await answering([{ status, body: { code: 'some_code', detail: 'Look again.' } }]);
    const sending = new ApiClient([url], 'wk_test', traffic()).post('/v1/things', {});
    await expect(sending).rejects.toBeInstanceOf(ApiRefusal);
    await expect(sending).rejects.toMatchObject({ status, code: 'some_code', detail: 'Look again.' });
    expect(seen).toHaveLength(1);
  });

  test('a list is read to its last page', async () => {
    const { url, seen } = await answering([{ status: 200, body: { items: [1, 2], nextCursor: 'a/b' } }, { status: 200, body: { items: [3], nextCursor: null } }]);
    expect(await new ApiClient([url], 'wk_test', traffic()).list('/v1/things?x=1')).toEqual([1, 2, 3]);
    expect(seen.map(({ path }) => path)).toEqual(['/v1/things?x=1&limit=200', '/v1/things?x=1&limit=200&cursor=a%2Fb']);
  });
});

describe('work in parallel', () => {
  test('never more at once than allowed, each entry once', async () => {
    let [now, most] = [0, 0];
    const done: number[] = [];
    await eachOf(Array.from({ length: 40 }, (_, index) => index), 7, async (entry) => {
      most = Math.max(most, (now += 1));
      await new Promise((resolve) => setTimeout(resolve, entry % 3));
      done.push(entry);
      now -= 1;
    });
    expect(most).toBe(7);
    expect(done.sort((a, b) => a - b)).toEqual(Array.from({ length: 40 }, (_, index) => index));
  });

  test('a failure ends it, after what is under way has ended', async () => {
    let ended = 0;
    const work = eachOf([1, 2, 3, 4, 5, 6], 2, async (entry) => {
      await new Promise((resolve) => setTimeout(resolve, 5));
      ended += 1;
      if (entry === 1) throw new Error('stop');
    });
    await expect(work).rejects.toThrow('stop');
    expect(ended).toBe(2);
  });
});
