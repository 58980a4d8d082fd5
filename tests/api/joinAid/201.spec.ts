import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { AidBench, VALID_TO } from '../support/mutual-aid.js';

let bench: AidBench;
beforeAll(async () => {
  bench = await AidBench.open();
});
afterAll(() => bench.close());

const invited = async () => (await bench.giver.network.post(`/v1/incidents/${bench.giver.incident.id}/aid-agreements`, { partnerName: 'Somebody', validTo: VALID_TO }).expect(201)).body as { id: string; invitation: string };
const join = (invitation: string, side: 'giver' | 'receiver' = 'receiver') => bench[side].network.post(`/v1/incidents/${bench[side].incident.id}/aid-agreements/joinings`, { invitation });

test('both networks show the agreement, each with the name of the other', async () => {
  const { id, invitation } = await invited();
  expect((await join(invitation).expect(201)).body).toMatchObject({ id, role: 'receiver', state: 'agreed', partnerName: 'Lower Vale', householdId: expect.any(String) });
  const list = await bench.giver.network.get(`/v1/incidents/${bench.giver.incident.id}/aid-agreements`).expect(200);
  expect(list.body.items.find((each: { id: string }) => each.id === id)).toMatchObject({ state: 'agreed', partnerName: 'Upper Vale' });
});

test('an invitation that is used, forged, one’s own or nonsense gets the same answer, and nothing changes', async () => {
  const used = await invited();
  await join(used.invitation).expect(201);
  const fresh = await invited();
  const forged = `${fresh.invitation.slice(0, -6)}AAAAAA`;
  const elsewhere = fresh.invitation.replace(/^wa_[0-9a-f]{32}/, `wa_${'0198b7a000007000800000000000000b'}`);
  const answers = [await join(used.invitation), await join(forged), await join(elsewhere), await join('hello'), await join(fresh.invitation, 'giver')];
  const said = answers.map(({ status, body }) => ({ status, code: body.code, detail: body.detail, errors: body.errors }));
  expect(said).toEqual(said.map(() => said[0]));
  expect(said[0]).toMatchObject({ status: 422, code: 'command_refused' });
  const { rows } = await bench.server.admin.query('select state from aid_agreement where id = $1', [fresh.id]);
  expect(rows).toEqual([{ state: 'invited' }]);
});

test('of two networks that join at the same moment one does', async () => {
  const { id, invitation } = await invited();
  const third = await bench.server.network('Third Vale');
  const incident = await third.incident();
  const answers = await Promise.all([join(invitation), third.post(`/v1/incidents/${incident.id}/aid-agreements/joinings`, { invitation })]);
  expect(answers.map(({ status }) => status).sort()).toEqual([201, 422]);
  const { rows } = await bench.server.admin.query('select count(*)::int as n from aid_agreement where id = $1', [id]);
  expect(rows[0].n).toBe(2);
});
