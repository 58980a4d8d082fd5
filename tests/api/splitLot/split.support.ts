import { expect } from '@jest/globals';
import { networkDigest, reserveTestTags } from '#testing';
import type { Workbench } from '../support/workbench.js';

type Item = Awaited<ReturnType<Workbench['read']>>;

/** What of an item can be added up. */
export const MEASURES = ['count', 'dryingAreaM2', 'freezerVolumeL', 'dryMassKg'] as const;

/** 240 loose colour prints, wet and looked at. */
export async function printsOf(bench: Workbench, count = 240, change: object = {}): Promise<Item> {
  const lot = await bench.takeIn(await bench.household(), { count, description: 'Loose colour prints', materialClass: 'photo-colour-print', sizeClass: 'print-10x15', ...change });
  await bench.assess(lot.id, { materialClass: 'photo-colour-print', fibre: 'unknown' }).expect(201);
  return bench.read(lot.id);
}

/** Takes pieces out of a lot under a fresh tag, by the version that was just read. */
export async function split(bench: Workbench, lotId: string, count: number, change: object = {}, headers: Record<string, string> = {}) {
  const [tag] = await reserveTestTags(bench.network, bench.incident, 1);
  const { version } = await bench.read(lotId);
  return bench.network.post(`/v1/incidents/${bench.incident.id}/items/${lotId}/splits`, { count, tag, ...change }, { 'if-match': `"${version}"`, ...headers });
}

/** Napkins that were tested, rinsed and blotted, and hang now. */
export async function hangingNapkins(bench: Workbench, count: number): Promise<Item> {
  const lot = await bench.takeIn(await bench.household(), { count, description: 'Napkins', materialClass: 'textile-flat-small', sizeClass: 'a4-sheet' });
  await bench.assess(lot.id).expect(201);
  await bench.colourTest(lot.id, 'no-transfer').expect(201);
  for (const step of ['rinse', 'blot']) await bench.report(lot.id, step).expect(201);
  await bench.hang(lot.id);
  return bench.read(lot.id);
}

/** The chain of one item. */
export async function chainOf(bench: Workbench, itemId: string): Promise<{ kind: string; seq: number; to: object; stage: string; refs: Record<string, string> }[]> {
  return (await bench.network.get(`/v1/items/${itemId}/custody-events`).expect(200)).body.items;
}

/** Sums in whole units: the API tells square metres and kilograms. */
export function sumOf(items: Item[]): Record<string, number> {
  return Object.fromEntries(MEASURES.map((measure) => [measure, Math.round(items.reduce((sum, item) => sum + (item[measure] as number) * 1_000, 0)) / 1_000]));
}

const NOT_LOOKED_AT = ['idempotency_record', 'audit_entry', 'tag', 'tag_block', 'tag_serial'];

/** Sends and makes sure that nothing was written, apart from the tags that the sending reserves. */
export async function changingNothing(bench: Workbench, send: () => Promise<{ status: number; body: Record<string, unknown> }>): Promise<{ status: number; body: Record<string, unknown> }> {
  const digest = () => networkDigest(bench.server.admin, bench.network.networkId, NOT_LOOKED_AT);
  const before = await digest();
  const answer = await send();
  expect(await digest()).toEqual(before);
  return answer;
}
