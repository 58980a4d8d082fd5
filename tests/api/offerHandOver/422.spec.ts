import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { Carrying, openTwoSites } from '../support/carrying.js';
import type { Workbench } from '../support/workbench.js';

let bench: Workbench;
let carry: Carrying;
beforeAll(async () => {
  bench = await openTwoSites();
  carry = new Carrying(bench);
});
afterAll(() => bench.close());

test('bad offers say what to mend, and offer nothing', async () => {
  const item = await bench.takeIn(await bench.household());
  const courier = { kind: 'courier', id: carry.person('P5') };
  const things = { itemIds: [item.id] };
  const cases: [object, object, string, string][] = [
    [courier, { itemIds: [bench.incident.id] }, 'reference_unknown', '#/itemIds/0'],
    [courier, { tags: [item.tag, 'KKKK-KKK-00'] }, 'tag_unknown', '#/tags/1'],
    [{ kind: 'courier', id: bench.incident.id }, things, 'reference_unknown', '#/to/id'],
    [{ kind: 'courier', id: carry.person('P2') }, things, 'command_refused', '#/to'],
    [{ kind: 'container', id: (await carry.container()).id }, things, 'command_refused', '#/to'],
    [courier, { ...things, expiresAt: '2026-05-09T06:59:00Z' }, 'command_refused', '#/expiresAt'],
    [courier, { ...things, expiresAt: '2026-06-09T07:00:00Z' }, 'command_refused', '#/expiresAt'],
    [courier, { ...things, personId: bench.incident.id }, 'reference_unknown', '#/personId'],
  ];
  for (const [to, body, code, pointer] of cases) {
    const answer = await carry.offer(to as { kind: string; id: string }, body);
    expect([answer.status, answer.body.code, answer.body.errors?.[0]?.pointer]).toEqual([422, code, pointer]);
  }
  expect((await carry.offer({ kind: 'household', id: bench.incident.id }, things).expect(422)).body.code).toBe('reference_unknown');
  expect((await carry.offer(courier, {}).expect(400)).body.code).toBe('validation_failed');
  expect((await bench.read(item.id))['openHandOver']).toBeNull();
});

test('a crate is not offered to a specialist as one thing', async () => {
  const crate = await carry.container();
  const { body } = await carry.offer({ kind: 'specialist', id: bench.incident.specialist('SP1') }, { containerIds: [crate.id] }).expect(422);
  expect(body.detail).toContain("owner's yes");
});
