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

const create = (body: object) => bench.network.post(`/v1/incidents/${bench.incident.id}/manifests`, { fromSiteId: carry.site('HALL'), toSiteId: carry.site('STORE'), personId: carry.person('P2'), ...body });

test('a carrier is loaded for one trip at a time, also when two start at the same moment', async () => {
  const carrier = await carry.vehicle();
  const answers = await Promise.all([create({ carrier }), create({ carrier })]);
  expect(answers.map(({ status }) => status).sort()).toEqual([201, 409]);
  const { body } = await create({ carrier }).expect(409);
  expect(body).toMatchObject({ code: 'already_exists', manifestId: answers.find(({ status }) => status === 201)?.body.id });
});

test('bad manifests say what to mend', async () => {
  const crate = await carry.container();
  const carrier = { kind: 'container', id: crate.id };
  expect((await create({ carrier: bench.holding('dirty') }).expect(422)).body.errors[0].pointer).toBe('#/carrier/kind');
  expect((await create({ carrier: { kind: 'vehicle', id: bench.incident.id } }).expect(422)).body).toMatchObject({ code: 'reference_unknown', errors: [{ pointer: '#/carrier/id' }] });
  expect((await create({ carrier, toSiteId: bench.incident.id }).expect(422)).body.errors[0].pointer).toBe('#/toSiteId');
  expect((await create({ carrier, expected: [crate.tag] }).expect(422)).body.errors[0]).toMatchObject({ code: 'inside_itself', pointer: '#/expected/0' });
  expect((await create({ carrier, expected: ['nonsense'] }).expect(422)).body).toMatchObject({ code: 'tag_unknown', errors: [{ pointer: '#/expected/0' }] });
});
