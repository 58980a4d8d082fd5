import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { AidBench } from '../support/mutual-aid.js';

let bench: AidBench;
beforeAll(async () => {
  bench = await AidBench.open();
});
afterAll(() => bench.close());

test('an incident shows its own agreements and no id of the partner’s network', async () => {
  for (const side of ['giver', 'receiver'] as const) {
    const answer = await bench[side].network.get(`/v1/incidents/${bench[side].incident.id}/aid-agreements`).expect(200);
    expect(answer.body.items).toHaveLength(1);
    const other = bench[side === 'giver' ? 'receiver' : 'giver'];
    expect(answer.text).not.toContain(other.network.networkId);
    expect(answer.text).not.toContain(other.incident.id);
  }
});
