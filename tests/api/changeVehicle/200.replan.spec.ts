import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import { expectOneRequest, waitingRuns } from '../support/plan-requests.js';
import { TwoHalls } from '../support/two-halls.js';

let halls: TwoHalls;
beforeAll(async () => {
  halls = await TwoHalls.open();
});
afterAll(() => halls.bench.close());

const change = (van: { id: string }, version: number, body: object) => halls.bench.network.patch(`${halls.incidentPath}/vehicles/${van.id}`, body, { 'if-match': `"${version}"` }).expect(200);

describe('changeVehicle asks for', () => {
  test('no plan while a plan cannot reckon with the vehicle, nor when its name or volume changes', async () => {
    const { server, incident } = halls.bench;
    const unloaded = await halls.van({ code: 'V-UNKNOWN', maxLoadKg: null });
    await change(unloaded, 1, { rides: [halls.rides[0]], volumeL: 4000 });
    const idle = await halls.van({ code: 'V-IDLE', rides: null });
    await change(idle, 1, { maxLoadKg: 500, name: 'Red van' });
    expect(await waitingRuns(server, incident.id)).toEqual([]);
  });

  test('a new plan when its rides become known; a second change while the run waits asks for no second', async () => {
    const { server, incident } = halls.bench;
    const van = await halls.van({ code: 'V-NEW', rides: null });
    await expectOneRequest(server, incident.id, 'vehicle V-NEW changed', { first: () => change(van, 1, { rides: halls.rides }), second: () => change(van, 2, { maxLoadKg: 200 }) });
  });
});
