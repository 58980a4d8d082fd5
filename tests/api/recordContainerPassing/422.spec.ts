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

test('a container goes neither into itself nor into what lies inside it', async () => {
  const [outer, inner] = [await carry.container(), await carry.container()];
  const itself = await carry.moveContainer(outer.id, outer.keeper, { kind: 'container', id: outer.id }).expect(422);
  expect(itself.body.errors[0]).toMatchObject({ code: 'in_itself', pointer: '#/to' });
  await carry.moveContainer(inner.id, inner.keeper, { kind: 'container', id: outer.id }).expect(201);
  const { body } = await carry.moveContainer(outer.id, outer.keeper, { kind: 'container', id: inner.id }).expect(422);
  expect(body.errors[0].code).toBe('in_itself');
  expect((await carry.readContainer(outer.id)).custodySeq).toBe(1);
});

test.each(['freezer', 'drying-place', 'specialist', 'household'] as const)('it does not go to a %s as one thing; the answer says what to do', async (kind) => {
  const crate = await carry.container();
  const { incident } = bench;
  const id = { freezer: () => incident.freezer('F1'), 'drying-place': () => incident.place('R1'), specialist: () => incident.specialist('SP1'), household: () => incident.id }[kind]();
  const { body } = await carry.moveContainer(crate.id, crate.keeper, { kind, id }).expect(422);
  expect(body).toMatchObject({ code: 'command_refused', errors: [{ code: 'keeper_not_offered', pointer: '#/to/kind' }] });
  expect(body.detail).toMatch(/each (thing|by)|things/);
});

test('a place of nobody is refused by pointer', async () => {
  const crate = await carry.container();
  expect((await carry.moveContainer(crate.id, crate.keeper, { kind: 'shelf', id: bench.incident.id }).expect(422)).body).toMatchObject({ code: 'reference_unknown', errors: [{ pointer: '#/to/id' }] });
});
