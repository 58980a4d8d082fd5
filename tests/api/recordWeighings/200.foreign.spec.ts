import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import { networkDigest, takeInTestHousehold, takeInTestItem } from '#testing';
import { OWNER_SAYS_YES, Workbench } from '../support/workbench.js';

let bench: Workbench;
beforeAll(async () => { bench = await Workbench.open(); });
afterAll(() => bench.close());

describe('recordWeighings answers 200', () => {
  test('things, people and places of another network or incident are refused like ones that never were, and take nothing', async () => {
    const { server, network } = bench;
    server.clock.set(Date.parse('2026-05-09T07:00:00Z'));
    const own = await bench.takeIn(await bench.household());
    const theirs = await server.network();
    const foreign: [member: string, value: string][] = [];
    for (const [holder, incident] of [[theirs, await theirs.incident()], [network, await network.incident()]] as const) {
      const thing = await takeInTestItem(holder, incident, await takeInTestHousehold(holder, incident, OWNER_SAYS_YES));
      foreign.push(['item', thing.id], ['personId', incident.person('P1')], ['dryingPlaceId', incident.place('R1')]);
    }
    server.clock.set(Date.parse('2026-05-09T12:00:00Z'));
    const before = await networkDigest(server.admin, theirs.networkId);
    const textOf = async (member: string, value: string) => {
      const weighing = { item: own.id, scaleKg: 6, weighedAt: '2026-05-09T10:00:00.000Z', [member]: value };
      const { body } = await network.post(`/v1/incidents/${bench.incident.id}/weighings`, { weighings: [weighing] });
      expect(JSON.stringify(body)).toContain('reference_unknown');
      return JSON.stringify([body.errors, body.rows]).replaceAll(value, 'what was sent');
    };
    for (const [member, value] of foreign) expect([member, await textOf(member, value)]).toEqual([member, await textOf(member, randomUUID())]);
    expect(await networkDigest(server.admin, theirs.networkId)).toEqual(before);
    expect((await network.get(`/v1/items/${own.id}/weighings`).expect(200)).body.items).toEqual([]);
  });
});
