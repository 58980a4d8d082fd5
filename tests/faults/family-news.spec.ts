/** What families are told by themselves, through a real mail server on loopback: once, gathered, in time, and not where nothing arrives. */
import { once } from 'node:events';
import type { AddressInfo } from 'node:net';
import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { SMTPServer } from 'smtp-server';
import { runFamilyNews, SENDING_RULES, type MessageParts } from '#application';
import { workerContext } from '#messaging';
import { makeStatusLink, newId } from '#platform';
import { smtpSender } from '../../apps/worker/src/senders/smtp-sender.js';
import { family, lookAtNews, mattersOf, sendMessages, type Family } from '../api/support/families.js';
import { OWNER_SAYS_YES, Workbench } from '../api/support/workbench.js';

const NOON_MS = Date.parse('2026-05-09T12:00:00Z');
const DAY_MS = 24 * 3_600_000;

let bench: Workbench;
let smtp: SMTPServer;
let parts: MessageParts;
const mails: { to: string; text: string }[] = [];
let connections = 0;
const dead = new Set<string>();

beforeAll(async () => {
  bench = await Workbench.open();
  bench.server.clock.set(NOON_MS);
  smtp = new SMTPServer({
    authOptional: true, disabledCommands: ['AUTH', 'STARTTLS'], logger: false,
    onConnect: (_session, callback) => {
      connections += 1;
      callback();
    },
    onRcptTo: ({ address }, _session, callback) => callback(dead.has(address) ? Object.assign(new Error('No such mailbox'), { responseCode: 550 }) : null),
    onData(stream, session, callback) {
      let text = '';
      stream.on('data', (chunk: Buffer) => {
        text += chunk.toString('utf8');
      });
      stream.on('end', () => {
        // Long lines come folded (RFC 2045, section 6.7).
        mails.push({ to: session.envelope.rcptTo[0]?.address ?? '', text: text.replaceAll('=\r\n', '') });
        callback();
      });
    },
  });
  smtp.listen(0, '127.0.0.1');
  await once(smtp.server, 'listening');
  const port = (smtp.server.address() as AddressInfo).port;
  const email = smtpSender({ host: '127.0.0.1', port, secure: false, requireTls: false, user: null, password: null, from: 'salvage@things.example', idHost: 'things.example', timeoutMs: 60_000 });
  parts = { senders: { email, sms: null }, rules: { ...SENDING_RULES, perDay: 50 }, links: { publicUrl: 'https://things.example', standsMs: 14 * DAY_MS, make: makeStatusLink }, chance: () => 0.5 };
});
afterAll(async () => {
  await new Promise<void>((done) => void smtp.close(done));
  await bench.close();
});

const post = (path: string, body: object) => bench.network.post(path, body);
const wish = (home: { id: string }, said = 'messages') => post(`/v1/households/${home.id}/message-wishes`, { wish: said, manner: 'spoken' }).expect(201);
const look = (ahead = false) => lookAtNews(bench.server, bench.network.networkId, ahead);
const send = () => sendMessages(bench.server, bench.network.networkId, parts);
const told = async () => {
  await look();
  return send();
};
const mailTo = (address: string) => mails.filter(({ to }) => to === address);
const messages = async (home: { id: string }) => (await bench.network.get(`/v1/households/${home.id}/family-messages`).expect(200)).body.items as { template: string; state: string; failure: string | null; automatic: boolean; nextAt: string }[];
const wishful = async (email: string): Promise<Family> => {
  const home = await family(bench.network, bench.incident, { email });
  await wish(home);
  return home;
};

test('three things that come within a quarter of an hour are one mail, the look repeated sends none, and what comes later is another', async () => {
  const home = await wishful('three@families.example');
  for (let n = 0; n < 3; n += 1) await bench.takeIn(home);
  const { rows } = await bench.server.admin.query<{ id: string; incident_id: string; delay: number }>("select id, incident_id, extract(epoch from leased_until - created_at)::float as delay from outbox where kind = 'family.news' and subject_id = $1", [home.id]);
  expect(rows).toHaveLength(1);
  expect(rows[0]?.delay).toBeGreaterThan(14 * 60);
  expect(await told()).toEqual(['sent']);
  const again = { id: rows[0]?.id ?? '', incidentId: rows[0]?.incident_id ?? '', kind: 'family.news' as const, subjectId: home.id, traceparent: '' };
  expect(await runFamilyNews(bench.server.unitOfWork, again, workerContext(bench.network.networkId, 'test', ''), { nowMs: bench.server.clock.nowMs(), newId: () => newId() })).toBe('overtaken');
  await told();
  expect(mailTo('three@families.example')).toHaveLength(1);
  expect(mailTo('three@families.example')[0]?.text).toContain('3 things of yours are with us');
  await bench.takeIn(home);
  await told();
  expect(mailTo('three@families.example')).toHaveLength(2);
  expect((await messages(home)).map(({ template, automatic }) => [template, automatic])).toEqual([['taken-in', true], ['taken-in', true]]);
});

test('a thing that went home before its mail was due is not told as taken in; that it was handed back is', async () => {
  const home = await wishful('short@families.example');
  const item = await bench.takeIn(home);
  await bench.handBack(home, [item.id]).expect(201);
  await told();
  expect((await messages(home)).map(({ template }) => template)).toEqual(['handed-back']);
  expect(mailTo('short@families.example')[0]?.text).not.toContain(home.name);
});

test('a thing whose last step is done is told as ready, once, in a message that brings the page', async () => {
  const home = await family(bench.network, bench.incident, { email: 'dry@families.example', consents: OWNER_SAYS_YES });
  await wish(home);
  const quilt = await bench.testedQuilt(home);
  for (const step of ['rinse', 'blot']) await bench.report(quilt.id, step).expect(201);
  await bench.hang(quilt.id);
  for (const step of ['dry', 'check', 'wrap']) await bench.report(quilt.id, step).expect(201);
  expect(await bench.read(quilt.id)).toMatchObject({ nextStep: 'hand-back' });
  await told();
  expect((await messages(home)).map(({ template, state }) => [template, state]).sort()).toEqual([['ready', 'sent'], ['taken-in', 'sent']]);
  expect(mailTo('dry@families.example').find(({ text }) => text.includes('ready to go back'))?.text).toContain('https://things.example/s/');
  await bench.assess(quilt.id);
  await told();
  expect((await messages(home)).filter(({ template }) => template === 'ready')).toHaveLength(1);
});

test('a thing let go as agreed is told without its name and without a promise; one that is ready no more is not told so', async () => {
  const home = await wishful('ready@families.example');
  const [quilt, trunk] = [await bench.takeIn(home), await bench.takeIn(home)];
  await post(`/v1/households/${home.id}/consents`, { scope: 'release', given: true, manner: 'spoken', itemId: trunk.id }).expect(201);
  await post(`/v1/items/${trunk.id}/releases`, { to: 'disposed', personId: bench.incident.person('P1') }).expect(201);
  await told();
  const letGo = mailTo('ready@families.example').find(({ text }) => text.includes('let go'));
  expect(letGo?.text).not.toMatch(/quilt|save/i);
  // What the last step of its way sets; the way itself is told elsewhere.
  const note = (id: string) => bench.server.admin.query("insert into family_news (network_id, incident_id, id, household_id, kind, subject_id, noted_at) values ($1, $2, $3, $4, 'ready', $5, now()) on conflict do nothing", [bench.network.networkId, bench.incident.id, newId(), home.id, id]);
  await note(quilt.id);
  await bench.server.admin.query("insert into outbox (network_id, id, incident_id, kind, subject_id) values ($1, $2, $3, 'family.news', $4)", [bench.network.networkId, newId(), bench.incident.id, home.id]);
  await told();
  expect((await messages(home)).map(({ template }) => template).sort()).toEqual(['let-go', 'taken-in']);
});

test('at night it waits for the morning of the family; a no said meanwhile stops it', async () => {
  const home = await wishful('night@families.example');
  const other = await wishful('no@families.example');
  bench.server.clock.set(Date.parse('2026-05-09T23:30:00Z'));
  await bench.takeIn(home);
  await bench.takeIn(other);
  expect(await told()).toEqual(['later', 'later']);
  expect((await messages(home))[0]).toMatchObject({ state: 'waiting', failure: 'quiet-hours', nextAt: '2026-05-10T08:00:00.000Z' });
  await wish(other, 'no-messages');
  bench.server.clock.set(Date.parse('2026-05-10T08:00:00Z'));
  expect((await send()).sort()).toEqual(['over', 'sent']);
  expect(mailTo('night@families.example')).toHaveLength(1);
  expect(mailTo('no@families.example')).toEqual([]);
  expect((await messages(other))[0]).toMatchObject({ state: 'given-up', failure: 'not-wished' });
});

test('where the server takes nothing for the address a person is told, and no mail goes there by itself until one has arrived', async () => {
  dead.add('gone@families.example');
  const home = await wishful('gone@families.example');
  await bench.takeIn(home);
  expect(await told()).toEqual(['refused']);
  expect((await messages(home))[0]).toMatchObject({ state: 'given-up', failure: 'refused' });
  const matters = await mattersOf(bench.network, bench.incident, home.id);
  expect(matters.map(({ kind }) => kind)).toEqual(['address-not-reached']);
  const shown = async () => (await bench.network.get(`/v1/households/${home.id}/message-wishes`).expect(200)).body.unreached;
  expect(await shown()).toMatchObject([{ channel: 'email' }]);
  const { rows } = await bench.server.admin.query<{ n: number }>("select count(*)::int as n from unreached_address t where t::text ilike '%families.example%'");
  expect(rows[0]?.n).toBe(0);
  const before = connections;
  await bench.takeIn(home);
  expect(await told()).toEqual(['over']);
  expect(connections).toBe(before);
  expect((await messages(home))[0]).toMatchObject({ state: 'given-up', failure: 'not-reached' });
  // A person may try; what arrives lifts the mark.
  dead.clear();
  await post(`/v1/households/${home.id}/family-messages`, { template: 'ready' }).expect(201);
  expect(await send()).toEqual(['sent']);
  expect(await shown()).toEqual([]);
  await bench.takeIn(home);
  expect(await told()).toEqual(['sent']);
});

test('what nobody fetches is reminded of twice, each on its day and once; a family that cannot be written to is left to people', async () => {
  const home = await wishful('later@families.example');
  const mute = await family(bench.network, bench.incident, { email: 'mute@families.example' });
  await bench.takeIn(home);
  await bench.takeIn(mute);
  await told();
  const startMs = bench.server.clock.nowMs();
  for (const one of [home, mute]) await post(`/v1/households/${one.id}/uncollected`, { deciderId: bench.incident.person('P1') }).expect(201);
  for (const day of [7, 7, 21, 21, 30]) {
    bench.server.clock.set(startMs + day * DAY_MS + 60_000);
    await look(true);
    await look();
    await send();
  }
  expect(mailTo('later@families.example').filter(({ text }) => text.includes('are ready and wait'))).toHaveLength(2);
  const paths = (await bench.network.get(`/v1/incidents/${bench.incident.id}/uncollected`).expect(200)).body.items as { householdId: string; reminders: number }[];
  expect(paths.map(({ householdId, reminders }) => [householdId, reminders]).sort()).toEqual([[home.id, 2], [mute.id, 0]].sort());
  expect(mailTo('mute@families.example')).toEqual([]);
});

test('nothing is told after an erasure', async () => {
  const home = await wishful('erased@families.example');
  const item = await bench.takeIn(home);
  await bench.handBack(home, [item.id]).expect(201);
  await look();
  await post(`/v1/households/${home.id}/erasures`, { personId: bench.incident.person('P1'), reason: 'owner-asked' }).expect(201);
  await told();
  expect(mailTo('erased@families.example')).toEqual([]);
});
