/**
 * What people and tablets send on a bad day, from a seed: mostly what fits, and lies, late and doubled reports, answers to questions
 * that nobody asked, and passings of several things at once.
 */
import { Dice } from '#planning';
import { CUSTODY_EVENT_KINDS, KEEPER_KINDS, STAGES, type CustodyCommand, type CustodyEventKind, type Keeper, type KeeperKind, type Stage } from '#custody';
import { DESTINATIONS, place, refsFor } from './histories.js';
import type { Known } from './reference-model.js';

export interface Order {
  itemId: string;
  command: CustodyCommand;
}

export const ITEMS = ['item-a', 'item-b', 'item-c', 'item-d'] as const;

/** What fits in each stage, more often than not; the rest is sent now and then, wherever it fits or not. */
const FITS: Record<Stage, readonly CustodyEventKind[]> = {
  waiting: ['moved', 'moved', 'work-started', 'drying-started', 'frozen', 'held-wet', 'referred-out', 'hand-over-offered', 'hand-over-offered', 'lot-split', 'location-disputed', 'reported-missing', 'retagged'],
  'in-work': ['work-ended', 'work-ended', 'moved', 'drying-started', 'frozen', 'held-wet', 'work-started', 'location-disputed', 'reported-missing'],
  drying: ['drying-ended', 'drying-ended', 'drying-started', 'work-started', 'frozen', 'location-disputed', 'reported-missing'],
  'held-wet': ['moved', 'work-started', 'drying-started', 'frozen', 'hand-over-offered', 'location-disputed'],
  'held-frozen': ['frozen', 'thawed', 'thawed', 'hand-over-offered', 'referred-out', 'moved', 'reported-missing'],
  'referred-out': ['referral-returned', 'referral-returned', 'moved', 'hand-over-offered', 'handed-back', 'location-disputed'],
  released: ['correction', 'moved'],
  'handed-back': ['correction', 'moved'],
  merged: ['correction', 'moved'],
};

const STAGE_KEPT_BY: Partial<Record<KeeperKind, readonly Stage[]>> = {
  station: ['waiting', 'in-work', 'held-wet'], 'drying-place': ['drying'], freezer: ['held-frozen', 'waiting'], specialist: ['referred-out'], 'partner-network': ['referred-out'],
  household: ['handed-back', 'released'], disposed: ['released'], 'same-thing': ['merged'], courier: ['waiting', 'held-frozen', 'referred-out', 'held-wet'], vehicle: ['waiting', 'held-frozen', 'referred-out'],
};

const MINUTE_MS = 60_000;

export class RandomCommands {
  private readonly dice: Dice;
  private readonly sent: Order[] = [];
  private made = 0;

  constructor(
    private readonly seed: number,
    private readonly known: ReadonlyMap<string, Known>,
    /** The last hash of an item, for records that are joined. */
    private readonly headOf: (itemId: string) => string,
  ) {
    this.dice = new Dice(seed | 0);
  }

  /** Minutes until something is sent again. */
  pauseMs(): number {
    return this.dice.below(10) * MINUTE_MS;
  }

  /** What is sent next: one command, or what belongs together for several things. */
  next(nowMs: number): Order[] {
    const again = this.dice.below(100) < 6 ? this.sent[this.dice.below(Math.max(1, this.sent.length))] : undefined;
    // Word for word, under the same command id: the tablet did not hear the answer.
    if (again !== undefined) return [again];
    const orders = this.fresh(nowMs).map((order) => (this.oneIn(6) ? this.spoiled(order, nowMs) : order));
    this.sent.push(...orders);
    return orders;
  }

  private fresh(nowMs: number): Order[] {
    const roll = this.dice.below(100);
    if (roll < 4) return this.merge(nowMs);
    if (roll < 7) return this.swap(nowMs);
    if (roll < 12) return this.load(nowMs);
    const itemId = this.pick(ITEMS);
    return [this.order(itemId, this.kindFor(itemId), nowMs)];
  }

  /** An open matter is answered more often than not. */
  private kindFor(itemId: string): CustodyEventKind {
    const known = this.known.get(itemId);
    if (known === undefined) return this.oneIn(4) ? this.pick(CUSTODY_EVENT_KINDS) : this.pick(['taken-in', 'taken-in', 'split-off']);
    if (this.oneIn(8)) return this.pick(CUSTODY_EVENT_KINDS);
    if (this.oneIn(20)) return this.pick(['released', 'handed-back']);
    if (this.oneIn(3)) return this.pick(FITS[known.stage]);
    if (known.missing) return this.pick(['found-again', 'found-again', 'correction', 'moved']);
    if (known.disputed) return this.pick(['location-settled', 'location-settled', 'correction', 'moved']);
    if (known.offer !== null) return this.pick(['hand-over-accepted', 'hand-over-accepted', 'hand-over-ended', 'correction', 'moved']);
    return this.pick(FITS[known.stage]);
  }

  private order(itemId: string, kind: CustodyEventKind, nowMs: number, part: Partial<CustodyCommand> = {}): Order {
    const known = this.known.get(itemId);
    const to = this.destination(kind, known);
    this.made += 1;
    const command: CustodyCommand = {
      commandId: `command-${this.seed}-${this.made}`, kind, from: known?.keeper ?? null, to, actorId: 'actor-1',
      // Late slips and clocks that run ahead.
      occurredAtMs: nowMs - (this.oneIn(10) ? this.dice.below(3_000) * MINUTE_MS : 0) + (this.oneIn(25) ? this.dice.below(11) * MINUTE_MS : 0),
      refs: this.refs(kind, known, to),
      ...(kind === 'correction' ? { corrects: { seq: 1 + this.dice.below(Math.max(1, known?.events ?? 1)), reason: 'wrong-scan' } } : {}),
    };
    return { itemId, command: { ...command, ...part } };
  }

  private destination(kind: CustodyEventKind, known: Known | undefined): Keeper {
    if (kind === 'hand-over-accepted' && known?.offer != null) return known.offer.to;
    const adds = ['lot-split', 'hand-over-offered', 'hand-over-ended', 'location-disputed', 'reported-missing', 'retagged', 'merged-in'].includes(kind);
    const looks = ['location-settled', 'found-again', 'correction'].includes(kind);
    if (known !== undefined && (adds || (looks && this.oneIn(3)))) return known.keeper;
    if (kind === 'merged-away') return { kind: 'same-thing', id: this.pick(ITEMS) };
    return place(this.pick(DESTINATIONS[kind]), 1 + this.dice.below(3));
  }

  private refs(kind: CustodyEventKind, known: Known | undefined, to: Keeper): Record<string, string> {
    const refs = { ...refsFor(kind) };
    if (kind === 'hand-over-offered') return { ...refs, handOverId: `hand-over-${this.dice.below(4)}`, ...this.named('offered') };
    if (kind === 'location-disputed') return { ...refs, ...this.named('claimed') };
    if (kind === 'hand-over-accepted') return { handOverId: known?.offer?.id ?? 'hand-over-0', ...(this.oneIn(6) ? {} : { consentId: 'consent-1' }) };
    if (kind === 'hand-over-ended') return { handOverId: known?.offer?.id ?? 'hand-over-0', outcome: this.pick(['withdrawn', 'declined', 'expired']) };
    if (to.kind === 'same-thing') refs['mergedInto'] = to.id;
    const keeps = kind === 'location-settled' || kind === 'found-again' || kind === 'correction' || kind === 'split-off';
    if (!keeps || this.oneIn(4)) return refs;
    return { ...refs, consentId: 'consent-1', handBackId: 'hand-back-1', stage: this.oneIn(8) ? this.pick(STAGES) : this.pick(STAGE_KEPT_BY[to.kind] ?? ['waiting', 'held-wet']) };
  }

  private named(what: 'offered' | 'claimed'): Record<string, string> {
    const to = place(this.pick(this.oneIn(8) ? KEEPER_KINDS : DESTINATIONS['hand-over-accepted']), 1 + this.dice.below(3));
    return { [`${what}Kind`]: to.kind, [`${what}Id`]: to.id };
  }

  /** Two records of one thing become one. */
  private merge(nowMs: number): Order[] {
    const [away, into] = this.two();
    return [
      this.order(away, 'merged-away', nowMs, { to: { kind: 'same-thing', id: into }, refs: { mergedInto: into } }),
      this.order(into, 'merged-in', nowMs, { refs: { mergedFrom: away, otherHead: this.headOf(away) } }),
    ];
  }

  /** Two things whose tags were confused. */
  private swap(nowMs: number): Order[] {
    const [one, other] = this.two();
    return [
      this.order(one, 'retagged', nowMs, { refs: { tagWas: `tag-${one}`, tagIs: `tag-${other}`, swappedWith: other } }),
      this.order(other, 'retagged', nowMs, { refs: { tagWas: `tag-${other}`, tagIs: `tag-${one}`, swappedWith: one } }),
    ];
  }

  /** Everything goes on one vehicle, or is offered to one driver. */
  private load(nowMs: number): Order[] {
    const kind = this.pick<CustodyEventKind>(['moved', 'hand-over-offered', 'hand-over-accepted', 'reported-missing']);
    const refs = kind === 'hand-over-offered' ? { handOverId: 'hand-over-load', offeredKind: 'vehicle', offeredId: 'vehicle-1' } : refsFor(kind);
    return ITEMS.map((itemId) => this.order(itemId, kind, nowMs, { refs: kind === 'hand-over-accepted' ? { ...refs, handOverId: 'hand-over-load' } : refs, ...(kind === 'moved' ? { to: place('vehicle', 1) } : {}) }));
  }

  /** The same with one thing wrong. */
  private spoiled({ itemId, command }: Order, nowMs: number): Order {
    const wrong: Record<string, () => Partial<CustodyCommand>> = {
      'another giver': () => ({ from: place(this.pick(KEEPER_KINDS), 1 + this.dice.below(3)) }),
      'no giver': () => ({ from: null }),
      'another receiver': () => ({ to: place(this.pick(KEEPER_KINDS), 1 + this.dice.below(3)) }),
      'a reference less': () => ({ refs: Object.fromEntries(Object.entries(command.refs).filter(() => !this.oneIn(2))) }),
      'a blank reference': () => ({ refs: Object.fromEntries(Object.entries(command.refs).map(([key, value]) => [key, this.oneIn(2) ? '  ' : value])) }),
      'another reference': () => ({ refs: { ...command.refs, ...(command.refs['handOverId'] === undefined ? {} : { handOverId: 'hand-over-9' }), ...(command.refs['outcome'] === undefined ? {} : { outcome: 'forgotten' }), ...(command.refs['pieces'] === undefined ? {} : { pieces: '0' }) } }),
      'a spelling that is not kept': () => ({ to: { ...command.to, id: command.to.id.toUpperCase() } }),
      'a sign that cannot be kept': () => ({ refs: { ...command.refs, note: 'a\0b' } }),
      'far ahead': () => ({ occurredAtMs: nowMs + (5 + this.dice.below(3)) * MINUTE_MS + 1 }),
      'its own double': () => ({ to: { kind: 'same-thing', id: itemId }, refs: { ...command.refs, mergedInto: itemId } }),
      'a mistake yet to come': () => ({ corrects: { seq: 1_000, reason: 'wrong-scan' } }),
      'no reason': () => ({ corrects: { seq: 1, reason: ' ' } }),
    };
    return { itemId, command: { ...command, ...this.pick(Object.values(wrong))() } };
  }

  private two(): [string, string] {
    const one = this.dice.below(ITEMS.length);
    return [ITEMS[one] ?? 'item-a', ITEMS[(one + 1 + this.dice.below(ITEMS.length - 1)) % ITEMS.length] ?? 'item-b'];
  }

  private oneIn(n: number): boolean {
    return this.dice.below(n) === 0;
  }

  private pick<T>(list: readonly T[]): T {
    const chosen = list[this.dice.below(list.length)];
    if (chosen === undefined) throw new RangeError('nothing to choose from');
    return chosen;
  }
}
