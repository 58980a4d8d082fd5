/** What a family sees and says behind its link, in a browser that runs no script. */
import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import { startTestServer, type IncidentOnTest, type TestNetwork, type TestServer } from '#testing';
import { family, linkOf, lookAtFamilies, mattersOf, openPage, openQuestions, sendForm, thingOf } from '../api/support/families.js';
import { Workbench } from '../api/support/workbench.js';

let server: TestServer;
let network: TestNetwork;
let incident: IncidentOnTest;
const HOUR_MS = 3_600_000;
const MORNING_MS = Date.parse('2026-05-09T07:00:00Z');

beforeAll(async () => {
  server = await startTestServer();
  network = await server.network();
  incident = await network.incident();
});
afterAll(() => server.close());

/** A family whose quilt waits for its word, with a link. */
async function asked(change: Parameters<typeof family>[2] = {}) {
  const household = await family(network, incident, change);
  const item = await thingOf(network, incident, household, { description: 'Quilt of <b>Aunt</b> Marisol' });
  const link = await linkOf(network, household);
  const [question] = await openQuestions(network, incident, household.id);
  if (!question) throw new Error('the service did not ask');
  return { household, item, link, question };
}

describe('the service asks by itself', () => {
  test('for the consent that the way of a thing lacks, once, with a deadline, and never whether to let it go', async () => {
    const { item, question, household } = await asked();
    expect(question).toMatchObject({ itemId: item.id, state: 'open', askedBy: 'service' });
    expect(['treat', 'freeze', 'refer']).toContain(question.kind);
    const stands = Date.parse(question.deadlineAt) - server.clock.nowMs();
    expect(stands).toBeGreaterThanOrEqual(4 * HOUR_MS);
    expect(stands).toBeLessThanOrEqual(48 * HOUR_MS);
    await network.post(`/v1/items/${item.id}/assessments`, { personId: incident.person('P1'), wetState: 'wet' }).expect(201);
    expect((await openQuestions(network, incident, household.id)).filter(({ kind }) => kind === question.kind)).toHaveLength(1);
    expect((await openQuestions(network, incident, household.id)).some(({ kind }) => kind === 'release')).toBe(false);
  });

  test('and tells the family once of all that is new, also of what is asked later, reminds once, and keeps one look ahead', async () => {
    const { household, item, question } = await asked();
    const told = async () => (await server.admin.query<{ template: string }>('select template from family_message where household_id = $1 order by id', [household.id])).rows.map(({ template }) => template);
    const looks = async () => (await server.admin.query<{ ahead: boolean }>("select not_before > clock_timestamp() as ahead from outbox where subject_id = $1 and kind = 'family.look' and done_at is null", [household.id])).rows;
    const lookNow = async () => {
      await server.admin.query("update outbox set done_at = clock_timestamp() where kind = 'family.look' and subject_id <> $1", [household.id]);
      await lookAtFamilies(server, network.networkId, false);
    };
    await lookNow();
    expect(await told()).toEqual(['question']);
    expect(await looks()).toEqual([{ ahead: true }]);
    await network.post(`/v1/items/${item.id}/questions`, { kind: 'photograph' }).expect(201);
    // Beside the look that lies ahead one is due now.
    expect(await looks()).toHaveLength(2);
    await lookNow();
    expect(await told()).toEqual(['question', 'question']);
    expect(await looks()).toEqual([{ ahead: true }]);
    server.clock.set(Date.parse(question.deadlineAt) - 60_000);
    await lookAtFamilies(server, network.networkId);
    await lookAtFamilies(server, network.networkId);
    server.clock.set(MORNING_MS);
    expect(await told()).toEqual(['question', 'question', 'reminder']);
  });

  test('and what the family says at the desk answers the question', async () => {
    const { household, question } = await asked();
    await network.post(`/v1/households/${household.id}/consents`, { scope: question.kind, given: true, manner: 'spoken' }).expect(201);
    expect((await openQuestions(network, incident, household.id)).find(({ id }) => id === question.id)).toMatchObject({ state: 'answered', answer: 'yes' });
  });
});

describe('the page', () => {
  test('shows the state in plain words and the question, in the language of the household and in the other one', async () => {
    const { link } = await asked({ language: 'es' });
    const spanish = await openPage(server, link.path).expect(200);
    expect(spanish.text).toContain('Sus cosas');
    expect(spanish.text).toContain('Espera su respuesta.');
    expect(spanish.headers['content-language']).toBe('es');
    const english = await openPage(server, link.path, '?lang=en').expect(200);
    expect(english.text).toContain('Your things');
    expect(english.text).toContain('It waits for your answer.');
  });

  test('holds no name, address, tag, place or id of the household, and runs nothing', async () => {
    const { link, item, household } = await asked();
    const page = await openPage(server, link.path).expect(200);
    for (const secret of [household.name, household.code, household.id, item.tag, 'Marisol', incident.id, network.networkId, 'RINSE', '@']) expect(page.text).not.toContain(secret);
    expect(page.text).not.toMatch(/<script|<img|http:|https:| on\w+=/i);
    expect(page.headers).toMatchObject({ 'referrer-policy': 'no-referrer', 'cache-control': 'no-store', 'x-robots-tag': 'noindex, nofollow', 'x-content-type-options': 'nosniff' });
    expect(page.headers['content-security-policy']).toMatch(/^default-src 'none'; style-src 'sha256-[A-Za-z0-9+/=]{44}'; form-action 'self'; frame-ancestors 'none'; base-uri 'none'$/);
    expect(page.headers['content-type']).toBe('text/html; charset=utf-8');
    expect(page.headers['set-cookie']).toBeUndefined();
  });

  test('shows what the family said of its things only with the pick-up code, escaped, and takes five wrong ones', async () => {
    const { link } = await asked();
    const wrong = await sendForm(server, `${link.path}/more?lang=en`, { code: 'AAAA-AAAA' }).expect(200);
    expect(wrong.text).not.toContain('Marisol');
    const right = await sendForm(server, `${link.path}/more?lang=en`, { code: link.pickUpCode.toLowerCase().replace('-', ' ') }).expect(200);
    expect(right.text).toContain('Quilt of &lt;b&gt;Aunt&lt;/b&gt; Marisol');
    for (let tries = 0; tries < 5; tries += 1) await sendForm(server, `${link.path}/more?lang=en`, { code: '' }).expect(200);
    const locked = await sendForm(server, `${link.path}/more?lang=en`, { code: link.pickUpCode }).expect(200);
    expect(locked.text).not.toContain('Marisol');
    expect(locked.text).toContain('takes none any more');
  });
});

describe('an answer', () => {
  test('by a double tap is one answer, one consent and one entry of the audit', async () => {
    const { link, question, household } = await asked();
    const tap = () => sendForm(server, `${link.path}/answers?lang=en`, { question: question.id, answer: 'yes' });
    const answers = await Promise.all([tap(), tap(), tap()]);
    expect(answers.map(({ status }) => status)).toEqual([303, 303, 303]);
    expect((await tap()).headers['location']).toBe(`${link.path}?lang=en&said=taken`);
    const { rows } = await server.admin.query('select scope, given, manner, item_id from consent where household_id = $1', [household.id]);
    expect(rows).toEqual([{ scope: question.kind, given: true, manner: 'link', item_id: question.itemId }]);
    const { rows: audit } = await server.admin.query("select principal_id, subject_kind, subject_id from audit_entry where network_id = $1 and operation = 'answerByLink' and subject_id = $2", [network.networkId, question.id]);
    expect(audit).toEqual([{ principal_id: link.id, subject_kind: 'owner-questions', subject_id: question.id }]);
    const page = await openPage(server, link.path, '?lang=en&said=taken').expect(200);
    expect(page.text).toContain('Thank you. We have your answer.');
    expect(page.text).toContain('You answered: Yes.');
  });

  test('that differs from the first one changes nothing and says so', async () => {
    const { link, question, household } = await asked();
    await sendForm(server, `${link.path}/answers?lang=en`, { question: question.id, answer: 'no' }).expect(303);
    const second = await sendForm(server, `${link.path}/answers?lang=en`, { question: question.id, answer: 'yes' }).expect(303);
    expect(second.headers['location']).toContain('said=other');
    const { rows } = await server.admin.query('select given from consent where household_id = $1', [household.id]);
    expect(rows).toEqual([{ given: false }]);
  });

  test('“call me” is an answer: no consent is made of it, and a person is told', async () => {
    const { link, question, household } = await asked();
    await sendForm(server, `${link.path}/answers`, { question: question.id, answer: 'call-me' }).expect(303);
    expect(await mattersOf(network, incident, household.id)).toMatchObject([{ kind: 'call-asked' }]);
    expect((await server.admin.query('select 1 from consent where household_id = $1', [household.id])).rowCount).toBe(0);
  });

  test.each(['yes', 'no'] as const)('“%s” after the deadline is kept and shown to a person, and undoes nothing; a no counts from now on', async (answer) => {
    const { link, question, household } = await asked();
    server.clock.set(Date.parse(question.deadlineAt) + HOUR_MS);
    try {
      await lookAtFamilies(server, network.networkId);
      expect((await openQuestions(network, incident, household.id)).find(({ id }) => id === question.id)).toMatchObject({ state: 'expired' });
      expect(await mattersOf(network, incident, household.id)).toMatchObject([{ kind: 'question-expired' }]);
      const page = await openPage(server, link.path, '?lang=en').expect(200);
      expect(page.text).toContain('You can still answer');
      expect(page.text).not.toContain('Please answer by');
      const sent = await sendForm(server, `${link.path}/answers?lang=en`, { question: question.id, answer }).expect(303);
      expect(sent.headers['location']).toContain('said=late');
      expect((await openQuestions(network, incident, household.id)).find(({ id }) => id === question.id)).toMatchObject({ state: 'expired', answer: null, lateAnswer: answer });
      expect((await mattersOf(network, incident, household.id)).map(({ kind }) => kind).sort()).toEqual(['answer-late', 'question-expired']);
      const { rows } = await server.admin.query('select given from consent where household_id = $1', [household.id]);
      expect(rows).toEqual(answer === 'no' ? [{ given: false }] : []);
    } finally {
      server.clock.set(MORNING_MS);
    }
  });

  test('that agrees to letting go or to a cost needs the pick-up code; a no never does', async () => {
    const { link, item, household } = await asked();
    for (const body of [{ kind: 'release' }, { kind: 'refer', amount: { minor: 25_000, currency: 'USD' } }]) {
      const { id } = (await network.post(`/v1/items/${item.id}/questions`, body)).body;
      const question = id ?? (await openQuestions(network, incident, household.id)).find(({ kind, state }) => kind === body.kind && state === 'open')?.id;
      const without = await sendForm(server, `${link.path}/answers?lang=en`, { question, answer: 'yes' }).expect(303);
      expect(without.headers['location']).toContain('said=code');
      const wrong = await sendForm(server, `${link.path}/answers?lang=en`, { question, answer: 'yes', code: 'AAAA-AAAA' }).expect(303);
      expect(wrong.headers['location']).toContain('said=code');
      const right = await sendForm(server, `${link.path}/answers?lang=en`, { question, answer: 'yes', code: link.pickUpCode }).expect(303);
      expect(right.headers['location']).toContain('said=taken');
    }
    const { rows } = await server.admin.query("select scope, limit_minor, limit_currency from consent where household_id = $1 and scope in ('release', 'refer') order by scope", [household.id]);
    expect(rows).toEqual([{ scope: 'refer', limit_minor: '25000', limit_currency: 'USD' }, { scope: 'release', limit_minor: null, limit_currency: null }]);
  });
});

describe('a link', () => {
  const bodyOf = async (path: string) => {
    const { status, text, headers } = await openPage(server, path);
    return { status, text, kept: Object.fromEntries(Object.entries(headers).filter(([name]) => !['date', 'x-request-id', 'traceparent'].includes(name))) };
  };

  test('that is wrong, ended, taken back or never was answers one and the same page', async () => {
    const { link } = await asked();
    const other = await asked();
    await network.post(`/v1/status-links/${other.link.id}/revocation`, {}).expect(200);
    const never = await bodyOf(`/s/${'A'.repeat(64)}`);
    expect(never.status).toBe(404);
    expect(never.text).toContain('This link does not open anything');
    expect(never.text).toContain('Este enlace no abre nada');
    const altered = `${link.path.slice(0, -2)}${link.path.endsWith('AA') ? 'BB' : 'AA'}`;
    expect(await bodyOf(altered)).toEqual(never);
    expect(await bodyOf(other.link.path)).toEqual(never);
    expect(await bodyOf('/s/short')).toEqual(never);
    server.clock.set(MORNING_MS + 14 * 24 * HOUR_MS);
    const ended = await bodyOf(link.path);
    server.clock.set(MORNING_MS);
    expect(ended).toEqual(never);
    expect((await bodyOf(link.path)).status).toBe(200);
  });

  test('stands for at most 30 days, several may live, and its secret is in no row of the database and in no audit', async () => {
    const { household } = await asked();
    await network.post(`/v1/households/${household.id}/status-links`, { validDays: 31 }).expect(400);
    const [one, two] = [await linkOf(network, household, { forWhom: 'the daughter', validDays: 30 }), await linkOf(network, household)];
    await openPage(server, one.path).expect(200);
    await openPage(server, two.path).expect(200);
    const { rows: tables } = await server.admin.query<{ name: string }>("select table_name as name from information_schema.tables where table_schema = 'public' and table_type = 'BASE TABLE'");
    for (const { name } of tables) {
      const { rows } = await server.admin.query(`select count(*)::int as n from ${name} t where t::text like $1 or t::text like $2 or t::text like $3`, [`%${one.path.slice(3)}%`, `%${one.pickUpCode}%`, '%the daughter%']);
      // The answer of the command that made it, and what is sealed, are looked at by their own tests.
      if (name !== 'idempotency_record') expect([name, rows[0].n]).toEqual([name, 0]);
    }
    const { rows } = await server.admin.query('select count(*)::int as n from idempotency_record t where t::text like $1 or t::text like $2', [`%${one.path.slice(3)}%`, `%${one.pickUpCode}%`]);
    expect(rows[0].n).toBe(0);
  });

  test("never opens or answers what is another family's, by any form", async () => {
    const ours = await asked();
    const theirs = await asked();
    await sendForm(server, `${ours.link.path}/answers`, { question: theirs.question.id, answer: 'yes' }).expect(404);
    await sendForm(server, `${ours.link.path}/words`, { item: theirs.item.id, scope: 'treat' }).expect((answer) => expect([404, 503]).toContain(answer.status));
    expect((await server.admin.query('select 1 from consent where household_id = $1', [theirs.household.id])).rowCount).toBe(0);
    expect((await openPage(server, ours.link.path)).text).not.toContain(theirs.question.id);
  });

  test('takes only small forms and fields that it knows', async () => {
    const { link, question } = await asked();
    await sendForm(server, `${link.path}/answers`, { question: question.id, answer: 'perhaps' }).expect(404);
    await sendForm(server, `${link.path}/answers`, { question: "' or true --", answer: 'yes' }).expect(404);
    await sendForm(server, `${link.path}/words`, { item: question.itemId, scope: 'constructor' }).expect(404);
    await sendForm(server, `${link.path}/answers`, { question: question.id, answer: 'yes', code: 'x'.repeat(5_000) }).expect(413);
    expect((await openQuestions(network, incident, (await openPage(server, link.path), question.householdId))).find(({ id }) => id === question.id)).toMatchObject({ state: 'open' });
  });
});

describe('a yes that is taken back', () => {
  test('while the thing is in the bath: what is under way is recorded as it ended, nothing follows, a person is told, and a lead lets it go on', async () => {
    const bench = await Workbench.open();
    try {
      const household = await bench.household();
      const item = await bench.testedQuilt(household);
      const station = bench.incident.station('RINSE');
      const where = (await bench.read(item.id)).keeper;
      await bench.network.post(`/v1/items/${item.id}/custody-events`, { kind: 'work-started', from: where, to: { kind: 'station', id: station }, personId: bench.incident.person('P2') }).expect(201);
      const link = await linkOf(bench.network, household);
      await sendForm(bench.server, `${link.path}/words?lang=en`, { item: item.id, scope: 'treat' }).expect(303);
      await sendForm(bench.server, `${link.path}/words?lang=en`, { item: item.id, scope: 'treat' }).expect(303);
      const matters = await mattersOf(bench.network, bench.incident, household.id);
      expect(matters).toMatchObject([{ kind: 'consent-withdrawn', itemId: item.id, step: 'rinse' }]);
      expect(matters[0]?.advice).toContain('Keep it as wet as it is, cool, covered and apart');
      const stopped = await bench.read(item.id);
      expect(stopped).toMatchObject({ stage: 'in-work', keeper: { kind: 'station', id: station }, waitingForOwner: true });
      // The bath that was under way has ended, whatever was said meanwhile: it is on record, once.
      await bench.report(item.id, 'rinse').expect(201);
      const after = await bench.read(item.id);
      expect(after).toMatchObject({ stage: 'waiting', waitingForOwner: true });
      expect(after['disposition']).not.toBe('treat');
      expect((await bench.report(item.id, 'rinse')).status).toBe(409);
      expect((await bench.report(item.id, 'blot')).status).toBe(409);
      const list = await bench.network.get(`/v1/stations/${station}/work-list`).expect(200);
      expect(JSON.stringify(list.body)).not.toContain(item.id);
      const settle = (person: string) => bench.network.post(`/v1/family-matters/${matters[0]?.id}/settlement`, { personId: bench.incident.person(person), settlement: 'Spoke with the family; they want it dried after all.' });
      await bench.network.post(`/v1/households/${household.id}/consents`, { scope: 'treat', given: true, manner: 'spoken', itemId: item.id }).expect(201);
      expect(await bench.read(item.id)).toMatchObject({ waitingForOwner: true });
      await settle('P1').expect(201);
      await settle('P1').expect(409);
      expect(await bench.read(item.id)).toMatchObject({ waitingForOwner: false, disposition: 'treat', nextStep: 'blot' });
    } finally {
      await bench.close();
    }
  });
});
