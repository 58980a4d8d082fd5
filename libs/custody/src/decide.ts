/**
 * Custody decisions: may this passing happen, and what does it make of the item?
 * Pure: the clock is an argument, ids come in the command, nothing is written.
 */
import { GENESIS_HASH, hashEvent } from './hash-chain.js';
import { sameKeeper } from './keeper.js';
import { matterFault, mattersAfter, NO_MATTERS } from './matters.js';
import { keeperKindText, missingRefText, wrongKeeperText, wrongStageText } from './refusal-text.js';
import { KIND_RULES, REF, RESTORES, SPLIT_STAGES, TERMINAL_STAGES, isStage, keepersFor, movesNothing, refValue, requiredRefs, stageAfter, type RequiredRef } from './stage-rules.js';
import { CUSTODY_EVENT_KINDS, KEEPER_KINDS } from './types.js';
import type { CustodyCommand, CustodyEvent, ItemCustody, Keeper, Refusal, Stage } from './types.js';

/**
 * How far ahead of the server's clock an event may claim to have happened, in milliseconds. Our own calibration:
 * more than the drift of a tablet that has met the network today, less than would reorder a shift.
 * A tablet whose clock is further off must send a time corrected by its known offset.
 */
export const FUTURE_TOLERANCE_MS = 5 * 60 * 1000;

/** 0001-01-01T00:00Z: the earliest time that RFC 3339 text with a positive year, and so the database, can carry. */
const EARLIEST_MS = -62_135_596_800_000;

/** The state of an item before its first event. */
export function beforeIntake(networkId: string, itemId: string): ItemCustody {
  return { networkId, itemId, seq: 0, headHash: GENESIS_HASH, keeper: null, stage: null, matters: NO_MATTERS };
}

/** Tells a refusal from an event. */
export function isRefusal(outcome: CustodyEvent | Refusal): outcome is Refusal {
  return 'refused' in outcome;
}

/**
 * Decides a command against the present state of the item.
 * @param state the item as its events left it; it must have been read under the lock that guards the append.
 * @param command what the sender says happened; late reports are fine, both times are kept.
 * @param nowMs the server's clock, epoch milliseconds; it becomes `recordedAtMs`.
 * @returns the next event, chained and hashed, or a refusal that says what to do; the state is never changed here.
 */
export function decide(state: ItemCustody, command: CustodyCommand, nowMs: number): CustodyEvent | Refusal {
  return (
    malformed(command) ??
    inFuture(command, nowMs) ??
    outOfPlace(state, command) ??
    wrongKeeper(state, command) ??
    correctionFault(state, command) ??
    matterFault(state, command) ??
    decideStage(state, command, nowMs)
  );
}

/**
 * Applies an event to the state it was decided against.
 * @throws RangeError when the event belongs to another item, skips a number, does not link, or cannot follow: the caller's
 * data is broken then, and going on would build on a lie (`verifyChain` names what is wrong).
 */
export function evolve(state: ItemCustody, event: CustodyEvent): ItemCustody {
  const at = `event ${event.seq} of item ${event.itemId}`;
  if (event.itemId !== state.itemId || event.networkId !== state.networkId) throw new RangeError(`${at} does not belong to item ${state.itemId}`);
  if (event.seq !== state.seq + 1) throw new RangeError(`${at} cannot follow event ${state.seq}`);
  if (event.prevHash !== state.headHash) throw new RangeError(`${at} does not link to the event before it`);
  if (!sameKeeper(event.from, state.keeper)) throw new RangeError(`${at} starts from a keeper that did not hold the item`);
  const stage = stageAfter(state.stage, event);
  if (stage === null) throw new RangeError(`${at} is a ${event.kind} that cannot follow stage ${state.stage ?? 'none'}`);
  return { networkId: state.networkId, itemId: state.itemId, seq: event.seq, headHash: event.hash, keeper: { kind: event.to.kind, id: event.to.id }, stage, matters: mattersAfter(state, event) };
}

function refuse(code: Refusal['code'], text: string): Refusal {
  return { refused: true, code, text };
}

/** Text that PostgreSQL can store and give back unchanged: no NUL and no lone surrogate, or the stored hash would not verify. */
function storable(text: string): boolean {
  return !text.includes('\u0000') && !/\p{Surrogate}/u.test(text);
}

/** Ids are hashed as text, but a uuid column gives them back in lower case: another spelling would break the chain on reading. */
function namesOne(id: string): boolean {
  return id.trim() !== '' && storable(id) && id === id.toLowerCase();
}

function keeperFault(name: string, keeper: Keeper): string | null {
  if (!KEEPER_KINDS.includes(keeper.kind)) return `\`${name}.kind\` is not a kind of keeper; use one of ${KEEPER_KINDS.join(', ')}.`;
  return namesOne(keeper.id) ? null : `\`${name}.id\` must name the keeper by its id in lower case.`;
}

function malformed(command: CustodyCommand): Refusal | null {
  const fault = headFault(command) ?? (command.from === null ? null : keeperFault('from', command.from)) ?? keeperFault('to', command.to) ?? restFault(command);
  return fault === null ? null : refuse('command_malformed', fault);
}

function headFault(command: CustodyCommand): string | null {
  if (!CUSTODY_EVENT_KINDS.includes(command.kind)) return `\`kind\` is not a kind of custody event; use one of ${CUSTODY_EVENT_KINDS.join(', ')}.`;
  if (![command.commandId, command.actorId].every(namesOne)) {
    return '`commandId` and `actorId` must both be given, in lower case: every passing has one sender and one person or key that vouches for it.';
  }
  return Number.isSafeInteger(command.occurredAtMs) && command.occurredAtMs >= EARLIEST_MS ? null : '`occurredAtMs` must be whole epoch milliseconds of a calendar year from 1 on.';
}

function restFault(command: CustodyCommand): string | null {
  if (!Object.entries(command.refs).every(([key, value]) => storable(key) && storable(value))) {
    return 'A reference holds a character that cannot be stored (NUL or half of a surrogate pair); take it out.';
  }
  return command.corrects !== undefined && command.kind !== 'correction' ? '`corrects` goes with `correction` only; leave it out or change the kind.' : null;
}

function inFuture(command: CustodyCommand, nowMs: number): Refusal | null {
  const aheadMs = command.occurredAtMs - nowMs;
  if (aheadMs <= FUTURE_TOLERANCE_MS) return null;
  return refuse('occurred_in_future', `This event claims to happen ${Math.ceil(aheadMs / 60_000)} minutes from now; at most ${FUTURE_TOLERANCE_MS / 60_000} are accepted. Set the device's clock, or send the time corrected by its offset.`);
}

const ENDS: Partial<Record<Stage, string>> = { released: "released with the owner's agreement, or by decision where nobody knew the owner", 'handed-back': 'handed back to its household', merged: 'joined to another record of the same thing' };

function outOfPlace(state: ItemCustody, command: CustodyCommand): Refusal | null {
  const opens = KIND_RULES[command.kind].from === 'none';
  if (state.stage === null) {
    return opens ? null : refuse('not_taken_in', `This item has not been taken in yet, so \`${command.kind}\` cannot follow. Record \`taken-in\` first.`);
  }
  if (TERMINAL_STAGES.includes(state.stage) && command.kind !== 'correction') {
    const end = ENDS[state.stage] ?? 'closed';
    return refuse('terminal', `This item was ${end}; its record is closed. If it is in front of you, put it aside and tell the coordinator: only a correction can open the record again.`);
  }
  return opens ? refuse('already_taken_in', `This item already has a record, so \`${command.kind}\` cannot be its first event. Read the item; if this is another object, give it its own tag.`) : null;
}

function wrongKeeper(state: ItemCustody, command: CustodyCommand): Refusal | null {
  return sameKeeper(state.keeper, command.from) ? null : refuse('wrong_keeper', wrongKeeperText(state.keeper, command.from));
}

function correctionFault(state: ItemCustody, command: CustodyCommand): Refusal | null {
  if (command.kind !== 'correction') return null;
  const target = command.corrects;
  if (target !== undefined && Number.isSafeInteger(target.seq) && target.seq >= 1 && target.seq <= state.seq && target.reason.trim() !== '' && storable(target.reason)) return null;
  return refuse('correction_target_missing', `A correction names the event that it corrects, from 1 to ${state.seq}, and a reason code: send both in \`corrects\`.`);
}

function namedStageFault(state: ItemCustody, command: CustodyCommand): Refusal | null {
  if (KIND_RULES[command.kind].stage !== 'named') return null;
  const named = refValue(command.refs, REF.stage);
  if (named === null || (isStage(named) && canLeadTo(state, command.kind, named))) return null;
  return refuse('command_malformed', '`refs.stage` must be a stage that this event can lead to; leave it out to keep the present one, or `waiting` for a split-off item.');
}

/** A part starts on the premises; and whoever has a thing in front of them does not say by that that it is another one. */
function canLeadTo(state: ItemCustody, kind: CustodyCommand['kind'], named: Stage): boolean {
  if (state.stage === null) return SPLIT_STAGES.includes(named);
  return named !== 'merged' || kind === 'correction';
}

function decideStage(state: ItemCustody, command: CustodyCommand, nowMs: number): CustodyEvent | Refusal {
  const { kind, to, refs } = command;
  const rule = KIND_RULES[kind];
  if (state.stage !== null && typeof rule.from !== 'string' && !rule.from.includes(state.stage)) return refuse('wrong_stage', wrongStageText(kind, state.stage));
  const badStage = namedStageFault(state, command);
  if (badStage !== null) return badStage;
  const stage = stageAfter(state.stage, command);
  if (stage === null) throw new RangeError(`no stage follows ${kind} in ${state.stage ?? 'none'}`);
  const changes = state.stage !== stage || !sameKeeper(state.keeper, to);
  if (movesNothing(kind) && changes) return refuse('keeper_kind_not_allowed', `\`${kind}\` moves nothing: \`to\` must be the present keeper. Record where the item${kind === 'lot-split' ? "'s part" : ''} goes by an event of its own.`);
  // A correction may leave both alone: it can put a reason or a reference right. Who looked may find that the record was right after all.
  if (!changes && !movesNothing(kind) && !RESTORES.includes(kind)) return refuse('same_keeper', 'The record already says so: the same keeper holds the item and nothing about it would change. Nothing needs to be sent.');
  const allowed = keepersFor(kind, stage);
  if (!movesNothing(kind) && !allowed.includes(to.kind)) return refuse('keeper_kind_not_allowed', keeperKindText(kind, stage, to.kind, allowed));
  for (const ref of requiredRefs(kind, stage, to.kind, changes)) {
    const value = refValue(refs, ref) ?? inPlaceOf(ref, refs);
    if (value === null || !standsFor(ref, value, command, state.itemId)) {
      return refuse(ref === REF.consentId ? 'consent_missing' : 'reference_missing', missingRefText(ref, kind));
    }
  }
  return nextEvent(state, command, stage, nowMs);
}

/** Where nobody knows the owner, nobody can agree: a recorded decision stands for it. */
function inPlaceOf(ref: RequiredRef, refs: CustodyCommand['refs']): string | null {
  return ref === REF.consentId ? refValue(refs, REF.decisionId) : null;
}

const OTHER_ITEM: ReadonlySet<RequiredRef> = new Set([REF.splitFrom, REF.splitTo, REF.mergedInto, REF.mergedFrom]);

/** A lot is not its own part nor a thing its own double, pieces are counted, and what a reference repeats is the same. */
function standsFor(ref: RequiredRef, value: string, { to, refs }: CustodyCommand, itemId: string): boolean {
  if (ref === REF.mergedInto && value !== to.id) return false;
  if (OTHER_ITEM.has(ref)) return value !== itemId;
  if (ref === REF.tagIs) return value !== refs[REF.tagWas];
  if (ref === REF.otherHead) return /^[0-9a-f]{64}$/.test(value);
  return (ref !== REF.pieces && ref !== REF.left) || /^[1-9]\d*$/.test(value);
}

function nextEvent(state: ItemCustody, command: CustodyCommand, stage: Stage, nowMs: number): CustodyEvent {
  const body: Omit<CustodyEvent, 'hash'> = {
    v: 1,
    networkId: state.networkId,
    itemId: state.itemId,
    seq: state.seq + 1,
    commandId: command.commandId,
    kind: command.kind,
    from: command.from === null ? null : { kind: command.from.kind, id: command.from.id },
    to: { kind: command.to.kind, id: command.to.id },
    stage,
    actorId: command.actorId,
    occurredAtMs: command.occurredAtMs,
    recordedAtMs: nowMs,
    refs: { ...command.refs },
    corrects: command.corrects === undefined ? null : { seq: command.corrects.seq, reason: command.corrects.reason },
    prevHash: state.headHash,
  };
  return { ...body, hash: hashEvent(body) };
}
