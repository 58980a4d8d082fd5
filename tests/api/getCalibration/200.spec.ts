import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { ALARM_CALIBRATION, CALIBRATION_LIBRARIES, CARE_CALIBRATION, FOUND_CALIBRATION, MESSAGES_CALIBRATION, PLANNING_CALIBRATION, RETENTION_CALIBRATION, SIGHT_CALIBRATION, type CalibrationView } from '#application';
import { PEOPLE_CALIBRATION } from '#care';
import { CALIBRATION } from '#climate';
import { Workbench } from '../support/workbench.js';
import { setNumber, shown } from '../setCalibration/calibration.support.js';

type CalibrationEntry = CalibrationView['numbers'][number]['entry'];
const TABLES = { people: PEOPLE_CALIBRATION, climate: CALIBRATION, alarms: ALARM_CALIBRATION, planning: PLANNING_CALIBRATION, care: CARE_CALIBRATION, sight: SIGHT_CALIBRATION, retention: RETENTION_CALIBRATION, messages: MESSAGES_CALIBRATION, found: FOUND_CALIBRATION };

let bench: Workbench;
beforeAll(async () => {
  bench = await Workbench.open();
});
afterAll(() => bench.close());

test('every number of every table is shown as our own calibration, with unit, limits and why; nothing is set at first', async () => {
  const { body, headers } = await bench.network.get('/v1/calibration').expect(200);
  expect(headers['etag']).toBe('"0"');
  const tables = CALIBRATION_LIBRARIES.flatMap((library) => Object.entries<CalibrationEntry>(TABLES[library]).map(([key, entry]) => ({ library, key, ...entry })));
  expect(body).toEqual({
    number: 0,
    numbers: tables.map(({ library, key, value, unit, min, max, why, ...rest }) => ({
      library, key, unit, default: value, inForce: value, min, max, whole: rest.whole ?? false, mark: 'own-calibration', why, decision: null, lapsed: false,
    })),
  });
});

test('a number that this version cannot take any more is shown as lapsed, and its default is in force', async () => {
  await setNumber(bench, 'people/restHours', 10);
  // As a version with other limits and other numbers would have written it.
  const decide = (number: number, key: string, value: number) => bench.server.admin.query(
    `insert into calibration_value (network_id, id, number, library, key, value, reason, decided_by, decided_at, principal_id)
     select network_id, uuidv7(), $2, library, $3, $4, 'An earlier version.', decided_by, now(), principal_id from calibration_value where network_id = $1 and number = 1`,
    [bench.network.networkId, number, key, value],
  );
  await decide(2, 'restHours', 400);
  await decide(3, 'hoursOfOldVersions', 4);
  expect(await shown(bench, 'people/restHours')).toMatchObject({ inForce: PEOPLE_CALIBRATION.restHours.value, lapsed: true, decision: { value: 400 } });
  expect(await shown(bench, 'people/hoursOfOldVersions')).toBeUndefined();
  expect((await setNumber(bench, 'people/consecutiveHoursMax', 12)).status).toBe(200);
  expect(await shown(bench, 'people/consecutiveHoursMax')).toMatchObject({ inForce: 12 });
});

test('a key of another incident sees the numbers, and not the name of the lead', async () => {
  const other = await bench.network.incident();
  const limited = bench.network.as(await bench.network.newKey({ incidentId: other.id }));
  const { body } = await limited.get('/v1/calibration').expect(200);
  expect(body.numbers.find(({ key }: { key: string }) => key === 'consecutiveHoursMax')).toMatchObject({ inForce: 12, decision: { decidedBy: null } });
});
