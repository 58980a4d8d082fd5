/** Guessing status links: what a stranger gets, how long it takes, and what it costs a family that opens its own link meanwhile. */
import { randomBytes } from 'node:crypto';
import { Agent, get } from 'node:http';
import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { makeStatusLink } from '#platform';
import { startTestServer, type IncidentOnTest, type TestNetwork, type TestServer } from '#testing';
import { family, linkOf, openPage, thingOf } from '../api/support/families.js';

/** In the gate some thousands; `WRACKLINE_GUESSES=100000 npm run test:only -- tests/faults/guessed-links.spec.ts` plays all. */
const GUESSES = Number(process.env['WRACKLINE_GUESSES'] ?? 3_000);
const AT_ONCE = 32;

let server: TestServer;
let network: TestNetwork;
let incident: IncidentOnTest;
beforeAll(async () => {
  server = await startTestServer();
  network = await server.network();
  incident = await network.incident();
});
afterAll(() => server.close());

interface Got {
  status: number;
  ms: number;
  text: string;
}

/** From an address of this machine's own network, so that each caller is another one to the server. */
function open(path: string, agent: Agent | false, localAddress = '127.0.0.1'): Promise<Got> {
  const began = performance.now();
  return new Promise((resolve, reject) => {
    const request = get(`${server.url}${path}`, { agent, localAddress }, (answer) => {
      let text = '';
      answer.setEncoding('utf8');
      answer.on('data', (chunk: string) => void (text += chunk));
      answer.on('end', () => resolve({ status: answer.statusCode ?? 0, ms: performance.now() - began, text }));
    });
    request.on('error', reject);
  });
}

const percentile = (values: readonly number[], part: number): number => [...values].sort((a, b) => a - b)[Math.min(values.length - 1, Math.floor(values.length * part))] ?? NaN;

test('thousands of guesses open nothing, are slowed down or turned away, and a family opens its own link meanwhile from the same address', async () => {
  const household = await family(network, incident);
  await thingOf(network, incident, household);
  const { path } = await linkOf(network, household);
  const agent = new Agent({ keepAlive: true, maxSockets: AT_ONCE });
  const statuses = new Map<number, number>();
  const texts = new Set<string>();
  const own: number[] = [];
  const rssBefore = process.memoryUsage.rss();
  const began = performance.now();
  let made = 0;
  const guesser = async (): Promise<void> => {
    while (made < GUESSES) {
      made += 1;
      // Half of them know the network.
      const guess = made % 2 === 0 ? makeStatusLink(network.networkId).text : randomBytes(48).toString('base64url');
      const got = await open(`/s/${guess}`, agent);
      statuses.set(got.status, (statuses.get(got.status) ?? 0) + 1);
      texts.add(`${got.status} ${got.text}`);
    }
  };
  const looker = async (): Promise<void> => {
    while (made < GUESSES) {
      const got = await open(path, false);
      expect([got.status, got.text.includes('Your things')]).toEqual([200, true]);
      own.push(got.ms);
      await new Promise((go) => setTimeout(go, 25));
    }
  };
  await Promise.all([...Array.from({ length: AT_ONCE }, guesser), looker()]);
  agent.destroy();
  const seconds = (performance.now() - began) / 1_000;
  expect([...statuses.keys()].sort()).toEqual([404, 429]);
  // One page for all that open nothing, one for all that are turned away.
  expect(texts.size).toBe(2);
  const notFound = statuses.get(404) ?? 0;
  // 30 in a minute at once, and then no more than the waiting places let through each second.
  expect(notFound).toBeLessThanOrEqual(30 * (Math.ceil(seconds / 60) + 1) + 8 * (seconds + 2));
  expect(own.length).toBeGreaterThan(5);
  expect(percentile(own, 0.95)).toBeLessThan(1_000);
  process.stdout.write(`${made} guesses in ${seconds.toFixed(1)} s: opened 0, 404 ${notFound}, 429 ${statuses.get(429) ?? 0}; own link from the same address ${own.length} times, median ${percentile(own, 0.5).toFixed(0)} ms, p95 ${percentile(own, 0.95).toFixed(0)} ms; memory ${((process.memoryUsage.rss() - rssBefore) / 1e6).toFixed(0)} MB more\n`);
}, 60_000 + GUESSES * 12);

test('a link that is wrong, ended, taken back, of nobody or no link at all takes the same time', async () => {
  const household = await family(network, incident);
  const [ended, revoked] = [await linkOf(network, household, { validDays: 1 }), await linkOf(network, household)];
  await network.post(`/v1/status-links/${revoked.id}/revocation`, {}).expect(200);
  server.clock.set(server.clock.nowMs() + 2 * 24 * 3_600_000);
  const kinds: Record<string, () => string> = {
    ended: () => ended.path, revoked: () => revoked.path, wrong: () => `/s/${makeStatusLink(network.networkId).text}`, nobodys: () => `/s/${randomBytes(48).toString('base64url')}`, 'no link': () => '/s/hello',
  };
  const times: Record<string, number[]> = Object.fromEntries(Object.keys(kinds).map((kind) => [kind, []]));
  let caller = 0;
  for (let round = 0; round < 90; round += 1) {
    for (const [kind, path] of Object.entries(kinds)) {
      caller += 1;
      const got = await open(path(), false, `127.1.${caller >> 8}.${caller & 255}`);
      expect(got.status).toBe(404);
      if (round >= 10) times[kind]?.push(got.ms);
    }
  }
  const medians = Object.fromEntries(Object.entries(times).map(([kind, ms]) => [kind, percentile(ms, 0.5)]));
  process.stdout.write(`median ms: ${Object.entries(medians).map(([kind, ms]) => `${kind} ${ms.toFixed(2)}`).join(', ')}\n`);
  const [least, most] = [Math.min(...Object.values(medians)), Math.max(...Object.values(medians))];
  // The middle half of each overlaps with that of every other: nobody tells one from the other by a few looks.
  for (const one of Object.values(times)) for (const other of Object.values(times)) expect(percentile(one, 0.25)).toBeLessThanOrEqual(percentile(other, 0.75));
  expect(most).toBeLessThan(least * 1.5 + 1);
  await openPage(server, ended.path).expect(404);
}, 120_000);
