import { SaxesParser } from 'saxes';
import type { TestNetwork } from '#testing';
import { planNow, withBenches, type Assignment, assignmentsOf } from '../../unit/plan-problem/support/runs.js';
import { Workbench } from './workbench.js';

/** A bar of a station's chart as the API answers it. */
export interface ChartedBar {
  lane: number;
  step: string;
  stepInWords: string;
  state: string;
  startsAt: string;
  endsAt: string;
  batchId: string | null;
  origin: string;
  items: { itemId: string; tag: string; disposition: string; state: string; startedAt: string | null; finishedAt: string | null }[];
}

export interface PlannedWorld {
  bench: Workbench;
  /** Quilts whose rinse comes next, by the beginning of their planned rinse. */
  quilts: string[];
  /** The planned rinses, in the same order. */
  rinses: Assignment[];
}

/** The small incident with quilts whose rinse is planned. */
export async function plannedWorld(count: number, change: object = {}): Promise<PlannedWorld> {
  const bench = await Workbench.open(withBenches);
  const household = await bench.household();
  for (let i = 0; i < count; i += 1) await bench.testedQuilt(household, change);
  await planNow(bench.server, bench.network, bench.incident);
  const rinses = (await assignmentsOf(bench.network, bench.incident)).filter(({ step, stationId }) => step === 'rinse' && stationId === bench.incident.station('RINSE'));
  return { bench, quilts: rinses.map(({ itemId }) => itemId), rinses };
}

/** A moment so many minutes after another. */
export const after = (iso: string, minutes: number): number => Date.parse(iso) + minutes * 60_000;

/** Elements of a picture with their attributes and own text; throws where it is not well-formed XML. */
export function elementsOf(svg: string): { name: string; attributes: Record<string, string>; text: string }[] {
  const found: { name: string; attributes: Record<string, string>; text: string }[] = [];
  const open: number[] = [];
  const parser = new SaxesParser();
  parser.on('error', (error) => { throw error; });
  parser.on('opentag', ({ name, attributes }) => { open.push(found.push({ name, attributes: attributes as Record<string, string>, text: '' }) - 1); });
  parser.on('text', (text) => { const at = open.at(-1); if (at !== undefined) found[at]!.text += text; });
  parser.on('closetag', () => { open.pop(); });
  parser.write(svg).close();
  return found;
}

/** What a picture answers, as it must be to be opened safely. */
export const SAFE_PICTURE = { 'content-type': 'image/svg+xml; charset=utf-8', 'content-security-policy': "default-src 'none'; frame-ancestors 'none'; sandbox", 'x-content-type-options': 'nosniff', vary: 'Accept-Language' };

export const pictureOf = async (network: TestNetwork, path: string, headers: Record<string, string> = {}): Promise<string> => (await network.get(path, headers).expect(200)).body.toString();
