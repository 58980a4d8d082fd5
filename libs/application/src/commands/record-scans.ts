import { sha256Hex } from '#custody';
import { Problem } from '#contracts';
import type { UseCaseCall } from '../call.js';
import { openIncidentOf } from '../custody/open-incident.js';
import type { Scanned, ScanResult } from '../ports/scan-store.js';
import type { Stores } from '../ports/work.js';
import { holdAll } from '../scans/hold-all.js';
import { carryOutScan, keptProblem, type NamedScan, type OwnEvents } from '../scans/one-scan.js';
import { namedBy, tagsOf } from '../scans/resolve.js';

/** Scans that one request may hold. */
export const SCANS_AT_ONCE = 200;

/**
 * Takes what one device scanned. Each scan is decided by itself, in the order in which the device saw them; a scan that came before
 * gets its first answer again. @throws Problem not_found, incident_closed; whatever is wrong with one scan is in its own verdict
 */
export async function recordScans(stores: Stores, call: UseCaseCall, input: { incidentId: string; scans: readonly Scanned[] }): Promise<ScanResult[]> {
  const { incidentId } = input;
  await openIncidentOf(stores, incidentId);
  const sent = input.scans.map((scan, index) => ({ scan, fingerprint: fingerprintOf(scan), pointer: `#/scans/${index}` }));
  const firsts = new Map<string, (typeof sent)[number]>();
  for (const entry of sent) if (!firsts.has(entry.scan.scanId)) firsts.set(entry.scan.scanId, entry);
  const fresh = await stores.scans.claim(incidentId, [...firsts.values()].map(({ scan, fingerprint }) => ({ ...scan, fingerprint })), { actorId: call.context.principalId, nowMs: call.env.nowMs });
  const earlier = new Map((await stores.scans.earlier(incidentId, [...firsts.keys()].filter((id) => !fresh.has(id)))).map((result) => [result.scanId, result]));
  const tags = await tagsOf(stores, incidentId, input.scans);
  const news = [...firsts.values()].filter(({ scan }) => fresh.has(scan.scanId)).map(({ scan, pointer }) => ({ scan, pointer, named: namedBy(tags, scan) }));
  const results = new Map((await decideEach(stores, call, incidentId, news)).map((result) => [result.scanId, result]));
  await stores.scans.settle(incidentId, [...results.values()]);
  return sent.map(({ scan, fingerprint, pointer }) => {
    const before = earlier.get(scan.scanId);
    if (fingerprint !== (before ?? firsts.get(scan.scanId))?.fingerprint) return otherContent(scan.scanId, pointer);
    const result = before ?? results.get(scan.scanId);
    if (!result) throw new Error('a scan has no verdict although it was claimed');
    const { scanId, verdict, itemId, containerId, place, event, problem } = result;
    return { scanId, verdict, itemId, containerId, place, event, problem };
  });
}

type SentScan = NamedScan & { scan: Scanned };

async function decideEach(stores: Stores, call: UseCaseCall, incidentId: string, scans: readonly SentScan[]): Promise<ScanResult[]> {
  await holdAll(stores, incidentId, scans);
  const own: OwnEvents = new Map();
  const results: ScanResult[] = [];
  for (const named of [...scans].sort((a, b) => a.scan.seenAtMs - b.scan.seenAtMs)) {
    results.push(await decideOne(stores, call, incidentId, named, own));
  }
  return results;
}

async function decideOne(stores: Stores, call: UseCaseCall, incidentId: string, named: SentScan, own: OwnEvents): Promise<ScanResult> {
  try {
    return { scanId: named.scan.scanId, ...(await stores.attempts.within(() => carryOutScan(stores, call, incidentId, named, own))) };
  } catch (error) {
    if (!(error instanceof Problem)) throw error;
    const { itemId, containerId } = named.named;
    return { scanId: named.scan.scanId, verdict: 'refused', itemId, containerId, place: null, event: null, problem: keptProblem(error) };
  }
}

/** What was sent, without its spelling: the same scan again says the same. */
function fingerprintOf({ scanId, itemTag, containerTag, placeTag, place, seenAtMs, personId, baseSeq }: Scanned): string {
  return sha256Hex(JSON.stringify([scanId, itemTag, containerTag, placeTag, place?.kind ?? null, place?.id ?? null, seenAtMs, personId, baseSeq]));
}

function otherContent(scanId: string, pointer: string): ScanResult {
  const problem = new Problem('already_exists', 'Another scan came with this `scanId`. Its answer stands; give every scan an id of its own.', { errors: [{ detail: 'belongs to another scan', code: 'already_exists', pointer: `${pointer}/scanId` }] });
  return { scanId, verdict: 'refused', itemId: null, containerId: null, place: null, event: null, problem: keptProblem(problem) };
}
