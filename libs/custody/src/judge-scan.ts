/**
 * What one scan of a tag at a place means: a move, a sighting, or a claim against the record. Pure.
 *
 * The cases follow the conflict taxonomy of our reliability study (section 5.3): custody cannot be merged, the server's order decides
 * nothing about where a thing physically is, and evidence against the record is kept and never settled silently. Which kind of event a
 * place calls for follows from the table of stages (`stage-rules.ts`). Numbers are our own calibration.
 */
import { sameKeeper } from './keeper.js';
import { FUTURE_TOLERANCE_MS } from './decide.js';
import { STAGE_KEEPERS, TERMINAL_STAGES, WAY_BACK, keepersFor } from './stage-rules.js';
import type { CustodyEventKind, ItemCustody, Keeper, KeeperKind, Refusal, Stage } from './types.js';

/**
 * Device times closer together than this do not say which came first, milliseconds. Our own calibration: tablets that met the network
 * today agree within seconds; a minute leaves room for one that drifted over a shift.
 */
export const SAME_MOMENT_MS = 60_000;

/** One scan of a thing at a place. */
export interface Scan {
  place: Keeper;
  /** When the device saw it, by its own clock corrected by its known offset. */
  seenAtMs: number;
  /** Number of the last event that the device knew of the thing; null for a scanner that keeps no record. */
  baseSeq: number | null;
}

/** The last event of the thing's record. */
export interface LastEvent {
  seq: number;
  occurredAtMs: number;
  recordedAtMs: number;
}

/**
 * `move` and `found` lead to an event that is still to be decided; every other outcome but `refused` is kept as a sighting.
 * `found` needs the word of the person who has the thing. `stage` is set where the event must name it.
 */
export type ScanJudgement =
  | { outcome: 'move'; kind: CustodyEventKind }
  | { outcome: 'found'; stage: Stage }
  | { outcome: 'seen-again' }
  | { outcome: 'seen-late' }
  | { outcome: 'claims-elsewhere' }
  | { outcome: 'left-the-network' }
  | { outcome: 'refused'; refusal: Refusal };

/** Where a scan can put a thing: a place that has a tag of its own. */
export const SCANNED_PLACES = ['station', 'holding', 'drying-place', 'freezer', 'shelf', 'vehicle', 'container'] as const satisfies readonly KeeperKind[];

/**
 * Judges a scan against the record of the thing.
 * @param state the thing as its events left it, read under the lock that guards the append.
 * @param last its last event; its `seq` is that of the state.
 * @param nowMs the server's clock, epoch milliseconds.
 */
export function judgeScan(state: ItemCustody, last: LastEvent, scan: Scan, nowMs: number): ScanJudgement {
  const fault = scanFault(state, scan, nowMs);
  if (fault !== null) return { outcome: 'refused', refusal: fault };
  const here = sameKeeper(state.keeper, scan.place);
  const knew = scan.baseSeq === state.seq;
  if (!knew && isEarlier(scan, last, here)) return { outcome: 'seen-late' };
  if (state.stage !== null && TERMINAL_STAGES.includes(state.stage)) return { outcome: 'left-the-network' };
  if (state.matters.missing) return { outcome: 'found', stage: stageAt(state.stage ?? 'waiting', scan.place.kind) };
  if (here) return { outcome: 'seen-again' };
  if (state.matters.disputed || !couldKnow(scan, last, knew)) return { outcome: 'claims-elsewhere' };
  return moveTo(state.stage ?? 'waiting', scan.place.kind);
}

function refuse(code: Refusal['code'], text: string): Refusal {
  return { refused: true, code, text };
}

function scanFault(state: ItemCustody, scan: Scan, nowMs: number): Refusal | null {
  if (state.stage === null) return refuse('not_taken_in', 'Nothing is on record for it yet. Take it in first, then scan it again.');
  if (!(SCANNED_PLACES as readonly string[]).includes(scan.place.kind)) return refuse('keeper_kind_not_allowed', 'A scan puts a thing at a place that has a tag: a station, waiting area, drying place, freezer, shelf, vehicle or container. What goes to people has commands of its own.');
  if (scan.baseSeq !== null && scan.baseSeq > state.seq) return refuse('command_malformed', `The record of this thing has ${state.seq} events, so the device cannot have known event ${scan.baseSeq}. Read the thing again and send the scan as a new one.`);
  if (scan.seenAtMs - nowMs > FUTURE_TOLERANCE_MS) return refuse('occurred_in_future', `This scan claims to be ${Math.ceil((scan.seenAtMs - nowMs) / 60_000)} minutes from now; at most ${FUTURE_TOLERANCE_MS / 60_000} are accepted. Set the device's clock, or send the time corrected by its offset.`);
  return null;
}

/** Seen before the last event. At another place within a moment of it, no clock says which was first: that is a claim, not history. */
function isEarlier(scan: Scan, last: LastEvent, here: boolean): boolean {
  return scan.seenAtMs < last.occurredAtMs - (here ? 0 : SAME_MOMENT_MS);
}

/**
 * May whoever scanned have known the last event? A device that says what it knew is believed. One that does not cannot have known what
 * was recorded only after it scanned; after intake alone, though, there is nobody yet whom it could contradict.
 */
function couldKnow(scan: Scan, last: LastEvent, knew: boolean): boolean {
  if (scan.baseSeq !== null) return knew;
  return last.seq === 1 || scan.seenAtMs >= last.recordedAtMs;
}

/** The event that brings a thing in this stage to a place of this kind. */
function moveTo(stage: Stage, place: KeeperKind): ScanJudgement {
  const kind = kindOfMove(stage, place);
  if (kind !== null) return { outcome: 'move', kind };
  return { outcome: 'refused', refusal: refuse('wrong_stage', wayRound(stage, place)) };
}

function kindOfMove(stage: Stage, place: KeeperKind): CustodyEventKind | null {
  const back = WAY_BACK[stage];
  // What comes back is received first; what happens to it here is recorded afterwards.
  if (stage === 'referred-out' && place !== 'vehicle') return place === 'drying-place' ? null : 'referral-returned';
  if (place === 'drying-place') return stage === 'held-frozen' ? null : 'drying-started';
  if (place === 'freezer') return 'frozen';
  if (keepersFor('moved', stage).includes(place)) return 'moved';
  return back !== undefined && keepersFor(back, 'waiting').includes(place) ? back : null;
}

function wayRound(stage: Stage, place: KeeperKind): string {
  if (place === 'vehicle') return `A thing that is ${stage} does not go straight into a vehicle: scan it at the waiting area or shelf where it is put first, so that the end of its ${stage === 'drying' ? 'drying' : 'work'} is on record, then into the vehicle.`;
  if (stage === 'held-frozen') return 'A frozen thing is thawed before it is hung: scan it at the station or waiting area where it thaws first, then at the drying place.';
  return 'What comes back from outside is received before it is hung: scan it at a waiting area or station first, then at the drying place.';
}

/** The stage in which a found thing stands at a place: as it was, if it may be so there; else as the place makes it. */
function stageAt(stage: Stage, place: KeeperKind): Stage {
  if (STAGE_KEEPERS[stage].includes(place)) return stage;
  if (place === 'drying-place') return 'drying';
  return place === 'freezer' ? 'held-frozen' : 'waiting';
}
