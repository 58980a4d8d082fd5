import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { TwoHalls } from '../support/two-halls.js';

let halls: TwoHalls;
let itemId: string;
let other: string;
let van: { id: string; version: number };
const plans: string[] = [];
beforeAll(async () => {
  halls = await TwoHalls.open();
  const { bench } = halls;
  const household = await bench.household();
  itemId = (await bench.assessedQuilt(household)).id;
  van = await halls.van();
  plans.push((await halls.plan()).revisionId);
  // Only then does the hall have somebody who tests; and nobody knows any more what the van takes.
  const { body: layout } = await bench.network.get(`${halls.incidentPath}/layout`).expect(200);
  const lead = layout.people.find(({ code }: { code: string }) => code === 'P1');
  await bench.network.patch(`${halls.incidentPath}/people/${lead.id}`, { skills: [...lead.skills, 'colour-testing'] }, { 'if-match': `"${lead.version}"` }).expect(200);
  await bench.network.patch(`${halls.incidentPath}/vehicles/${van.id}`, { maxLoadKg: null }, { 'if-match': '"1"' }).expect(200);
  plans.push((await halls.plan()).revisionId);
  other = (await bench.assessedQuilt(household)).id;
});
afterAll(() => halls.bench.close());

const about = async (revisionId: string, language: string) => (await halls.bench.network.get(`/v1/plan-revisions/${revisionId}/changes`, { 'accept-language': language }).expect(200)).body.items.find((one: { itemId: string }) => one.itemId === itemId);

test('a ride stands in the words of a difference: the vehicle, from where to where, when it leaves and is there', async () => {
  const change = await about(plans[0]!, 'en');
  const [carry] = await halls.bench.network.get(`${halls.incidentPath}/plan/assignments?itemId=${itemId}&revision=1`).expect(200).then(({ body }) => body.items);
  expect(change).toMatchObject({ kind: 'in-time', step: 'carry', now: { place: 'VAN1 HALL–SCHOOL' } });
  const minute = (moment: string) => moment.slice(0, 16).replace('T', ' ');
  expect(change.text).toContain(`VAN1 leaves HALL with it at ${minute(carry.startsAt)} UTC and is at SCHOOL by ${minute(carry.endsAt)} UTC, as reckoned.`);
  expect((await about(plans[0]!, 'es')).text).toContain('VAN1 sale de HALL con ello');
});

test('a thing that is not carried any more says so', async () => {
  const change = await about(plans[1]!, 'en');
  expect(change.kind).toBe('moved');
  expect(change.text).toMatch(/ No ride is planned for it any more\.$/);
});

test('a thing that neither plan has carried is told as before', async () => {
  await halls.plan();
  const { body } = await halls.bench.network.get(`${halls.incidentPath}/plan-revisions`).expect(200);
  const { body: changes } = await halls.bench.network.get(`/v1/plan-revisions/${body.items[0].id}/changes`).expect(200);
  expect(changes.items.find((one: { itemId: string }) => one.itemId === other).text).not.toMatch(/ride|leaves/);
});
