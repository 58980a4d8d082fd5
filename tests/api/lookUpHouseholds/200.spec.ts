import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { newId } from '#platform';
import { Workbench } from '../support/workbench.js';

let bench: Workbench;
beforeAll(async () => {
  bench = await Workbench.open();
});
afterAll(() => bench.close());

let counter = 0;
async function family(contact: object): Promise<string> {
  counter += 1;
  return (await bench.network.post(`/v1/incidents/${bench.incident.id}/households`, { code: `LOOK-${counter}`, contact }).expect(201)).body.id;
}
const lookUp = async (asked: object, client: Pick<Workbench['network'], 'post'> = bench.network) => (await client.post(`/v1/incidents/${bench.incident.id}/household-lookups`, asked).expect(200)).body as { items: { id: string; matched: string[] }[]; more: boolean; how: string };
const ids = async (asked: object) => (await lookUp(asked)).items.map(({ id }) => id);

test('finds a household by its whole name without accents and case, by digits, by address; those that match in most first', async () => {
  const one = await family({ name: 'José Álvarez-Peña', phone: '+43 (699) 314-159', email: 'Jose@Families.example' });
  const other = await family({ name: 'JOSE ALVAREZ PENA', phone: '0699 271828' });
  expect(new Set(await ids({ name: 'jose alvarez pena' }))).toEqual(new Set([one, other]));
  expect(await ids({ phone: '0043699314159' })).toEqual([one]);
  expect(await ids({ email: ' jose@families.EXAMPLE' })).toEqual([one]);
  const { items, how } = await lookUp({ name: 'José Álvarez Peña', phone: '0699/271828' });
  expect(items).toEqual([expect.objectContaining({ id: other, matched: ['name', 'phone'] }), expect.objectContaining({ id: one, matched: ['name'] })]);
  expect(how).toMatch(/whole name.*accents/);
});

test('finds nothing by a part of a name, by another order or by a part of a number, and shows no contact', async () => {
  await family({ name: 'Wilhelmina Quastenflosser', phone: '0699 16180339' });
  for (const asked of [{ name: 'Quastenflosser' }, { name: 'Quastenflosser Wilhelmina' }, { name: 'Wilhelmina Quastenflosse' }, { phone: '16180339' }]) expect(await ids(asked)).toEqual([]);
  expect(JSON.stringify(await lookUp({ phone: '0699 16180339' }))).not.toMatch(/Quastenflosser|16180339/);
});

test('finds nothing of another network or incident, and says so in the same words as for nobody', async () => {
  await family({ name: 'Theodora Knallfrosch' });
  const stranger = await bench.server.network();
  const theirs = await stranger.incident();
  const asked = (name: string) => stranger.post(`/v1/incidents/${theirs.id}/household-lookups`, { name }).expect(200);
  expect((await asked('Theodora Knallfrosch')).body).toEqual((await asked('Nobody At All')).body);
  await stranger.post(`/v1/incidents/${bench.incident.id}/household-lookups`, { name: 'Theodora Knallfrosch' }).expect(404);
  const other = await bench.network.incident();
  expect((await bench.network.post(`/v1/incidents/${other.id}/household-lookups`, { name: 'Theodora Knallfrosch' }).expect(200)).body.items).toEqual([]);
});

test('finds nobody who was erased, and the table of words holds no word', async () => {
  const id = await family({ name: 'Balthasar Mückenstich', phone: '0699 14142135' });
  const { rows } = await bench.server.admin.query('select t::text as row from household_word t where household_id = $1', [id]);
  expect(rows).toHaveLength(2);
  expect(JSON.stringify(rows)).not.toMatch(/balthasar|14142135/i);
  await bench.network.post(`/v1/households/${id}/erasures`, { personId: bench.incident.person('P1'), reason: 'owner-asked' }).expect(201);
  expect(await ids({ name: 'Balthasar Mückenstich' })).toEqual([]);
});

test('a contact from before is found once the worker has been there, and the worker ends', async () => {
  const id = await family({ name: 'Kunigunde Altbestand' });
  await bench.server.admin.query('delete from household_word where household_id = $1', [id]);
  await bench.server.admin.query('update household_contact set words_kept = false where household_id = $1', [id]);
  expect(await ids({ name: 'Kunigunde Altbestand' })).toEqual([]);
  const context = { networkId: bench.network.networkId, incidentLimit: null, principalId: newId(), requestId: 'test', traceparent: '' };
  const step = () => bench.server.unitOfWork.write(context, (stores) => stores.erasures.sealInClear(bench.incident.id, 200));
  expect([await step(), await step()]).toEqual([1, 0]);
  expect(await ids({ name: 'Kunigunde Altbestand' })).toEqual([id]);
});

test('what can find nobody is refused and says why; without the scope nothing is asked', async () => {
  const ask = (body: object) => bench.network.post(`/v1/incidents/${bench.incident.id}/household-lookups`, body);
  for (const [body, pointer] of [[{}, '#/name'], [{ name: '—' }, '#/name'], [{ name: 'Ann Lee', phone: '123' }, '#/phone'], [{ email: 'ann' }, '#/email']] as const) expect((await ask(body).expect(422)).body.errors[0].pointer).toBe(pointer);
  const without = bench.network.as(await bench.network.newKey({ scopes: ['item:read'] }));
  expect((await without.post(`/v1/incidents/${bench.incident.id}/household-lookups`, { name: 'Ann Lee' }).expect(403)).body.code).toBe('scope_missing');
});

test('each look-up is in the audit, and one key makes 30 in a minute', async () => {
  const eager = bench.network.as(await bench.network.newKey());
  for (let index = 0; index < 30; index += 1) await lookUp({ name: `Guess ${index}` }, eager);
  const refused = await eager.post(`/v1/incidents/${bench.incident.id}/household-lookups`, { name: 'Guess 31' }).expect(429);
  expect([refused.body.code, Number(refused.headers['retry-after']) > 0]).toEqual(['rate_limited', true]);
  expect((await bench.server.admin.query("select count(*)::int as n from audit_entry where operation = 'lookUpHouseholds' and principal_id = (select id from api_key where prefix = $1)", [eager.key.split('_')[1]])).rows[0].n).toBe(30);
});
