import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { RULE_BOOK_VERSION } from '#care';
import { Workbench } from '../support/workbench.js';
import { choose } from './choices.support.js';

let bench: Workbench;
beforeAll(async () => {
  bench = await Workbench.open();
});
afterAll(() => bench.close());

test('a lead switches a choice: name and reason stay on record, and every triage from then on goes by the new book', async () => {
  const quilt = await bench.testedQuilt(await bench.household());
  const before = (await bench.network.get(`/v1/items/${quilt.id}/triage`).expect(200)).body;
  expect(before.ruleBookVersion).toBe(RULE_BOOK_VERSION);
  const answer = await choose(bench, { 'mould-clock': '24h', 'bleach': 'hall-only' });
  expect(answer.status).toBe(201);
  expect(answer.headers['etag']).toBe('"1"');
  expect(answer.body).toMatchObject({
    version: `${RULE_BOOK_VERSION}+mould-clock=24h`, number: 1,
    choices: { 'mould-clock': '24h' }, reason: 'The halls stay above 28 C this week.', decidedBy: { id: bench.incident.person('P1'), name: 'Lead one' },
  });
  const { body: inForce } = await bench.network.get('/v1/rulebook').expect(200);
  const { changed, ...decision } = answer.body;
  expect(inForce).toMatchObject({ version: answer.body.version, number: 1, decision });
  expect(changed).toEqual({ before: RULE_BOOK_VERSION, after: answer.body.version, rules: { added: [], withdrawn: [], altered: [] }, choices: [{ choiceId: 'mould-clock', before: '48h', after: '24h' }] });
  expect(inForce.choices.find(({ id }: { id: string }) => id === 'mould-clock')).toMatchObject({ default: '48h', inForce: '24h' });
  // Mould may be switched from 48 hours to the short end of the band, 24 hours (Mold, fact sheet, FEMA, 2023).
  const after = await bench.assess(quilt.id, { fragility: 'weak' }).expect(201);
  expect(after.body.ruleBookVersion).toBe(`${RULE_BOOK_VERSION}+mould-clock=24h`);
  expect(after.body.change).toMatchObject({ ruleBook: { before: RULE_BOOK_VERSION, after: `${RULE_BOOK_VERSION}+mould-clock=24h` } });
  expect(after.body.clocks.find((clock: { damage: string }) => clock.damage === 'mould').deadlineAt).toBe('2026-05-09T18:00:00.000Z');
  const fresh = await bench.takeIn(await bench.household());
  expect((await bench.network.get(`/v1/items/${fresh.id}/triage`).expect(200)).body.ruleBookVersion).toBe(`${RULE_BOOK_VERSION}+mould-clock=24h`);
});

test('the next decision is complete: what it leaves out stands at its default again, and the one before stays on record', async () => {
  const answer = await choose(bench, { 'fan-direction': 'away' }, { reason: 'The fans blew threads off.' });
  expect(answer.body).toMatchObject({ number: 2, version: `${RULE_BOOK_VERSION}+fan-direction=away` });
  const { body } = await bench.network.get('/v1/rulebook/choices').expect(200);
  expect(body.items).toMatchObject([{ number: 2, choices: { 'fan-direction': 'away' } }, { number: 1, choices: { 'mould-clock': '24h' } }]);
});

test('another network follows its own book', async () => {
  const stranger = await bench.server.network();
  const { body, headers } = await stranger.get('/v1/rulebook').expect(200);
  expect(body).toMatchObject({ version: RULE_BOOK_VERSION, number: 0, decision: null });
  expect(headers['etag']).toBe('"0"');
});

test('a receipt is written by the book in force', async () => {
  const household = await bench.household();
  const quilt = await bench.takeIn(household);
  const { body } = await bench.handBack(household, [quilt.id]).expect(201);
  expect(body.receipt.ruleBookVersion).toBe(`${RULE_BOOK_VERSION}+fan-direction=away`);
});
