/** An incident with a specialist whose bench is known, and things that only a referral saves. */
import { type IncidentOnTest, takeInTestHousehold, takeInTestItem, type TestNetwork, type TestServer } from '#testing';
import { planNow, withBenches } from '../../unit/plan-problem/support/runs.js';
import { OWNER_SAYS_YES, SOUND_COTTON } from './workbench.js';

/** One thing at a time, twelve hours each. */
export const BENCH_OF_ONE = { piecesAtOnce: 1, hoursPerPiece: 12 };
export const STUDIO = 'Paintings and parchment studio';

export interface BenchIncident {
  network: TestNetwork;
  incident: IncidentOnTest;
  /** Acetate tapes that got wet at five: they go to a specialist by five in the afternoon, or are not saved. */
  tapes: string[];
}

/** The incident with its tapes (or other things, by `thing`), assessed and planned. */
export async function benchIncident(server: TestServer, count: number, { bench = BENCH_OF_ONE, consents = OWNER_SAYS_YES, thing = {} }: { bench?: object; consents?: object[]; thing?: object } = {}): Promise<BenchIncident> {
  const network = await server.network();
  const incident = await network.incident((document) => {
    withBenches(document);
    Object.assign(document.specialists![0]!, bench);
  });
  const household = await takeInTestHousehold(network, incident, consents);
  const tapes: string[] = [];
  for (let i = 0; i < count; i += 1) tapes.push(await wetTape(network, incident, household, thing));
  await planNow(server, network, incident);
  return { network, incident, tapes };
}

async function wetTape(network: TestNetwork, incident: IncidentOnTest, household: Parameters<typeof takeInTestItem>[2], change: object): Promise<string> {
  const { id } = await takeInTestItem(network, incident, household, { materialClass: 'tape-acetate-reel', description: 'Tape with a voice on it', sizeClass: 'book', wettedAt: '2026-05-09T05:00:00Z', ...change });
  await network.post(`/v1/items/${id}/assessments`, { personId: incident.person('P1'), ...SOUND_COTTON, fibre: 'unknown' }).expect(201);
  return id;
}

export interface ListedReferral {
  itemId: string;
  tag: string;
  specialist: { id: string; name: string };
  withThemAt: string;
  benchUntil: string;
  stepsAhead: string[];
  missing: { code: string; text: string }[];
  care: { cautions: { text: string }[] } | null;
  inWords: string;
}

export async function referralList(network: Pick<TestNetwork, 'get'>, incident: Pick<IncidentOnTest, 'id'>, query = '', language = 'en'): Promise<{ revision: { number: number } | null; items: ListedReferral[]; standing: string }> {
  return (await network.get(`/v1/incidents/${incident.id}/referral-list${query}`, { 'accept-language': language }).expect(200)).body;
}

export const refer = ({ network, incident }: BenchIncident, itemId: string) => network.post(`/v1/items/${itemId}/referrals`, { specialistId: incident.specialist('SP1'), reason: 'Wet tape.' });
