/**
 * Open matters of an item: a hand-over that nobody has answered, a disputed location, a thing that is missing.
 * Each is opened and closed by events of its own, so that none is forgotten and none is settled silently.
 * The rules are our own design; the two-sided hand-over follows the practice of specimen and evidence custody, where giver and
 * receiver are both named at each transfer (10 CFR 26.5, definition of chain of custody [K]).
 */
import { keeperPhrase, sameKeeper } from './keeper.js';
import { orList } from './refusal-text.js';
import { HAND_OVER_ENDS, PARTIES, REF, TRAVELS, WAY_BACK, keepersFor, movesNothing, refValue, stageAfter } from './stage-rules.js';
import { KEEPER_KINDS, type CustodyCommand, type CustodyEvent, type ItemCustody, type Keeper, type KeeperKind, type OpenMatters, type Refusal } from './types.js';

/** Nothing is open. */
export const NO_MATTERS: OpenMatters = { handOver: null, disputed: false, missing: false };

/** What is open after an event; the state is the one that the event was decided against. */
export function mattersAfter(state: Pick<ItemCustody, 'keeper' | 'matters'>, event: Pick<CustodyEvent, 'kind' | 'to' | 'refs'>): OpenMatters {
  const { matters } = state;
  switch (event.kind) {
    case 'hand-over-offered':
      return { ...matters, handOver: { id: refValue(event.refs, REF.handOverId) ?? '', to: named(event.refs, REF.offeredKind, REF.offeredId) ?? event.to } };
    case 'hand-over-accepted':
    case 'hand-over-ended':
      return { ...matters, handOver: null };
    case 'location-disputed':
      return { ...matters, disputed: true };
    case 'reported-missing':
      return { ...matters, missing: true };
    case 'location-settled':
    case 'found-again':
      // Where it was given from, the receiver may still take it; elsewhere there is nothing left to accept.
      return sameKeeper(state.keeper, event.to) ? { ...matters, disputed: false, missing: false } : NO_MATTERS;
    case 'correction':
      // A correction that puts the thing elsewhere has settled where it is; one of words, or of the stage alone, leaves everything open.
      return sameKeeper(state.keeper, event.to) ? matters : NO_MATTERS;
    default:
      return matters;
  }
}

/** True when nothing has to be answered. */
export function nothingOpen(matters: OpenMatters): boolean {
  return matters.handOver === null && !matters.disputed && !matters.missing;
}

/** Same open matters: what a stored projection is held against. */
export function sameMatters(a: OpenMatters, b: OpenMatters): boolean {
  const sameOffer = a.handOver === null || b.handOver === null ? a.handOver === b.handOver : a.handOver.id === b.handOver.id && sameKeeper(a.handOver.to, b.handOver.to);
  return sameOffer && a.disputed === b.disputed && a.missing === b.missing;
}

/** Why a command cannot go on with what is open, or null. */
export function matterFault(state: ItemCustody, command: CustodyCommand): Refusal | null {
  return answersNothing(state, command) ?? leavesOpen(state.matters, command) ?? offerFault(state, command) ?? claimFault(state, command) ?? namesNobody(command);
}

function refuse(code: Refusal['code'], text: string): Refusal {
  return { refused: true, code, text };
}

/** An answer needs its question. */
function answersNothing({ matters }: ItemCustody, { kind, to, refs }: CustodyCommand): Refusal | null {
  if (kind === 'hand-over-accepted' || kind === 'hand-over-ended') {
    const asked = refValue(refs, REF.handOverId);
    if (asked === null) return null;
    if (matters.handOver?.id !== asked) return refuse('hand_over_not_open', 'This hand-over is not open any more: it was accepted, declined, withdrawn or never offered. Read the item to see who holds it; to pass it on, offer it anew.');
    if (kind === 'hand-over-accepted' && !sameKeeper(matters.handOver.to, to)) return refuse('hand_over_not_open', 'The hand-over was offered to somebody else. Only who was named may accept it; let the giver withdraw it and offer it to you.');
    const outcome = refValue(refs, REF.outcome);
    if (kind === 'hand-over-ended' && outcome !== null && !(HAND_OVER_ENDS as readonly string[]).includes(outcome)) return refuse('command_malformed', `\`refs.outcome\` must be one of ${HAND_OVER_ENDS.join(', ')}.`);
  }
  if (kind === 'location-settled' && !matters.disputed) return refuse('not_disputed', 'Nobody disputes where this item is. Record the move itself, or a correction if the record is wrong.');
  if (kind === 'found-again' && !matters.missing) return refuse('not_missing', 'This item was not reported missing. If it lies elsewhere than on record, record where it is as a disputed location or a correction.');
  return null;
}

/** Kinds that answer the question where it is: nothing that is open keeps a person who looked from saying it. */
const SAYS_WHERE: readonly CustodyCommand['kind'][] = ['location-settled', 'found-again', 'correction'];

/** Nothing moves on over an open question: it would bury it. */
function leavesOpen(matters: OpenMatters, { kind }: CustodyCommand): Refusal | null {
  if (movesNothing(kind) && kind !== 'lot-split' && kind !== 'hand-over-offered') return null;
  // One who settles a disputed place of a thing that is also looked for has found it.
  if (matters.missing && kind !== 'found-again' && kind !== 'correction') return refuse('missing', 'This item was reported missing, so where it is now matters more than the next step. If it is in front of you, record `found-again` with the place where it is; then go on.');
  if (SAYS_WHERE.includes(kind)) return null;
  if (matters.disputed) return refuse('location_disputed', 'Two reports say that this item is in two places. Look for it, and let the person who has it in front of them record `location-settled`; then go on.');
  if (matters.handOver !== null && kind !== 'hand-over-accepted') return refuse('hand_over_open', 'A hand-over of this item is open. Let the receiver accept or decline it, or withdraw it; then go on.');
  return null;
}

function offerFault(state: ItemCustody, { kind, refs }: CustodyCommand): Refusal | null {
  if (kind !== 'hand-over-offered') return null;
  const to = named(refs, REF.offeredKind, REF.offeredId);
  if (to === null) return null;
  if (!PARTIES.includes(to.kind)) return refuse('keeper_kind_not_allowed', `A hand-over is offered to somebody who can accept it: ${PARTIES.join(', ')}. Record what happens to it there by an event of its own.`);
  return sameKeeper(state.keeper, to) ? refuse('same_keeper', 'The receiver holds it already; there is nothing to hand over.') : neverAccepted(state, to);
}

/** An offer that nobody could ever accept would only stand in the way. */
function neverAccepted({ stage }: ItemCustody, to: Keeper): Refusal | null {
  // In the other stages an offer is refused in words of its own.
  if (stage === null || !TRAVELS.includes(stage)) return null;
  const received = stageAfter(stage, { kind: 'hand-over-accepted', to, refs: {} });
  const able = received === null ? [] : keepersFor('hand-over-accepted', received);
  if (able.includes(to.kind)) return null;
  const first = WAY_BACK[stage];
  return refuse('keeper_kind_not_allowed', `While the item is ${stage}, ${keeperPhrase(to.kind)} cannot receive it; only ${orList(able.map(keeperPhrase))} can.${first === undefined ? ' Offer it to one of these.' : ` Offer it to one of these, or record \`${first}\` first.`}`);
}

/** A claim against the record names another place than the record. */
function claimFault(state: ItemCustody, { kind, refs }: CustodyCommand): Refusal | null {
  if (kind !== 'location-disputed' || !sameKeeper(state.keeper, named(refs, REF.claimedKind, REF.claimedId))) return null;
  return refuse('same_keeper', 'That is where the item is on record, so there is nothing to dispute. If it was looked for there and not found, record `reported-missing`.');
}

/** What a reference names must be a keeper or an id, in the spelling in which it is given back, or nobody could ever answer. */
function namesNobody({ refs }: CustodyCommand): Refusal | null {
  for (const key of [REF.offeredKind, REF.claimedKind]) {
    const kind = refValue(refs, key);
    if (kind !== null && !(KEEPER_KINDS as readonly string[]).includes(kind)) return refuse('command_malformed', `\`refs.${key}\` is not a kind of keeper; use one of ${KEEPER_KINDS.join(', ')}.`);
  }
  for (const key of [REF.handOverId, REF.offeredId, REF.claimedId]) {
    const id = refValue(refs, key);
    if (id !== null && id !== id.toLowerCase()) return refuse('command_malformed', `\`refs.${key}\` must be an id in lower case.`);
  }
  return null;
}

function named(refs: Record<string, string>, kindKey: string, idKey: string): Keeper | null {
  const kind = refValue(refs, kindKey);
  const id = refValue(refs, idKey);
  return kind === null || id === null || !(KEEPER_KINDS as readonly string[]).includes(kind) ? null : { kind: kind as KeeperKind, id };
}
