import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { NEWEST_RELEASE } from '#care';
import { Workbench } from '../support/workbench.js';
import { beganWith, carryOut, choose, openRows, versions } from './choices.support.js';

let bench: Workbench;
beforeAll(async () => {
  bench = await Workbench.open();
  await beganWith(bench, '2026.2');
});
afterAll(() => bench.close());

const follows = async () => (await bench.network.get('/v1/rulebook').expect(200)).body;

test('a network that began with an older release stays on it, whatever is newer', async () => {
  expect(await follows()).toMatchObject({ version: '2026.2', release: '2026.2', follows: '2026.2', newest: NEWEST_RELEASE, number: 0, decision: null });
  const quilt = await bench.testedQuilt(await bench.household());
  expect((await versions(bench))[quilt.id]).toBe('2026.2');
});

test('a new network follows the newest', async () => {
  expect((await (await bench.server.network()).get('/v1/rulebook').expect(200)).body).toMatchObject({ version: NEWEST_RELEASE, follows: NEWEST_RELEASE });
});

test('a switched choice leaves the release as it is', async () => {
  const { body } = await choose(bench, { 'mould-clock': '24h' });
  expect(body).toMatchObject({ number: 1, release: '2026.2', version: '2026.2+mould-clock=24h' });
});

test('a lead goes over to another release: what changed is named, person and reason stay on record, and what is still here is triaged anew, each saying what that changed', async () => {
  const quilt = await bench.testedQuilt(await bench.household());
  const { status, body } = await choose(bench, { 'mould-clock': '24h' }, { release: '2026.11', reason: 'Compared over our week; nothing gets laxer.' });
  expect(status).toBe(201);
  expect(body).toMatchObject({ number: 2, release: '2026.11', choices: { 'mould-clock': '24h' }, version: '2026.11+mould-clock=24h', reason: 'Compared over our week; nothing gets laxer.', decidedBy: { name: 'Lead one' } });
  expect(body.changed).toMatchObject({ before: '2026.2+mould-clock=24h', after: '2026.11+mould-clock=24h', rules: { withdrawn: [] }, choices: [{ choiceId: 'wrap-bench', before: null, after: 'dirty-side' }] });
  expect(body.changed.rules.added).toContain('people.generator');
  expect(body.changed.rules.altered).toContain('textile.dry.how');
  expect(await follows()).toMatchObject({ version: '2026.11+mould-clock=24h', follows: '2026.11', number: 2 });

  const rows = await openRows(bench);
  for (const row of rows) await carryOut(bench, row);
  expect((await versions(bench))[quilt.id]).toBe('2026.11+mould-clock=24h');
  const { body: history } = await bench.network.get(`/v1/items/${quilt.id}/triage/history`).expect(200);
  expect(history.items[0]).toMatchObject({ ruleBookVersion: '2026.11+mould-clock=24h', change: { ruleBook: { before: '2026.2+mould-clock=24h', after: '2026.11+mould-clock=24h' }, observations: [] } });
  expect(history.items[0].change.rulesGained.map(({ ruleId }: { ruleId: string }) => ruleId)).toEqual(expect.arrayContaining(['people.generator', 'textile.dry.cover-cloth']));
});

test('it may go back, with another person’s reason on record beside the first', async () => {
  expect((await choose(bench, {}, { release: '2026.2', reason: 'Not before the hall has read it.' })).body).toMatchObject({ number: 3, version: '2026.2', changed: { rules: { added: [] } } });
  const { body } = await bench.network.get('/v1/rulebook/choices').expect(200);
  expect(body.items.map(({ number, release }: { number: number; release: string }) => [number, release])).toEqual([[3, '2026.2'], [2, '2026.11'], [1, '2026.2']]);
  const fresh = await bench.takeIn(await bench.household());
  expect((await versions(bench))[fresh.id]).toBe('2026.2');
});

test('what a release does not have is refused with its name, and nothing changes', async () => {
  const { status, body } = await choose(bench, { 'wrap-bench': 'at-the-freezer', 'fan-direction': 'across' }, { release: '2026.2' });
  expect(status).toBe(422);
  expect(body.errors.map(({ pointer, code }: { pointer: string; code: string }) => `${pointer} ${code}`)).toEqual(['#/choices/wrap-bench choice_unknown', '#/choices/fan-direction option_unknown']);
  for (const { detail } of body.errors) expect(detail).toContain('release 2026.2');
  expect((await choose(bench, {}, { release: '2031.1' })).body).toMatchObject({ status: 400, errors: [{ pointer: '#/release' }] });
  expect(await follows()).toMatchObject({ number: 3 });
});

test('a bench at the freezer moves the wrapping there for a network whose lead says so', async () => {
  const quilt = await bench.testedQuilt(await bench.household());
  await choose(bench, { 'wrap-bench': 'at-the-freezer' }, { release: '2026.11', reason: 'Our only bench stands at the freezer.' });
  const { body } = await bench.assess(quilt.id, { fragility: 'weak' }).expect(201);
  const frozen = body.options.find(({ disposition }: { disposition: string }) => disposition === 'hold-frozen');
  expect(frozen.steps.map(({ step, zone }: { step: string; zone: string }) => `${step} ${zone}`)).toEqual(['wrap cold', 'freeze cold']);
});
