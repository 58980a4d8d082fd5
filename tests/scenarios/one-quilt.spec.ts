import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import { verifyChain, type CustodyEvent } from '#custody';
import { Workbench } from '../api/support/workbench.js';

let bench: Workbench;
beforeAll(async () => {
  bench = await Workbench.open();
});
afterAll(() => bench.close());

/** The chain as the API shows it, back in the form that was hashed. */
async function chainOf(itemId: string): Promise<CustodyEvent[]> {
  const { body } = await bench.network.get(`/v1/items/${itemId}/custody-events?limit=200`).expect(200);
  return body.items.map(({ form, occurredAt, recordedAt, ...event }: Record<string, unknown>) => ({
    ...event, v: form, networkId: bench.network.networkId, occurredAtMs: Date.parse(String(occurredAt)), recordedAtMs: Date.parse(String(recordedAt)),
  }));
}

function later(minutes: number): void {
  bench.server.clock.set(bench.server.clock.nowMs() + minutes * 60_000);
}

describe('one quilt', () => {
  test('goes from the doorway to its family again, rinsed, dried and with an unbroken chain', async () => {
    const household = await bench.household();
    const quilt = await bench.takeIn(household);
    expect(quilt).toMatchObject({ stage: 'waiting', disposition: 'treat', nextStep: 'assess' });

    later(20);
    await bench.startAt(quilt.id, 'TEST');
    const seen = await bench.assess(quilt.id).expect(201);
    expect(seen.body).toMatchObject({ disposition: 'treat', nextStep: 'colour-test', observed: { fibre: 'cotton', consents: { treat: true } } });
    later(6);
    const tested = await bench.colourTest(quilt.id, 'no-transfer').expect(201);
    expect(tested.body).toMatchObject({ nextStep: 'rinse', origin: 'colour-test', observed: { allColoursTested: true } });
    const closed = await bench.report(quilt.id, 'colour-test').expect(201);
    expect(closed.body).toMatchObject({ item: { stage: 'waiting', keeper: bench.holding('dirty'), nextStep: 'rinse' }, next: { step: 'rinse', zone: 'dirty' } });

    later(10);
    await bench.startAt(quilt.id, 'RINSE');
    later(25);
    const rinsed = await bench.report(quilt.id, 'rinse').expect(201);
    expect(rinsed.body).toMatchObject({ item: { stage: 'waiting', keeper: bench.holding('clean'), nextStep: 'blot' }, next: { step: 'blot', zone: 'clean' }, planRunId: null });

    await bench.startAt(quilt.id, 'BLOT');
    later(15);
    expect((await bench.report(quilt.id, 'blot').expect(201)).body.item).toMatchObject({ nextStep: 'dry', stabilisedAt: null });
    await bench.hang(quilt.id);
    expect((await bench.read(quilt.id)).stabilisedAt).not.toBeNull();
    later(30 * 60);
    const dried = await bench.report(quilt.id, 'dry').expect(201);
    expect(dried.body.item).toMatchObject({ stage: 'waiting', nextStep: 'check', keeper: bench.holding('clean') });

    await bench.startAt(quilt.id, 'PACK');
    const checked = await bench.report(quilt.id, 'check').expect(201);
    expect(checked.body.item).toMatchObject({ nextStep: 'wrap', disposition: 'treat', keeper: bench.holding('clean') });
    expect((await bench.report(quilt.id, 'wrap').expect(201)).body).toMatchObject({ item: { nextStep: 'hand-back' }, next: { step: 'hand-back', zone: 'clean' } });

    later(60);
    const handed = await bench.handBack(household, [quilt.id]).expect(201);
    expect(handed.body.receipt.items[0]).toMatchObject({ tag: quilt.tag, notDone: [], done: expect.arrayContaining(['rinsed', 'dried in moving air']) });
    expect(await bench.read(quilt.id)).toMatchObject({ stage: 'handed-back', keeper: { kind: 'household', id: household.id }, nextStep: null });

    const chain = await chainOf(quilt.id);
    expect(chain.map((event) => event.kind)).toEqual(['taken-in', 'work-started', 'work-ended', 'work-started', 'work-ended', 'work-started', 'work-ended', 'drying-started', 'drying-ended', 'work-started', 'work-ended', 'handed-back']);
    expect(chain.at(-1)?.refs).toEqual({ handBackId: handed.body.id });
    expect(verifyChain(chain)).toEqual([]);
    const broken = chain.map((event) => (event.seq === 5 ? { ...event, to: { ...event.to, id: household.id } } : event));
    expect(verifyChain(broken)).not.toEqual([]);
    const { body: sums } = await bench.network.get(`/v1/incidents/${bench.incident.id}/reconciliation`).expect(200);
    expect(sums).toMatchObject({ difference: 0, chainFaults: [], keepersOtherThanOne: [] });
  });

  test('whose dye moves in the bath is stopped, dried without more water, sent to a conservator and comes back for a new look', async () => {
    const household = await bench.household();
    const quilt = await bench.testedQuilt(household);
    await bench.startAt(quilt.id, 'RINSE');
    const stopped = await bench.report(quilt.id, 'rinse', 'dye-moved', { note: 'Red in the water after two minutes.' }).expect(201);
    expect(stopped.body.item).toMatchObject({ urgency: 'immediate', disposition: 'refer', stage: 'waiting' });
    expect(stopped.body.changes.join(' ')).toContain('counts as bleeding');
    expect(stopped.body.planRunId).toMatch(/^[0-9a-f-]{36}$/);
    const { body: triage } = await bench.network.get(`/v1/items/${quilt.id}/triage`).expect(200);
    expect(triage.options.find((option: { disposition: string }) => option.disposition === 'treat').steps.map((care: { step: string }) => care.step)).not.toContain('rinse');
    expect((await bench.report(quilt.id, 'rinse').expect(409)).body).toMatchObject({ code: 'wrong_stage', nextStep: stopped.body.item.nextStep });

    await bench.startAt(quilt.id, 'RINSE');
    expect((await bench.report(quilt.id, 'stabilise').expect(201)).body.item).toMatchObject({ nextStep: 'pack', stage: 'waiting' });
    expect((await bench.report(quilt.id, 'pack').expect(201)).body.item.nextStep).toBe('refer');
    const sent = await bench.network.post(`/v1/items/${quilt.id}/referrals`, { specialistId: bench.incident.specialist('SP1'), reason: 'The red dye moves.' }).expect(201);
    expect(sent.body).toMatchObject({ returnedAt: null, item: { stage: 'referred-out', nextStep: null } });

    later(48 * 60);
    const back = await bench.network.post(`/v1/items/${quilt.id}/referral-returns`, { to: bench.holding('clean') }).expect(201);
    expect(back.body.item).toMatchObject({ stage: 'waiting', nextStep: 'assess', keeper: bench.holding('clean') });
    const looked = await bench.assess(quilt.id, { wetState: 'dry', alreadyBled: true }).expect(201);
    expect(looked.body).toMatchObject({ disposition: 'treat', observed: { wetState: 'dry', alreadyBled: true } });
    expect(looked.body.nextStep).not.toBe('rinse');
    const handed = await bench.handBack(household, [quilt.id]).expect(201);
    const text = await bench.network.get(`/v1/hand-backs/${handed.body.id}/receipt`).expect(200);
    expect(text.text).toContain('It was not rinsed to the end, because its dye moved.');
    expect(text.text).toContain('Its dye moves. Let no water touch it');
    expect(verifyChain(await chainOf(quilt.id))).toEqual([]);
  });
});
