/** Messages to families against a real mail server that fails at random, and against one that is away for a day: none is sent twice, none is lost. */
import { once } from 'node:events';
import type { AddressInfo } from 'node:net';
import { setTimeout as sleep } from 'node:timers/promises';
import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { uniformInt } from 'pure-rand/distribution/uniformInt';
import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus';
import { SMTPServer, type SMTPServerSession } from 'smtp-server';
import { queueMessage, SENDING_RULES, takeInHousehold, type CallContext, type MessageParts, type MessageSender } from '#application';
import { freePort, makeStatusLink, newId } from '#platform';
import { startTestServer, type IncidentOnTest, type TestNetwork, type TestServer } from '#testing';
import { smtpSender } from '../../apps/worker/src/senders/smtp-sender.js';
import { mattersOf, openPage, sendMessages } from '../api/support/families.js';

let server: TestServer;
let network: TestNetwork;
let incident: IncidentOnTest;
const NOON_MS = Date.parse('2026-05-09T12:00:00Z');
const MINUTE_MS = 60_000;
/** Of a sender whose server falls silent now and then; what a busy machine makes of it is one more fault. */
const TIMEOUT_MS = 700;
/** Of a sender whose server always answers: no pause of a busy machine may be taken for silence. */
const PATIENT_MS = 60_000;

beforeAll(async () => {
  server = await startTestServer();
});
afterAll(() => server.close());

type Fault = 'none' | 'refuse-connection' | 'refuse-for-now' | 'drop-before-data' | 'drop-after-data' | 'slow' | 'silent-after-data' | 'reset-in-data';
const FAULTS: readonly Fault[] = ['refuse-connection', 'refuse-for-now', 'drop-before-data', 'drop-after-data', 'slow', 'silent-after-data', 'reset-in-data'];

interface MailServer {
  port: number;
  /** How often each Message-ID was taken whole. */
  taken: Map<string, number>;
  bodies: string[];
  met: Map<Fault, number>;
  close(): Promise<void>;
}

/** A mail server that meets a fault with some chance at every connection. */
async function mailServer(chance: (below: number) => number, faultPercent: number, port = 0): Promise<MailServer> {
  const taken = new Map<string, number>();
  const met = new Map<Fault, number>();
  const bodies: string[] = [];
  const faultOf = new Map<string, Fault>();
  const drop = (session: SMTPServerSession): void => {
    for (const connection of smtp.connections as Set<{ id: string; _socket: { destroy(): void } }>) if (connection.id === session.id) connection._socket.destroy();
  };
  const smtp = new SMTPServer({
    authOptional: true, disabledCommands: ['AUTH', 'STARTTLS'], logger: false,
    onConnect(session, callback) {
      const fault = chance(100) < faultPercent ? (FAULTS[chance(FAULTS.length)] ?? 'none') : 'none';
      met.set(fault, (met.get(fault) ?? 0) + 1);
      faultOf.set(session.id, fault);
      if (fault === 'refuse-connection') return callback(Object.assign(new Error('No service now'), { responseCode: 421 }));
      return callback();
    },
    onRcptTo(_address, session, callback) {
      const fault = faultOf.get(session.id);
      if (fault === 'refuse-for-now') return callback(Object.assign(new Error('Greylisted'), { responseCode: 451 }));
      if (fault === 'drop-before-data') return drop(session);
      return callback();
    },
    onData(stream, session, callback) {
      const fault = faultOf.get(session.id);
      let text = '';
      stream.on('data', (chunk: Buffer) => {
        text += chunk.toString('utf8');
        if (fault === 'reset-in-data') drop(session);
      });
      stream.on('end', () => {
        if (fault === 'reset-in-data') return;
        const id = /^Message-ID: <([^@>]+)@/im.exec(text)?.[1] ?? '';
        taken.set(id, (taken.get(id) ?? 0) + 1);
        bodies.push(text);
        if (fault === 'drop-after-data') return drop(session);
        if (fault === 'silent-after-data') return void setTimeout(() => callback(), 4 * TIMEOUT_MS).unref();
        if (fault === 'slow') return void setTimeout(() => callback(), TIMEOUT_MS / 3);
        callback();
      });
    },
  });
  smtp.on('error', () => undefined);
  smtp.listen(port, '127.0.0.1');
  await once(smtp.server, 'listening');
  return { port: (smtp.server.address() as AddressInfo).port, taken, bodies, met, close: () => new Promise((done) => smtp.close(() => done())) };
}

/** Families with an address of their own, each with one message in the queue. */
async function families(count: number): Promise<string[]> {
  network = await server.network();
  incident = await network.incident();
  const context: CallContext = { networkId: network.networkId, incidentLimit: null, principalId: newId(), requestId: 'test', traceparent: '' };
  const call = { context, env: { nowMs: server.clock.nowMs(), newId: () => newId() } };
  return server.unitOfWork.write(context, async (stores) => {
    const ids: string[] = [];
    for (let n = 0; n < count; n += 1) {
      const contact = { name: `Family ${n}`, phone: '', email: `family-${n}@families.example`, address: '' };
      const { household } = await takeInHousehold(stores, call, { incidentId: incident.id, code: `M-${n}`, language: n % 2 === 0 ? 'en' : 'es', contact, consents: [] });
      const message = await queueMessage(stores, call, { incidentId: incident.id, householdId: household.id, template: 'ready', subjectId: household.id });
      ids.push(message?.id ?? '');
    }
    return ids;
  });
}

function partsFor(email: MessageSender): MessageParts {
  return { senders: { email, sms: null }, rules: SENDING_RULES, links: { publicUrl: 'https://things.example', standsMs: 14 * 24 * 3_600_000, make: makeStatusLink }, chance: () => 0.5 };
}

const sender = (port: number, timeoutMs = PATIENT_MS) => smtpSender({ host: '127.0.0.1', port, secure: false, requireTls: false, user: null, password: null, from: 'salvage@things.example', idHost: 'things.example', timeoutMs });

async function states(): Promise<Map<string, { state: string; tries: number; failure: string | null }>> {
  const { rows } = await server.admin.query<{ id: string; state: string; tries: number; failure: string | null }>('select id, state, tries, failure from family_message where network_id = $1', [network.networkId]);
  return new Map(rows.map((row) => [row.id, row]));
}

function chances(seed: number): (below: number) => number {
  const random = xoroshiro128plus(seed);
  return (below) => uniformInt(random, 0, below - 1);
}

const tally = <T extends string>(values: Iterable<T>): Record<string, number> => {
  const counts: Record<string, number> = {};
  for (const value of values) counts[value] = (counts[value] ?? 0) + 1;
  return counts;
};

test('500 messages through a server that fails in half of its connections: each was taken once, or waits, or is said to be unclear', async () => {
  server.clock.set(NOON_MS);
  const ids = await families(500);
  const mail = await mailServer(chances(20261127), 50);
  const dies = chances(7);
  const real = sender(mail.port, TIMEOUT_MS);
  // Now and then the worker itself dies in the middle, before or after the server has it.
  const mortal: MessageSender = {
    async send(message) {
      const fate = dies(100);
      if (fate === 0) throw new Error('the worker was killed before it sent');
      const outcome = await real.send(message);
      if (fate === 1) throw new Error('the worker was killed before it wrote down that it had sent');
      return outcome;
    },
  };
  let runs = 0;
  try {
    for (let round = 0; round < 12; round += 1) {
      const outcomes = await sendMessages(server, network.networkId, partsFor(mortal), { atOnce: 5, dies: true });
      runs += outcomes.length;
      if (outcomes.length === 0) break;
      server.clock.set(server.clock.nowMs() + 30 * MINUTE_MS);
    }
    const now = await states();
    expect(now.size).toBe(500);
    for (const id of ids) {
      const message = now.get(id);
      const taken = mail.taken.get(id) ?? 0;
      expect([id, taken <= 1]).toEqual([id, true]);
      expect([id, message?.state, taken]).toEqual([id, message?.state, message?.state === 'sent' ? 1 : message?.state === 'unclear' ? taken : 0]);
    }
    const counted = tally([...now.values()].map(({ state }) => state));
    const unclear = ids.filter((id) => now.get(id)?.state === 'unclear');
    const arrivedUnclear = unclear.filter((id) => mail.taken.has(id)).length;
    // Every one of which nobody knows is shown to a person.
    const { rows } = await server.admin.query<{ message_id: string }>("select message_id from family_matter where network_id = $1 and kind = 'message-unclear' and settled_at is null", [network.networkId]);
    expect(rows.map((row) => row.message_id).sort()).toEqual([...unclear].sort());
    expect((counted['sent'] ?? 0) + (counted['unclear'] ?? 0) + (counted['waiting'] ?? 0)).toBe(500);
    expect(counted['sent'] ?? 0).toBeGreaterThan(300);
    for (const fault of FAULTS) expect([fault, (mail.met.get(fault) ?? 0) > 5]).toEqual([fault, true]);
    process.stdout.write(`500 messages: ${JSON.stringify(counted)}; of the unclear ${arrivedUnclear} had arrived; taken twice: 0; runs ${runs}; connections ${JSON.stringify(Object.fromEntries(mail.met))}\n`);
    // Nothing of a family in what the queue holds.
    const { rows: queue } = await server.admin.query<{ n: number }>("select count(*)::int as n from outbox t where network_id = $1 and t::text like '%families.example%'", [network.networkId]);
    expect(queue[0]?.n).toBe(0);
  } finally {
    await mail.close();
  }
}, 400_000);

test('a link in a message opens the page, in the language of the family, and the text holds no name', async () => {
  const mail = await mailServer(() => 99, 0);
  try {
    server.clock.set(NOON_MS);
    await families(2);
    await sendMessages(server, network.networkId, partsFor(sender(mail.port)));
    expect(mail.bodies).toHaveLength(2);
    const texts = mail.bodies.map(decode);
    for (const [index, text] of texts.sort((a, b) => Number(a.includes('Algunas')) - Number(b.includes('Algunas'))).entries()) {
      expect(text).toContain(index === 0 ? 'Some of your things are ready' : 'Algunas de sus cosas');
      expect(text).not.toMatch(/Family \d/);
      const path = /https:\/\/things\.example(\/s\/[A-Za-z0-9_-]{64})/.exec(text)?.[1] ?? '';
      expect((await openPage(server, path).expect(200)).text).toContain(index === 0 ? 'Your things' : 'Sus cosas');
    }
  } finally {
    await mail.close();
  }
}, 200_000);

/** The body of a mail, quoted-printable undone. */
function decode(mail: string): string {
  const [, body = ''] = mail.split(/\r\n\r\n/s, 2).length === 2 ? [mail.slice(0, mail.indexOf('\r\n\r\n')), mail.slice(mail.indexOf('\r\n\r\n') + 4)] : [];
  const bytes = body.replaceAll(/=\r\n/g, '').replaceAll(/=([0-9A-F]{2})/g, (_, hex: string) => String.fromCharCode(Number.parseInt(hex, 16)));
  return Buffer.from(bytes, 'latin1').toString('utf8');
}

test('a mail server that is away for a day: they wait with growing pauses, nothing at night, and then go out once each', async () => {
  const port = await freePort();
  server.clock.set(NOON_MS);
  const ids = await families(40);
  for (let hour = 0; hour < 24; hour += 1) {
    await sendMessages(server, network.networkId, partsFor(sender(port)));
    server.clock.set(server.clock.nowMs() + 60 * MINUTE_MS);
  }
  const away = await states();
  expect(tally([...away.values()].map(({ state }) => state))).toEqual({ waiting: 40 });
  const tries = [...away.values()].map((message) => message.tries);
  expect(Math.max(...tries)).toBeLessThan(14);
  expect(Math.min(...tries)).toBeGreaterThan(5);
  const mail = await mailServer(() => 99, 0, port);
  try {
    for (let round = 0; round < 4; round += 1) {
      await sendMessages(server, network.networkId, partsFor(sender(port)));
      server.clock.set(server.clock.nowMs() + 60 * MINUTE_MS);
    }
    expect(ids.map((id) => mail.taken.get(id))).toEqual(ids.map(() => 1));
    expect(tally([...(await states()).values()].map(({ state }) => state))).toEqual({ sent: 40 });
    await sendMessages(server, network.networkId, partsFor(sender(port)));
    expect(mail.bodies).toHaveLength(40);
    process.stdout.write(`40 messages, server away for 24 h: tries ${Math.min(...tries)} to ${Math.max(...tries)}, then each taken once\n`);
  } finally {
    await mail.close();
  }
}, 300_000);

test('an address that the server refuses is given up for a person; nothing goes out in quiet hours', async () => {
  const smtp = new SMTPServer({ authOptional: true, disabledCommands: ['AUTH', 'STARTTLS'], onRcptTo: (_address, _session, callback) => callback(Object.assign(new Error('No such user'), { responseCode: 550 })) });
  smtp.listen(0, '127.0.0.1');
  await once(smtp.server, 'listening');
  try {
    server.clock.set(Date.parse('2026-05-09T23:00:00Z'));
    const [id = ''] = await families(1);
    const parts = partsFor(sender((smtp.server.address() as AddressInfo).port));
    expect(await sendMessages(server, network.networkId, parts)).toEqual(['later']);
    expect((await states()).get(id)).toMatchObject({ state: 'waiting', failure: 'quiet-hours', tries: 0 });
    server.clock.set(Date.parse('2026-05-10T08:00:00Z'));
    expect(await sendMessages(server, network.networkId, parts)).toEqual(['refused']);
    expect((await states()).get(id)).toMatchObject({ state: 'given-up', failure: 'refused' });
    const { rows } = await server.admin.query<{ household_id: string }>('select household_id from family_message where id = $1', [id]);
    expect(await mattersOf(network, incident, rows[0]?.household_id ?? '')).toMatchObject([{ kind: 'address-not-reached', messageId: id }]);
  } finally {
    await new Promise<void>((done) => smtp.close(() => done()));
    await sleep(10);
  }
}, 200_000);

test('a household is sent no more than the limit of a day, and the rest follows on the next', async () => {
  const mail = await mailServer(() => 99, 0);
  try {
    server.clock.set(NOON_MS);
    await families(1);
    const { rows } = await server.admin.query<{ household_id: string }>('select household_id from family_message where network_id = $1', [network.networkId]);
    const householdId = rows[0]?.household_id ?? '';
    const context: CallContext = { networkId: network.networkId, incidentLimit: null, principalId: newId(), requestId: 'test', traceparent: '' };
    const call = { context, env: { nowMs: server.clock.nowMs(), newId: () => newId() } };
    await server.unitOfWork.write(context, async (stores) => {
      for (let n = 0; n < 6; n += 1) await queueMessage(stores, call, { incidentId: incident.id, householdId, template: 'not-saved', subjectId: newId() });
    });
    await sendMessages(server, network.networkId, partsFor(sender(mail.port)));
    expect(mail.bodies).toHaveLength(SENDING_RULES.perDay);
    expect(tally([...(await states()).values()].map(({ failure }) => failure ?? 'none'))).toEqual({ none: 4, 'day-full': 3 });
    server.clock.set(NOON_MS + 25 * 60 * MINUTE_MS);
    await sendMessages(server, network.networkId, partsFor(sender(mail.port)));
    expect(mail.bodies).toHaveLength(7);
  } finally {
    await mail.close();
  }
}, 200_000);
