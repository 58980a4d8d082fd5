import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import { Carrying, openTwoSites, type KeeperSeen } from '../support/carrying.js';
import type { Workbench } from '../support/workbench.js';

let bench: Workbench;
let carrying: Carrying;
beforeAll(async () => {
  bench = await openTwoSites();
  carrying = new Carrying(bench);
});
afterAll(() => bench.close());

interface Thing { id: string; tag: string; keeper: KeeperSeen }

let codes = 0;
const place = async (arrangement: string) => ({ kind: 'drying-place', id: (await bench.network.post(`/v1/incidents/${bench.incident.id}/drying-places`, { dryingRoomId: bench.incident.room('ROOM'), code: `P${(codes += 1)}`, name: `Place ${codes}`, arrangement, areaM2: 20 }).expect(201)).body.id as string });
const freezer = async () => ({ kind: 'freezer', id: (await bench.network.post(`/v1/incidents/${bench.incident.id}/freezers`, { siteId: bench.incident.site(), code: `X${(codes += 1)}`, name: `Trailer ${codes}`, volumeL: 4_000, availableFrom: '2026-05-09T06:00:00Z' }).expect(201)).body.id as string });
const move = async (thing: Thing, kind: string, to: object, change: object = {}, headers: Record<string, string> = {}) => bench.network.post(`/v1/items/${thing.id}/custody-events`, { kind, from: (await bench.read(thing.id)).keeper, to, ...change }, headers);
const hang = (thing: Thing, to: object, change: object = {}) => move(thing, 'drying-started', to, change);
const asLead = () => ({ personId: bench.incident.person('P1'), reason: 'It lies on the lowest tier, with a sheet over it.' });

/** Rinsed and blotted: its turn to dry. */
async function rinsed(): Promise<Thing> {
  const quilt = await bench.testedQuilt(await bench.household());
  for (const step of ['rinse', 'blot']) await bench.report(quilt.id, step).expect(201);
  return bench.read(quilt.id) as Promise<Thing>;
}

/** With mould, and by a lead's choice to be dried here, or to be frozen. */
async function mouldy(disposition: 'treat' | 'hold-frozen' = 'treat'): Promise<Thing> {
  const cloth = await bench.assessedQuilt(await bench.household(), { materialClass: 'textile-flat-small', sizeClass: 'garment' });
  await bench.assess(cloth.id, { mould: 'active' }).expect(201);
  await bench.network.post(`/v1/items/${cloth.id}/disposition-overrides`, { disposition, reason: 'There is a place for it.', personId: bench.incident.person('P1') }).expect(201);
  return bench.read(cloth.id) as Promise<Thing>;
}

/** Reports what comes before the freezer. */
async function wrapped(thing: Thing): Promise<Thing> {
  for (let steps = 0; steps < 6; steps += 1) {
    const { nextStep } = await bench.read(thing.id);
    if (nextStep === 'freeze') return thing;
    await bench.report(thing.id, String(nextStep), 'done', { disposition: 'hold-frozen' }).expect(201);
  }
  throw new Error('it never came to the freezer');
}

async function toBeFrozen(): Promise<Thing> {
  const quilt = await bench.testedQuilt(await bench.household());
  await bench.network.post(`/v1/items/${quilt.id}/disposition-overrides`, { disposition: 'hold-frozen', reason: 'The racks are full.', personId: bench.incident.person('P1') }).expect(201);
  return bench.read(quilt.id) as Promise<Thing>;
}

describe('on drying places', () => {
  test('what has mould, or is unrinsed, is not hung where rinsed things hang: the answer names them and a place that would take it', async () => {
    const [rack, screen] = [await place('rack'), await place('screen')];
    const [clean, cloth] = [await rinsed(), await mouldy()];
    expect((await hang(clean, rack)).status).toBe(201);
    const refused = await hang(cloth, rack);
    expect(refused.status).toBe(409);
    expect(refused.body).toMatchObject({ code: 'company_refused', place: rack, with: expect.arrayContaining([{ tag: clean.tag, ruleId: 'apart.mould' }, { tag: clean.tag, ruleId: 'apart.black-water' }]) });
    expect(refused.body.alternatives).toContainEqual({ keeper: screen, name: expect.any(String) });
    expect(refused.body.detail).toContain(clean.tag);
    expect(await bench.read(cloth.id)).toMatchObject({ keeper: cloth.keeper, stage: 'waiting' });
    const [other] = refused.body.alternatives;
    expect((await hang(cloth, other.keeper)).status).toBe(201);
    expect((await hang(await rinsed(), other.keeper)).body).toMatchObject({ code: 'company_refused', with: expect.arrayContaining([{ tag: cloth.tag, ruleId: 'apart.mould' }]) });
  });

  test('what bleeds drips on nothing that could take its colour: not on a rack, but beside it on a screen', async () => {
    const [rack, screen] = [await place('rack'), await place('screen')];
    const [bleeding, another] = [await rinsed(), await rinsed()];
    for (const [thing, where] of [[bleeding, rack], [another, screen]] as const) {
      expect((await hang(thing, where)).status).toBe(201);
      await bench.assess(thing.id, { alreadyBled: true, wetState: 'damp' }).expect(201);
    }
    expect((await hang(await rinsed(), rack)).body).toMatchObject({ code: 'company_refused', with: [{ tag: bleeding.tag, ruleId: 'apart.bleeding' }] });
    expect((await hang(await rinsed(), screen)).status).toBe(201);
  });

  test('a lead may hang it there all the same and says why, which stays in the chain', async () => {
    const rack = await place('rack');
    expect((await hang(await rinsed(), rack)).status).toBe(201);
    const cloth = await mouldy();
    expect((await hang(cloth, rack, { ...asLead(), personId: bench.incident.person('P2') })).status).toBe(409);
    const hung = await hang(cloth, rack, asLead());
    expect(hung.body).toMatchObject({ kind: 'drying-started', to: rack, refs: asLead() });
  });

  test('of two that must not hang together and come at the same moment, one is taken', async () => {
    const rack = await place('rack');
    const answers = await Promise.all([await rinsed(), await mouldy()].map((thing) => hang(thing, rack)));
    expect(answers.map(({ status }) => status).sort()).toEqual([201, 409]);
  });
});

describe('in freezers', () => {
  test('what has mould shares one when both are closed parcels, by a custody event and by the report of the step; unwrapped it does not', async () => {
    const [chest, trailer] = [await freezer(), await freezer()];
    const [bare, parcel, cloth] = [await toBeFrozen(), await wrapped(await toBeFrozen()), await wrapped(await mouldy('hold-frozen'))];
    expect((await move(bare, 'frozen', chest)).status).toBe(201);
    const refused = await bench.report(cloth.id, 'freeze', 'done', { to: chest }).expect(409);
    expect(refused.body).toMatchObject({ code: 'company_refused', with: [{ tag: bare.tag, ruleId: 'apart.mould' }] });
    expect(refused.body.alternatives).toContainEqual({ keeper: trailer, name: expect.any(String) });
    expect(await bench.read(cloth.id)).toMatchObject({ nextStep: 'freeze', stage: 'waiting' });
    await bench.report(parcel.id, 'freeze', 'done', { to: trailer }).expect(201);
    expect((await move(await mouldy('hold-frozen'), 'frozen', trailer)).body).toMatchObject({ code: 'company_refused', inWords: expect.arrayContaining([expect.stringMatching(/^Wrap it first|^There is room/)]) });
    await bench.report(cloth.id, 'freeze', 'done', { to: trailer }).expect(201);
  });
});

describe('on vehicles', () => {
  test('what is loose, or in a crate, is asked about; a bag that closes keeps it apart; a manifest is asked the same', async () => {
    const van = await carrying.vehicle();
    const [clean, cloth] = [await rinsed(), await mouldy()];
    expect((await move(clean, 'moved', van)).status).toBe(201);
    const refused = await move(cloth, 'moved', van, {}, { 'accept-language': 'es' });
    expect(refused.body).toMatchObject({ code: 'company_refused', place: van, with: expect.arrayContaining([{ tag: clean.tag, ruleId: 'apart.mould' }]) });
    expect(refused.body.inWords).toEqual(expect.arrayContaining([`Ya están allí: ${clean.tag}.`, expect.stringMatching(/^Póngalo en una caja o bolsa que cierre/)]));
    const trip = await carrying.manifest(van, [cloth.tag]);
    expect((await carrying.onManifest(trip.id, 'loadings', { tags: [cloth.tag] }).expect(409)).body.code).toBe('company_refused');
    const [crate, bag] = [await carrying.container({ kind: 'crate' }), await carrying.container({ kind: 'bag' })];
    await bench.pass(cloth.id, 'moved', { kind: 'container', id: crate.id });
    expect((await carrying.moveContainer(crate.id, crate.keeper, van).expect(409)).body).toMatchObject({ code: 'company_refused', with: expect.arrayContaining([{ tag: clean.tag, ruleId: 'apart.mould' }]) });
    expect((await carrying.moveContainer(crate.id, crate.keeper, van, { reason: 'No other trip.', personId: bench.incident.person('P2') })).status).toBe(409);
    await bench.pass(cloth.id, 'moved', { kind: 'container', id: bag.id });
    await carrying.moveContainer(bag.id, bag.keeper, van).expect(201);
    // The crate is empty now, goes along, and takes nothing on the van that would lie open beside the clean thing.
    await carrying.moveContainer(crate.id, crate.keeper, van).expect(201);
    expect((await move(await mouldy(), 'moved', { kind: 'container', id: crate.id })).body).toMatchObject({ code: 'company_refused', with: expect.arrayContaining([{ tag: clean.tag, ruleId: 'apart.mould' }]) });
  });

  test('a lead may let a crate go with it and says why', async () => {
    const van = await carrying.vehicle();
    expect((await move(await rinsed(), 'moved', van)).status).toBe(201);
    const crate = await carrying.container();
    await bench.pass((await mouldy()).id, 'moved', { kind: 'container', id: crate.id });
    await carrying.moveContainer(crate.id, crate.keeper, van, asLead()).expect(201);
  });
});

test('at the baths each takes water of its own or shares it with its like; when all are taken the next one waits', async () => {
  const alone = async () => {
    const quilt = await bench.assessedQuilt(await bench.household());
    await bench.colourTest(quilt.id, '4-5').expect(201);
    return bench.read(quilt.id) as Promise<Thing>;
  };
  const baths = { kind: 'station', id: bench.incident.station('RINSE') };
  const [first, second, third] = [await alone(), await alone(), await alone()];
  for (const quilt of [first, second]) expect((await move(quilt, 'work-started', baths)).status).toBe(201);
  expect((await move(third, 'work-started', baths)).body).toMatchObject({ code: 'company_refused', with: expect.arrayContaining([{ tag: first.tag, ruleId: null }]) });
  await bench.report(first.id, 'rinse').expect(201);
  const fast = [await bench.testedQuilt(await bench.household()), await bench.testedQuilt(await bench.household())];
  for (const quilt of fast) expect((await move(quilt as unknown as Thing, 'work-started', baths)).status).toBe(201);
});

test('what has mould is not taken in, put down or brought back into the waiting area of the clean zone', async () => {
  const cloth = await mouldy();
  expect((await move(cloth, 'moved', bench.holding('clean'))).body).toMatchObject({ code: 'company_refused', alternatives: [{ keeper: bench.holding('quarantine') }] });
});
