import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { recordOf, Workbench } from '../support/workbench.js';

let bench: Workbench;
beforeAll(async () => {
  bench = await Workbench.open((document) => {
    const person = (code: string, more: object) => ({ code, displayName: `Assessor ${code}`, site: 'HALL', skills: ['assessment' as const], shifts: [{ startsAt: '2026-05-09T06:00:00Z', endsAt: '2026-05-09T21:00:00Z' }], ...more });
    document.people?.push(person('YOUNG', { restrictions: ['under-age'] }), person('UNFIT', {}), person('FIT', { respiratorFitUntil: '2026-05-09' }), person('NO-MOULD', { restrictions: ['no-mould'], respiratorFitUntil: '2027-04-30' }));
  });
});
afterAll(() => bench.close());

const as = (code: string, seen: object = {}) => ({ personId: bench.incident.person(code), ...seen });

/** Looks, and makes sure that nothing was recorded. */
async function refused(itemId: string, seen: object): Promise<{ codes: string[]; body: { detail: string; people: { instead: string[] }[] } }> {
  const before = await recordOf(bench, itemId);
  const { body } = await bench.assess(itemId, seen).expect(422);
  expect(body).toMatchObject({ code: 'person_not_suited' });
  expect(await recordOf(bench, itemId)).toEqual(before);
  return { body, codes: body.errors.map((error: { code: string; pointer: string }) => `${error.pointer} ${error.code}`) };
}

test('a look is for people with the skill: the answer says why and what they can do instead', async () => {
  const quilt = await bench.takeIn(await bench.household());
  const { body, codes } = await refused(quilt.id, as('P2'));
  expect(codes).toEqual(['#/personId skill_missing']);
  expect(body.detail).toMatch(/assessment.*What this person can do on this item: .*a lead answers for it/);
  expect(body.people[0]?.instead).toEqual(expect.arrayContaining(['colour-test']));
  await bench.assess(quilt.id, as('UNFIT')).expect(201);
});

test('nobody under age looks at what is dirty, and after a night too long somebody else does', async () => {
  const quilt = await bench.takeIn(await bench.household());
  expect((await refused(quilt.id, as('YOUNG'))).codes).toEqual(['#/personId under_age']);
  bench.server.clock.set(Date.parse('2026-05-09T19:30:00Z'));
  expect((await refused(quilt.id, as('UNFIT'))).codes).toEqual(['#/personId hours_too_long']);
  bench.server.clock.set(Date.parse('2026-05-09T07:00:00Z'));
});

test('a look at mould asks for a valid fit and for nobody who declared against it, also where the way of the thing holds no look any more', async () => {
  const quilt = await bench.testedQuilt(await bench.household());
  await bench.report(quilt.id, 'rinse', 'mould-found').expect(201);
  expect((await refused(quilt.id, as('UNFIT', { mould: 'active' }))).codes).toEqual(['#/personId respirator_fit_missing']);
  expect((await refused(quilt.id, as('NO-MOULD', { mould: 'active' }))).codes).toEqual(['#/personId restriction_declared']);
  await bench.assess(quilt.id, as('FIT', { mould: 'active' })).expect(201);
});

test('leads who are nobody of the incident, and leads who are none, are refused by pointer', async () => {
  const quilt = await bench.takeIn(await bench.household());
  const before = await recordOf(bench, quilt.id);
  for (const personId of [bench.incident.site(), bench.incident.person('P2')]) {
    expect((await bench.assess(quilt.id, as('P2', { override: { personId, reason: 'She looked all the same.' } })).expect(422)).body.errors[0].pointer).toBe('#/override/personId');
  }
  expect((await bench.assess(quilt.id, as('P2', { override: { personId: bench.incident.person('P1'), reason: 'x' } })).expect(400)).body.errors[0].pointer).toBe('#/override/reason');
  expect(await recordOf(bench, quilt.id)).toEqual(before);
});
