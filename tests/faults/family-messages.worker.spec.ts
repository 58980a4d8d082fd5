/** The whole way of a question: intake, outbox, queue, the worker program, a mail server, the link in the mail, the answer. Neither log nor job holds anything of the family. */
import { type ChildProcess, fork } from 'node:child_process';
import { once } from 'node:events';
import type { AddressInfo } from 'node:net';
import { join } from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';
import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { SMTPServer } from 'smtp-server';
import { projectRoot } from '#platform';
import { createEmptyDatabase, startTestServer, TEST_MASTER_KEY, type TestServer } from '#testing';
import { family, openPage, openQuestions, sendForm, thingOf } from '../api/support/families.js';

let server: TestServer;
let queue: Awaited<ReturnType<typeof createEmptyDatabase>>;
let worker: ChildProcess | null = null;
let log = '';
const mails: string[] = [];
const smtp = new SMTPServer({
  authOptional: true, disabledCommands: ['AUTH', 'STARTTLS'], logger: false,
  onData(stream, _session, callback) {
    let text = '';
    stream.on('data', (chunk: Buffer) => void (text += chunk.toString('utf8')));
    stream.on('end', () => {
      mails.push(text);
      callback();
    });
  },
});

beforeAll(async () => {
  server = await startTestServer();
  queue = await createEmptyDatabase();
  smtp.listen(0, '127.0.0.1');
  await once(smtp.server, 'listening');
  const env = {
    PATH: process.env['PATH'] ?? '', WRACKLINE_LOG: 'debug', DATABASE_URL: server.database.appUrl, DATABASE_RELAY_URL: server.database.relayUrl, QUEUE_DATABASE_URL: queue.url, WRACKLINE_MASTER_KEY: TEST_MASTER_KEY,
    WRACKLINE_SMTP_URL: `smtp://127.0.0.1:${(smtp.server.address() as AddressInfo).port}`, WRACKLINE_MAIL_FROM: 'salvage@things.example', WRACKLINE_PUBLIC_URL: 'https://things.example', WRACKLINE_QUIET_HOURS: '0-0',
  };
  worker = fork(join(projectRoot(), 'dist/apps/worker/src/main.js'), [], { env, execArgv: [], stdio: ['ignore', 'pipe', 'pipe', 'ipc'] });
  for (const stream of [worker.stdout, worker.stderr]) stream?.on('data', (chunk: Buffer) => void (log += chunk.toString('utf8')));
  await Promise.race([once(worker, 'message'), once(worker, 'exit').then(() => Promise.reject(new Error(`the worker ended before it was ready: ${log}`)))]);
}, 200_000);
afterAll(async () => {
  if (worker !== null && worker.exitCode === null) {
    const gone = once(worker, 'exit');
    worker.kill('SIGTERM');
    await gone;
  }
  await new Promise<void>((done) => smtp.close(() => done()));
  await queue.drop();
  await server.close();
});

test('a question that the service asks reaches the family once by mail, and is answered by the link in it', async () => {
  // The worker goes by real time, and so does the test: what it asks must lie ahead of both.
  server.clock.set(Date.now());
  const network = await server.network();
  const incident = await network.incident();
  const household = await family(network, incident, { language: 'es', email: 'canary-address@families.example' });
  await thingOf(network, incident, household, { description: 'Canary words' });
  // The pause in which questions gather is not waited for.
  await server.admin.query("update outbox set leased_until = null where kind = 'family.look' and done_at is null");
  for (let tries = 0; mails.length === 0 && tries < 1_800; tries += 1) await sleep(50);
  expect(mails).toHaveLength(1);
  const mail = (mails[0] ?? '').replaceAll(/=\r\n/g, '');
  expect(mail).toMatch(/^To: canary-address@families\.example\r$/m);
  expect(mail).toMatch(/^Message-ID: <[0-9a-f-]{36}@things\.example>\r$/m);
  const path = /https:\/\/things\.example(\/s\/[A-Za-z0-9_-]{64})/.exec(mail)?.[1] ?? '';
  expect((await openPage(server, path).expect(200)).text).toContain('Lo que nos gustaría preguntarle');
  const [question] = await openQuestions(network, incident, household.id);
  expect(question).toMatchObject({ state: 'open', toldAt: expect.any(String) });
  await sendForm(server, `${path}/answers`, { question: question?.id ?? '', answer: 'yes' }).expect(303);
  expect((await openQuestions(network, incident, household.id))[0]).toMatchObject({ state: 'answered', answer: 'yes' });
  const secret = path.slice('/s/'.length);
  for (const canary of ['canary-address', 'Canary words', secret, household.name]) expect([canary, log.includes(canary)]).toEqual([canary, false]);
  const { rows: jobs } = await server.admin.query<{ n: number }>("select count(*)::int as n from outbox t where t::text like '%canary%' or t::text like '%' || $1 || '%'", [secret]);
  expect(jobs[0]?.n).toBe(0);
  await sleep(1_000);
  expect(mails).toHaveLength(1);
}, 200_000);
