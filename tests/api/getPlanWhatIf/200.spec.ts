import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import { reviveRow, type Planner } from '#application';
import { startTestServer, type TestServer } from '#testing';
import { inlinePlanner, workerContextOf } from '../../unit/plan-problem/support/runs.js';
import { ask, giveUp, livePlan, meetingPlanner, reckon, shortOfFreezer } from '../support/what-ifs.js';

let server: TestServer;
beforeAll(async () => { server = await startTestServer(); });
afterAll(() => server.close());

describe('what changes would save', () => {
  test('a freezer saves what it holds, by tag and weight; a bath that nothing waits for saves nothing; a freezer that fails costs what it held', async () => {
    const { network, incident, quilts } = await shortOfFreezer(server);
    const changes = [
      { kind: 'freezer', siteId: incident.site(), volumeL: 500 }, { kind: 'station-units', stationId: incident.station('RINSE'), units: 1 }, { kind: 'freezer-fails', freezerId: incident.freezer('F1') },
    ];
    const id = await ask(network, incident, { changes });
    expect(await reckon(server, network, id)).toBe('done');
    const { body } = await network.get(`/v1/plan-what-ifs/${id}`).expect(200);
    const { body: plan } = await network.get(`/v1/incidents/${incident.id}/plan`).expect(200);
    const late = plan.notInTime.weight as number;
    expect(body).toMatchObject({ state: 'done', plansDone: 12, plansInAll: 12, startedAt: '2026-05-09T07:00:00.000Z', finishedAt: '2026-05-09T07:00:00.000Z', failure: null });
    expect(body.result).toMatchObject({
      asOf: '2026-05-09T07:00:00.000Z', revisionId: plan.revisionId, revisionNumber: 1, seeds: [1, 2, 3], iterations: 20, weightNotInTimeInForce: late, weightNotInTime: { least: late, middle: late, greatest: late }, item: null,
    });
    const [freezer, bath, failed] = body.result.values;
    expect(freezer).toMatchObject({
      changes: [changes[0]], inWords: 'a freezer of 500 L more at Weir Lane hall', weightSaved: { least: late, middle: late, greatest: late }, savedItems: 2, lostItems: 0, lost: [],
      valueInWords: `It would save a weight of ${late}: 2 things in time that would not be.`,
    });
    const tags = await Promise.all(quilts.map(async (quilt) => [quilt, (await network.get(`/v1/items/${quilt}`).expect(200)).body.tag]));
    for (const { itemId, tag, weight, runs } of freezer.saved) expect({ tag, weight, runs }).toEqual({ tag: new Map(tags as [string, string][]).get(itemId), weight: late / 2, runs: 3 });
    expect(bath).toMatchObject({ weightSaved: { least: 0, greatest: 0 }, savedItems: 0, valueInWords: 'It would save nothing that is not saved without it.' });
    expect(failed).toMatchObject({ weightSaved: { least: -late / 2, greatest: -late / 2 }, savedItems: 0, lostItems: 1, valueInWords: `It would cost a weight of ${late / 2}: 1 thing not in time any more.` });
  });

  test('what it asks of people, power and places stands beside it', async () => {
    const { network, incident } = await shortOfFreezer(server);
    const shift = { startsAt: '2026-05-09T08:00:00Z', endsAt: '2026-05-10T08:00:00Z' };
    const id = await ask(network, incident, {
      changes: [{ kind: 'people', siteId: incident.site(), count: 2, skills: ['colour-testing'], shifts: [shift] }, { kind: 'dehumidifier', dryingRoomId: incident.room('ROOM'), ratedLPerDay: 50, ratedTempC: 26.7, ratedRelativeHumidityPct: 60 },
        { kind: 'person-leaves', personId: incident.person('P1'), at: '2026-05-09T09:00:00Z' }],
    });
    await reckon(server, network, id);
    const { values } = (await network.get(`/v1/plan-what-ifs/${id}`).expect(200)).body.result;
    expect(values[0].inWords).toBe('2 more people for colour testing at Weir Lane hall from 2026-05-09 08:00 UTC to 2026-05-10 08:00 UTC');
    expect(values[0].cautions.join(' ')).toMatch(/rest rules: nobody works more than \d+ hours here/);
    expect(values[1].cautions.join(' ')).toMatch(/power, floor and drain/);
    expect(values[2].cautions.join(' ')).toMatch(/goes home, whatever it costs/);
  });

  test('together they are one change; the bath without hands is worth less than both', async () => {
    const { network, incident } = await shortOfFreezer(server);
    const id = await ask(network, incident, { together: true, changes: [{ kind: 'freezer', siteId: incident.site(), volumeL: 40 }, { kind: 'freezer', siteId: incident.site(), volumeL: 40 }] });
    await reckon(server, network, id);
    const { values } = (await network.get(`/v1/plan-what-ifs/${id}`).expect(200)).body.result;
    expect(values).toHaveLength(1);
    expect(values[0]).toMatchObject({ savedItems: 2, inWords: 'a freezer of 40 L more at Weir Lane hall, together with a freezer of 40 L more at Weir Lane hall' });
  });

  test('without changes it tries what the plan is short of, in the words in which it could be asked for again', async () => {
    const { network, incident } = await shortOfFreezer(server);
    const id = await ask(network, incident, {});
    await reckon(server, network, id);
    const { values } = (await network.get(`/v1/plan-what-ifs/${id}`).expect(200)).body.result;
    const kinds = values.map(({ changes }: { changes: { kind: string }[] }) => changes[0]!.kind);
    expect(kinds).toContain('freezer');
    // Volunteers come the next morning from eight to twelve.
    expect(values.at(-1).changes).toMatchObject([{ kind: 'people', count: 2, shifts: [{ startsAt: expect.stringMatching(/^2026-05-10T/), endsAt: expect.any(String) }] }]);
    await network.post(`/v1/incidents/${incident.id}/plan-what-ifs`, { changes: values.map(({ changes }: { changes: object[] }) => changes[0]) }).expect(202);
  });

  test('about one item it says which change gets it in, and the explanation of the item says it too', async () => {
    const { network, incident, quilts } = await shortOfFreezer(server);
    const { body: listed } = await network.get(`/v1/incidents/${incident.id}/plan/unplanned`).expect(200);
    const out = listed.items[0].itemId as string;
    expect(quilts).toContain(out);
    const id = await ask(network, incident, { itemId: out, changes: [{ kind: 'station-units', stationId: incident.station('RINSE'), units: 1 }, { kind: 'freezer', siteId: incident.site(), volumeL: 500 }] });
    await reckon(server, network, id);
    const { item } = (await network.get(`/v1/plan-what-ifs/${id}`).expect(200)).body.result;
    expect(item).toMatchObject({ itemId: out, tag: listed.items[0].tag, unchangedRuns: 0, changedRuns: [0, 3], smallest: 1, inWords: `${listed.items[0].tag} would be in time with this: a freezer of 500 L more at Weir Lane hall.` });
    const { body } = await network.get(`/v1/items/${out}/plan-explanation`).expect(200);
    expect(body.wouldHelp).toEqual({ planWhatIfId: id, asOf: '2026-05-09T07:00:00.000Z', inWords: item.inWords });
  });

  test('it speaks Spanish, numbers and all', async () => {
    const { network, incident } = await shortOfFreezer(server);
    const id = await ask(network, incident, { changes: [{ kind: 'freezer', siteId: incident.site(), volumeL: 500 }] });
    await reckon(server, network, id);
    const { body, headers } = await network.get(`/v1/plan-what-ifs/${id}`, { 'accept-language': 'es' }).expect(200);
    expect(headers['content-language']).toBe('es');
    expect(body.result.values[0]).toMatchObject({ inWords: 'un congelador más de 500 L en Weir Lane hall', valueInWords: expect.stringMatching(/^Salvaría un peso de \d+: 2 objetos/) });
  });
});

describe('the reckoning', () => {
  test('touches nothing of the live plan, whatever it finds', async () => {
    const { network, incident } = await shortOfFreezer(server);
    const before = await livePlan(server, incident.id);
    await reckon(server, network, await ask(network, incident, {}));
    await reckon(server, network, await ask(network, incident, { changes: [{ kind: 'person-leaves', personId: incident.person('P1'), at: '2026-05-09T07:00:00Z' }] }));
    expect(await livePlan(server, incident.id)).toEqual(before);
  });

  test('that breaks off is done again from the start, and stored once', async () => {
    const { network, incident } = await shortOfFreezer(server);
    const id = await ask(network, incident, { changes: [{ kind: 'freezer', siteId: incident.site(), volumeL: 500 }] });
    let plans = 0;
    const dying: Planner = { plan: (problem, budget) => ((plans += 1) === 4 ? Promise.reject(new Error('killed')) : inlinePlanner.plan(problem, budget)) };
    await expect(reckon(server, network, id, dying)).rejects.toThrow('killed');
    expect((await network.get(`/v1/plan-what-ifs/${id}`).expect(200)).body).toMatchObject({ state: 'running', plansDone: 3, plansInAll: 6, result: null });
    expect(await reckon(server, network, id)).toBe('done');
    const stored = (await network.get(`/v1/plan-what-ifs/${id}`).expect(200)).body;
    expect(await reckon(server, network, id)).toBe('done');
    expect((await network.get(`/v1/plan-what-ifs/${id}`).expect(200)).body).toEqual(stored);
  });

  test('beside itself stores once: one of the two is overtaken', async () => {
    const { network, incident } = await shortOfFreezer(server);
    const id = await ask(network, incident, { changes: [{ kind: 'freezer', siteId: incident.site(), volumeL: 500 }] });
    // Neither plans before both have begun: a run that begins after the other's end finds it done, which is right too.
    const together = meetingPlanner(2);
    expect((await Promise.all([reckon(server, network, id, together()), reckon(server, network, id, together())])).sort()).toEqual(['done', 'overtaken']);
  });

  test('that was given up says so, and is done when its row is revived', async () => {
    const { network, incident } = await shortOfFreezer(server);
    const id = await ask(network, incident, { changes: [{ kind: 'freezer', siteId: incident.site(), volumeL: 500 }] });
    await giveUp(server, network, id);
    expect((await network.get(`/v1/plan-what-ifs/${id}`).expect(200)).body).toMatchObject({ state: 'failed', failure: expect.stringMatching(/^It could not be reckoned after several tries/) });
    const { rows } = await server.admin.query<{ id: string }>("update outbox set dead_at = clock_timestamp(), dead_reason = 'for the test' where subject_id = $1 returning id", [id]);
    const message = { id: rows[0]!.id, incidentId: incident.id, kind: 'plan.what_if' as const, subjectId: id, traceparent: '' };
    expect(await server.unitOfWork.write(workerContextOf(network), (stores) => reviveRow(stores, message))).toBe('to-be-done');
    expect(await reckon(server, network, id)).toBe('done');
    expect((await network.get(`/v1/plan-what-ifs/${id}`).expect(200)).body).toMatchObject({ state: 'done', failure: null });
  });

  test('of something that went meanwhile fails with what to do', async () => {
    const { network, incident } = await shortOfFreezer(server);
    const station = incident.station('RINSE');
    const id = await ask(network, incident, { changes: [{ kind: 'station-units', stationId: station, units: 1 }] });
    await network.patch(`/v1/incidents/${incident.id}/stations/${station}`, { state: 'closed' }, { 'if-match': '"1"' }).expect(200);
    expect(await reckon(server, network, id)).toBe('failed');
    expect((await network.get(`/v1/plan-what-ifs/${id}`).expect(200)).body).toMatchObject({ state: 'failed', result: null, failure: 'Something that a change names is not there any more. Look at the layout and ask again.' });
  });
});
