import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import { waitingRuns } from '../support/plan-requests.js';
import { Workbench } from '../support/workbench.js';
import { setNumber } from './calibration.support.js';

let bench: Workbench;
beforeAll(async () => {
  bench = await Workbench.open();
});
afterAll(() => bench.close());

const nothingSet = async () => {
  expect((await bench.network.get('/v1/calibration').expect(200)).body.number).toBe(0);
  expect(await waitingRuns(bench.server, bench.incident.id)).toEqual([]);
};

describe('what a number cannot be is refused with its limits, and nothing changes', () => {
  test.each([
    ['people/consecutiveHoursMax', 17, /4 to 16/],
    ['people/consecutiveHoursMax', 3.9, /4 to 16/],
    ['people/fitForRequiredMask', 0.5, /whole number/],
    ['climate/roomCapPct', 96, /40 to 95/],
    ['climate/roomCapPct', -1, /40 to 95/],
    ['alarms/freezerWarmTempC', 4, /-40 to -1/],
    ['alarms/itemsNamed', 3.5, /whole number/],
    ['planning/longestDryingH', 5, /6 to 240/],
    ['care/rinseMin', 0, /0.1 to 240/],
  ])('%s = %p', async (address, value, limits) => {
    const { status, body } = await setNumber(bench, address, value);
    expect([status, body.code, body.errors[0].pointer, body.errors[0].code]).toEqual([422, 'command_refused', '#/value', 'calibration_out_of_limits']);
    expect(body.detail).toMatch(limits);
    await nothingSet();
  });
});

test('numbers that bound each other are checked together: amber does not come after red', async () => {
  const contradictions = [['alarms/machineShareClear', 0.3, 'machineShare (0.5) may not exceed machineShareClear (0.3)'], ['care/treasuredWeight', 40, 'treasuredWeight (40) may not exceed irreplaceableWeight (30)']] as const;
  for (const [address, value, fault] of contradictions) expect((await setNumber(bench, address, value)).body.detail).toContain(fault);
  const { status, body } = await setNumber(bench, 'climate/redDose', 0.4);
  expect(status).toBe(422);
  expect(body.detail).toContain('amberDose (0.5) may not exceed redDose (0.4)');
  await nothingSet();
});

test('a body that is no number at all is told what is wrong with it', async () => {
  const { headers } = await bench.network.get('/v1/calibration').expect(200);
  const answer = await bench.network.put('/v1/calibration/people/restHours', { value: 'eight', reason: 'x', personId: 'P1' }, { 'if-match': headers['etag'] ?? '' }).expect(400);
  expect(answer.body.errors.map(({ pointer }: { pointer: string }) => pointer).sort()).toEqual(['#/personId', '#/reason', '#/value']);
  await nothingSet();
});

test('a number that there is none of, in a library that there is none of, answers 404', async () => {
  for (const address of ['people/noSuchNumber', 'people/constructor', 'climate/restHours', 'care/restHours', 'care/clockHours', 'alarms/freezerThawTempC', 'custody/restHours']) {
    expect([address, (await setNumber(bench, address, 8)).status]).toEqual([address, 404]);
  }
  await nothingSet();
});

test('somebody who is not a lead, or not of the network, does not decide', async () => {
  expect((await setNumber(bench, 'people/restHours', 9, { personId: bench.incident.person('P2') })).body).toMatchObject({ status: 422, errors: [{ pointer: '#/personId', code: 'not_a_lead' }] });
  const stranger = await (await bench.server.network()).incident();
  expect((await setNumber(bench, 'people/restHours', 9, { personId: stranger.person('P1') })).body).toMatchObject({ code: 'reference_unknown', errors: [{ pointer: '#/personId' }] });
  await nothingSet();
});

test('a key of one incident does not decide for the whole network', async () => {
  const limited = bench.network.as(await bench.network.newKey({ incidentId: bench.incident.id }));
  const answer = await limited.put('/v1/calibration/people/restHours', { value: 9, reason: 'Only here.', personId: bench.incident.person('P1') }, { 'if-match': '"0"' }).expect(403);
  expect(answer.body.code).toBe('scope_missing');
  await nothingSet();
});

test('a decision that did not see the newest one is stale; one without If-Match is told to read first', async () => {
  const body = { value: 9, reason: 'Longer nights.', personId: bench.incident.person('P1') };
  await bench.network.put('/v1/calibration/people/restHours', body).expect(428);
  expect((await setNumber(bench, 'people/restHours', 9, { etag: '"3"' })).body).toMatchObject({ code: 'version_stale', currentEtag: '"0"' });
  await nothingSet();
});

test('of two leads who decide at the same moment one is told to read again, so that no two numbers contradict each other', async () => {
  const answers = await Promise.all([setNumber(bench, 'climate/amberDose', 0.9, { etag: '"0"' }), setNumber(bench, 'climate/redDose', 0.6, { etag: '"0"' })]);
  expect(answers.map(({ status }) => status).sort()).toEqual([200, 412]);
});
