import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { CHOICES } from '#care';
import { Workbench } from '../support/workbench.js';
import { choose, openRows } from './choices.support.js';

let bench: Workbench;
beforeAll(async () => {
  bench = await Workbench.open();
});
afterAll(() => bench.close());

const nothingChosen = async () => {
  expect((await bench.network.get('/v1/rulebook').expect(200)).body).toMatchObject({ number: 0, decision: null });
  expect(await openRows(bench)).toEqual([]);
};

test('unknown choices, unknown options and safety floors are all named at once, and nothing changes', async () => {
  const { status, body } = await choose(bench, { 'no-such/choice~': 'x', 'mould-clock': '12h', 'glass-negatives': 'gelatin-may', bleach: 'dilutions', constructor: 'x' });
  expect(status).toBe(422);
  expect(body.errors.map(({ pointer, code }: { pointer: string; code: string }) => `${pointer} ${code}`)).toEqual([
    '#/choices/no-such~1choice~0 choice_unknown', '#/choices/mould-clock option_unknown', '#/choices/glass-negatives safety_floor', '#/choices/bleach safety_floor', '#/choices/constructor choice_unknown',
  ]);
  expect(body.detail).toMatch(/5 choices cannot be made.*A safety floor is not a network's to switch: `glass-negatives`, `bleach`/);
  await nothingChosen();
});

test('no safety floor can be switched, whichever side is asked for', async () => {
  const floors = CHOICES.filter(({ floor }) => floor);
  expect(floors.length).toBeGreaterThan(3);
  for (const { id, options, default: usual } of floors) {
    for (const option of options.filter((one) => one.id !== usual)) {
      const { status, body } = await choose(bench, { [id]: option.id });
      expect([id, status, body.errors[0].code]).toEqual([id, 422, 'safety_floor']);
    }
  }
  await nothingChosen();
});

test('somebody who is not a lead, or not of the network, does not decide', async () => {
  expect((await choose(bench, { sunlight: 'everyday-only' }, { personId: bench.incident.person('P2') })).body).toMatchObject({ status: 422, errors: [{ pointer: '#/personId', code: 'not_a_lead' }] });
  expect((await choose(bench, { sunlight: 'everyday-only' }, { personId: bench.incident.site() })).body).toMatchObject({ code: 'reference_unknown', errors: [{ pointer: '#/personId' }] });
  await nothingChosen();
});

test('a decision that did not see the one in force is stale; one without If-Match is told to read first', async () => {
  const body = { choices: { sunlight: 'everyday-only' }, reason: 'Crusted mould on towels.', personId: bench.incident.person('P1') };
  await bench.network.post('/v1/rulebook/choices', body).expect(428);
  const stale = await bench.network.post('/v1/rulebook/choices', body, { 'if-match': '"3"' }).expect(412);
  expect(stale.body).toMatchObject({ code: 'version_stale', currentEtag: '"0"' });
  await nothingChosen();
});

test('a key of one incident does not decide for the whole network', async () => {
  const limited = bench.network.as(await bench.network.newKey({ incidentId: bench.incident.id }));
  const answer = await limited.post('/v1/rulebook/choices', { choices: {}, reason: 'Only here.', personId: bench.incident.person('P1') }, { 'if-match': '"0"' }).expect(403);
  expect(answer.body.code).toBe('scope_missing');
  await nothingChosen();
});

test('of two leads who decide at the same moment one is told to read again', async () => {
  const answers = await Promise.all([choose(bench, { sunlight: 'everyday-only' }, { etag: '"0"' }), choose(bench, { 'wet-iron': 'always-dry' }, { etag: '"0"' })]);
  expect(answers.map(({ status }) => status).sort()).toEqual([201, 412]);
});
