import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { alarmCalibrationInForce, calibrateAlarms, calibratePlanning, careCalibrationInForce, climateCalibrationInForce, peopleCalibrationInForce, planningCalibrationInForce } from '#application';
import { DEFAULT_CALIBRATION, DEFAULT_PEOPLE_CALIBRATION } from '#care';
import { calibrate } from '#climate';
import { createPool, PrismaConfigWork } from '#persistence';
import { newId } from '#platform';
import { waitingRuns } from '../support/plan-requests.js';
import { Workbench } from '../support/workbench.js';
import { setNumber, shown } from './calibration.support.js';

let bench: Workbench;
beforeAll(async () => {
  bench = await Workbench.open();
});
afterAll(() => bench.close());

const context = () => ({ networkId: bench.network.networkId, incidentLimit: null, principalId: newId(), requestId: 'test', traceparent: '' });

test('a lead sets a number: value, name and reason stand beside the default, and every open incident is asked for one new plan', async () => {
  const answer = await setNumber(bench, 'climate/packedRackFactor', 0.5, { reason: 'Twelve towels weighed twice.' });
  expect(answer.status).toBe(200);
  expect(answer.headers['etag']).toBe('"1"');
  expect(answer.body).toMatchObject({ number: 1, library: 'climate', key: 'packedRackFactor', value: 0.5, reason: 'Twelve towels weighed twice.', decidedBy: { id: bench.incident.person('P1'), name: 'Lead one' } });
  expect(await shown(bench, 'climate/packedRackFactor')).toMatchObject({ default: 0.35, inForce: 0.5, decision: answer.body, lapsed: false });
  expect(await waitingRuns(bench.server, bench.incident.id)).toEqual([{ reason: 'a number of our own calibration was set', bells: 1, delayed: true }]);
  await setNumber(bench, 'people/consecutiveHoursMax', 11);
  expect(await waitingRuns(bench.server, bench.incident.id)).toMatchObject([{ bells: 1 }]);
});

test('use cases on either writer work with what was set, library by library, and with the defaults of the rest', async () => {
  await setNumber(bench, 'alarms/freezerWarmTempC', -12);
  await setNumber(bench, 'planning/thickFactor', 3);
  const expected = {
    climate: calibrate({ packedRackFactor: 0.5 }), people: { ...DEFAULT_PEOPLE_CALIBRATION, consecutiveHoursMax: 11 },
    alarms: calibrateAlarms({ freezerWarmTempC: -12 }), planning: calibratePlanning({ thickFactor: 3 }), care: DEFAULT_CALIBRATION,
  };
  const of = async (stores: Parameters<typeof climateCalibrationInForce>[0]) => ({
    climate: await climateCalibrationInForce(stores), people: await peopleCalibrationInForce(stores), alarms: await alarmCalibrationInForce(stores),
    planning: await planningCalibrationInForce(stores), care: await careCalibrationInForce(stores),
  });
  expect(await bench.server.unitOfWork.read(context(), of)).toEqual(expected);
  const pool = createPool({ connectionString: bench.server.database.appUrl, max: 1, applicationName: 'calibration-test', onError: () => undefined });
  const config = new PrismaConfigWork(pool);
  expect(await config.read(context(), of)).toEqual(expected);
  await config.close();
  await pool.end();
});

test('a closed incident is asked for no plan', async () => {
  const { body, headers } = await bench.network.get(`/v1/incidents/${bench.incident.id}`).expect(200);
  await bench.network.patch(`/v1/incidents/${bench.incident.id}`, { state: 'closed' }, { 'if-match': headers['etag'] ?? '' }).expect(200);
  await bench.server.admin.query("update plan_run set state = 'done' where incident_id = $1", [bench.incident.id]);
  expect((await setNumber(bench, 'people/restHours', 11)).status).toBe(200);
  expect(await waitingRuns(bench.server, bench.incident.id)).toEqual([]);
  expect(body.state).toBe('open');
});

test('null returns to the default; who decided so and why stays on record', async () => {
  const answer = await setNumber(bench, 'climate/packedRackFactor', null, { reason: 'The scale was wrong.' });
  expect(answer.body).toMatchObject({ value: null, reason: 'The scale was wrong.' });
  expect(await shown(bench, 'climate/packedRackFactor')).toMatchObject({ inForce: 0.35, decision: { value: null }, lapsed: false });
});

test('another network works with its own numbers', async () => {
  const { body, headers } = await (await bench.server.network()).get('/v1/calibration').expect(200);
  expect(headers['etag']).toBe('"0"');
  expect(body.numbers.filter(({ inForce, default: usual, decision }: { inForce: number; default: number; decision: unknown }) => inForce !== usual || decision !== null)).toEqual([]);
});

test('the same key sent again answers the first answer and decides nothing more', async () => {
  const { headers } = await bench.network.get('/v1/calibration').expect(200);
  const key = `"${newId()}"`;
  const send = () => bench.network.put('/v1/calibration/people/consecutiveHoursMax', { value: 12, reason: 'As agreed.', personId: bench.incident.person('P1') }, { 'if-match': headers['etag'] ?? '', 'idempotency-key': key }).expect(200);
  const [first, again] = [await send(), await send()];
  expect(again.body).toEqual(first.body);
  expect((await bench.network.get('/v1/calibration').expect(200)).headers['etag']).toBe(first.headers['etag']);
});
