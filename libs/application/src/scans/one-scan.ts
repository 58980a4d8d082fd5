import { judgeScan, type Keeper, type ScanJudgement } from '#custody';
import { Problem } from '#contracts';
import type { UseCaseCall } from '../call.js';
import { personOf } from '../care/claims.js';
import { toProblem } from '../custody/record-custody.js';
import type { Scanned, ScanProblem, ScanResult, ScanVerdict, SightingVerdict } from '../ports/scan-store.js';
import type { Stores } from '../ports/work.js';
import { refuseUnnamed, type namedBy } from './resolve.js';
import { scannedContainer, scannedItem, type Made, type ScannedThing } from './scanned-thing.js';

/** What this batch itself has recorded of each thing: a device knows its own scans before it is told of them. */
export type OwnEvents = Map<string, { before: number; last: number }>;

/** What a scan or a line on paper says; a line has no id of its own making. */
export type SeenThere = Omit<Scanned, 'scanId'> & { scanId: string | null };

/** One scan of a batch, with what its tags lead to. */
export interface NamedScan {
  scan: SeenThere;
  named: ReturnType<typeof namedBy>;
  /** Where it stands in the request. */
  pointer: string;
}

type Outcome = Pick<ScanResult, 'verdict' | 'event' | 'problem'>;

/** Judges one scan and carries out what follows. @throws Problem when it is refused; then nothing of it was written */
export async function carryOutScan(stores: Stores, call: UseCaseCall, incidentId: string, { scan, named, pointer }: NamedScan, own: OwnEvents): Promise<Omit<ScanResult, 'scanId'>> {
  const place = await refuseUnnamed(stores, incidentId, scan, named, pointer);
  if (scan.personId !== null) await personOf(stores, incidentId, scan.personId, `${pointer}/personId`);
  if (!(await stores.places.find(incidentId, place))) throw unknownPlace(place, scan, pointer);
  const thing = named.itemId !== null ? await scannedItem(stores, call, named.itemId, place, scan) : await scannedContainer(stores, call, named.containerId ?? '', place, scan);
  const judgement = judge(call, thing, scan, place, own);
  const outcome = await carryOut(stores, call, incidentId, thing, scan, place, judgement);
  if (outcome.event !== null) own.set(thing.state.itemId, { before: own.get(thing.state.itemId)?.before ?? thing.state.seq, last: outcome.event.seq });
  return { itemId: thing.itemId, containerId: thing.containerId, place, ...outcome };
}

function judge(call: UseCaseCall, thing: ScannedThing, scan: SeenThere, place: Keeper, own: OwnEvents): ScanJudgement {
  // A container from before containers had records begins its record where it is first met.
  if (thing.containerId !== null && thing.state.stage === null) return { outcome: 'move', kind: 'moved' };
  const ours = own.get(thing.state.itemId);
  const knewOurs = ours?.last === thing.state.seq && (scan.baseSeq === null || (scan.baseSeq >= ours.before && scan.baseSeq <= ours.last));
  const knew = knewOurs || (call.paper !== undefined && writerKnew(thing.last, scan.seenAtMs));
  return judgeScan(thing.state, thing.last, { place, seenAtMs: scan.seenAtMs, baseSeq: knew ? thing.state.seq : scan.baseSeq }, call.env.nowMs);
}

/**
 * Who wrote a line knew what stood on paper before it, however late that was keyed in. Paper counts in minutes: of two lines of one minute that
 * name two places nobody can say which came first, but what was put down in the minute in which a step ended was put down after it.
 */
function writerKnew({ refs, occurredAtMs }: ScannedThing['last'], writtenAtMs: number): boolean {
  if (refs?.['paperKitId'] === undefined) return false;
  return occurredAtMs < writtenAtMs || (occurredAtMs === writtenAtMs && refs['step'] !== undefined);
}

async function carryOut(stores: Stores, call: UseCaseCall, incidentId: string, thing: ScannedThing, scan: SeenThere, place: Keeper, judgement: ScanJudgement): Promise<Outcome> {
  const sight = (verdict: SightingVerdict) => sightingOf(stores, call, incidentId, thing, scan, place, verdict);
  switch (judgement.outcome) {
    case 'refused':
      throw toProblem(judgement.refusal, thing.state);
    case 'move':
      return said('applied', await thing.move(judgement.kind));
    case 'seen-again':
    case 'seen-late':
      await sight(judgement.outcome);
      return said(judgement.outcome, null);
    case 'left-the-network':
      await sight('left-the-network');
      return said('refused', null, leftProblem());
    case 'found':
      if (scan.personId !== null) return said('applied', await thing.found(judgement.stage, scan.personId));
      await sight('found');
      return said('refused', null, foundProblem());
    case 'claims-elsewhere': {
      await sight('claims-elsewhere');
      const event = thing.state.matters.disputed ? null : await thing.dispute();
      return said('disputed', event, disputeProblem(thing, place));
    }
    default:
      return judgement satisfies never;
  }
}

function said(verdict: ScanVerdict, event: Made | null, problem: Problem | null = null): Outcome {
  return { verdict, event: event === null ? null : { kind: event.kind, seq: event.seq }, problem: problem === null ? null : keptProblem(problem) };
}

/** A problem as it is kept and repeated. */
export function keptProblem({ code, detail, extras: { errors, members } }: Problem): ScanProblem {
  return { code, detail, ...(errors === undefined ? {} : { errors }), ...(members === undefined ? {} : { members }) };
}

async function sightingOf(stores: Stores, call: UseCaseCall, incidentId: string, thing: ScannedThing, scan: SeenThere, place: Keeper, verdict: SightingVerdict): Promise<void> {
  await stores.scans.sight({
    id: call.env.newId(), incidentId, thing: thing.itemId !== null ? { itemId: thing.itemId } : { containerId: thing.containerId ?? '' }, place,
    seenAtMs: scan.seenAtMs, recordedAtMs: call.env.nowMs, personId: scan.personId, actorId: call.context.principalId, verdict, atSeq: thing.state.seq, note: '',
  });
}

function unknownPlace(place: Keeper, scan: SeenThere, pointer: string): Problem {
  const at = scan.place === null ? `${pointer}/placeTag` : `${pointer}/place/id`;
  return new Problem('reference_unknown', `There is no ${place.kind} with this id in the incident. Take the id from the layout of the incident, or scan the tag of the place.`, { errors: [{ detail: 'names nothing of this incident', code: 'reference_unknown', pointer: at }] });
}

function leftProblem(): Problem {
  return new Problem('item_terminal', 'On record this thing has left the network, and it was scanned here. The sighting is kept. Put the thing aside, tell the coordinator, and do nothing with it: only a correction can open its record again.', { members: { reason: 'terminal' } });
}

function foundProblem(): Problem {
  return new Problem('item_missing', 'This thing was reported missing, and it was scanned here. The sighting is kept. Let the person who has it in front of them scan it with their `personId`, or record that it was found.', { members: { reason: 'missing' } });
}

function disputeProblem(thing: ScannedThing, claimed: Keeper): Problem {
  return new Problem('location_disputed', 'Another report says that it is elsewhere, and the device did not know of it. Both are kept and nothing was moved. Look where the thing is; the person who has it in front of them settles it.', {
    members: { reason: 'location_disputed', keeper: thing.state.keeper, claimed },
  });
}

