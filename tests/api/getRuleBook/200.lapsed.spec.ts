import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { RULE_BOOK_VERSION } from '#care';
import { newId } from '#platform';
import { Workbench } from '../support/workbench.js';

let bench: Workbench;
beforeAll(async () => {
  bench = await Workbench.open();
});
afterAll(() => bench.close());

test('a choice that an earlier version of the program stored and this one does not know stands at its default, is named, and stops no triage', async () => {
  await bench.server.admin.query(
    `insert into rule_book_choice (network_id, id, number, release, choices, version, reason, decided_by, decided_at, principal_id) values ($1, $2, 1, $4, '{"gone-choice": "x", "glass-negatives": "gelatin-may", "mould-clock": "24h"}', '2025.9+x', 'From long ago.', $3, now(), $2)`,
    [bench.network.networkId, newId(), bench.incident.person('P1'), RULE_BOOK_VERSION],
  );
  const { body } = await bench.network.get('/v1/rulebook').expect(200);
  expect(body).toMatchObject({ number: 1, version: `${RULE_BOOK_VERSION}+mould-clock=24h` });
  expect(body.lapsed.sort()).toEqual(['glass-negatives', 'gone-choice']);
  const quilt = await bench.takeIn(await bench.household());
  expect((await bench.assess(quilt.id).expect(201)).body.ruleBookVersion).toBe(`${RULE_BOOK_VERSION}+mould-clock=24h`);
});

test('a release that the program does not hold gives way to the newest, is named, and stops no triage', async () => {
  await bench.server.admin.query(
    `insert into rule_book_choice (network_id, id, number, release, choices, version, reason, decided_by, decided_at, principal_id) values ($1, $2, 2, '2025.1', '{}', '2025.1', 'From long ago.', $3, now(), $2)`,
    [bench.network.networkId, newId(), bench.incident.person('P1')],
  );
  const { body } = await bench.network.get('/v1/rulebook').expect(200);
  expect(body).toMatchObject({ number: 2, version: RULE_BOOK_VERSION, lapsedRelease: '2025.1', decision: { release: '2025.1' } });
  const quilt = await bench.takeIn(await bench.household());
  expect((await bench.assess(quilt.id).expect(201)).body.ruleBookVersion).toBe(RULE_BOOK_VERSION);
});
