import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { Workbench } from '../support/workbench.js';

let bench: Workbench;
beforeAll(async () => { bench = await Workbench.open(); });
afterAll(() => bench.close());

test.each(['kinds=cello', 'kinds=', 'kinds=garment,book,throw,a4-sheet,crib-quilt', 'withinHours=0', 'withinHours=1000'])('%s is refused and says which parameter to mend', async (query) => {
  const { body } = await bench.network.get(`/v1/drying-rooms/${bench.incident.room('ROOM')}/acceptance?${query}`).expect(400);
  expect(body).toMatchObject({ code: 'validation_failed', errors: [expect.objectContaining({ parameter: expect.stringMatching(new RegExp(`^${query.split('=')[0]}`)) })] });
});
