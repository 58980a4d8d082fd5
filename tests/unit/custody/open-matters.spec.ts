import { describe, expect, test } from '@jest/globals';
import { CUSTODY_EVENT_KINDS, KIND_RULES, NO_MATTERS, STAGES, decide, evolve, isRefusal, movesNothing, nothingOpen, sameMatters, verifyChain, type CustodyCommand, type CustodyEvent, type CustodyEventKind, type ItemCustody } from '#custody';
import { NOW, accept, command, inStage, place, refused } from './histories.js';

const HELD = place('holding');
const OFFER = { id: 'hand-over-1', to: place('courier', 2) };

/** A history that goes on, with its events, so that the chain can be verified as well. */
class Story {
  readonly events: CustodyEvent[];
  head: ItemCustody;

  constructor(stage: (typeof STAGES)[number] = 'waiting') {
    ({ events: this.events, head: this.head } = inStage(stage));
  }

  and(kind: CustodyEventKind, part: Partial<CustodyCommand> = {}): this {
    const to = part.to ?? (movesNothing(kind) && this.head.keeper ? this.head.keeper : command(kind, null).to);
    const event = accept(this.head, command(kind, this.head.keeper, { ...part, to }));
    this.events.push(event);
    this.head = evolve(this.head, event);
    return this;
  }
}

describe('a hand-over', () => {
  test('leaves the giver the keeper until the receiver accepts', () => {
    const story = new Story().and('hand-over-offered');
    expect(story.head).toMatchObject({ keeper: HELD, stage: 'waiting', matters: { ...NO_MATTERS, handOver: OFFER } });
    story.and('hand-over-accepted', { to: OFFER.to });
    expect(story.head).toMatchObject({ keeper: OFFER.to, stage: 'waiting', matters: NO_MATTERS });
    expect(refused(story.head, command('hand-over-accepted', OFFER.to, { to: OFFER.to })).code).toBe('hand_over_not_open');
  });

  test.each(['withdrawn', 'declined', 'expired'])('that was %s leaves everything as it was', (outcome) => {
    const story = new Story().and('hand-over-offered').and('hand-over-ended', { refs: { handOverId: OFFER.id, outcome } });
    expect(story.head).toMatchObject({ keeper: HELD, stage: 'waiting', matters: NO_MATTERS });
  });

  test('to a specialist makes it referred out, with the word of the owner; back in a holding area it waits', () => {
    const story = new Story('held-frozen').and('hand-over-offered', { refs: { handOverId: 'hand-over-1', offeredKind: 'specialist', offeredId: 'specialist-1' } }).and('hand-over-accepted', { to: place('specialist') });
    expect(story.head.stage).toBe('referred-out');
    story.and('hand-over-offered', { refs: { handOverId: 'hand-over-2', offeredKind: 'holding', offeredId: 'holding-2' } }).and('hand-over-accepted', { to: place('holding', 2), refs: { handOverId: 'hand-over-2' } });
    expect(story.head).toMatchObject({ stage: 'waiting', keeper: place('holding', 2) });
    expect(verifyChain(story.events, story.head)).toEqual([]);
  });

  test('of a thing that is looked for ends with the finding elsewhere, and stays open when it lay where it was', () => {
    const start = () => new Story().and('hand-over-offered').and('reported-missing');
    expect(start().and('found-again', { to: place('shelf', 4) }).head).toMatchObject({ keeper: place('shelf', 4), matters: NO_MATTERS });
    expect(start().and('found-again', { to: HELD }).head).toMatchObject({ keeper: HELD, matters: { ...NO_MATTERS, handOver: OFFER } });
  });
});

describe('a disputed location', () => {
  test('moves nothing, however many claim it, until a person looked', () => {
    const story = new Story().and('location-disputed').and('location-disputed', { refs: { claimedKind: 'vehicle', claimedId: 'vehicle-1' } });
    expect(story.head).toMatchObject({ keeper: HELD, stage: 'waiting', matters: { disputed: true } });
    expect(story.and('location-settled', { to: place('shelf', 8) }).head).toMatchObject({ keeper: place('shelf', 8), stage: 'waiting', matters: NO_MATTERS });
  });

  test('may be settled in favour of the record, and in another stage', () => {
    expect(new Story().and('location-disputed').and('location-settled', { to: HELD }).head).toMatchObject({ keeper: HELD, matters: NO_MATTERS });
    const drying = new Story().and('location-disputed').and('location-settled', { to: place('drying-place'), refs: { personId: 'person-1', stage: 'drying' } });
    expect(drying.head).toMatchObject({ keeper: place('drying-place'), stage: 'drying', matters: NO_MATTERS });
  });

  test('of a thing that is also missing is settled by finding it', () => {
    const story = new Story().and('location-disputed').and('reported-missing');
    expect(refused(story.head, command('location-settled', HELD)).code).toBe('missing');
    expect(story.and('found-again', { to: place('shelf', 8) }).head.matters).toEqual(NO_MATTERS);
  });
});

describe('a missing thing', () => {
  test('keeps its last keeper, may be reported again, and goes on when it is found', () => {
    const story = new Story('drying').and('reported-missing').and('reported-missing');
    expect(story.head).toMatchObject({ keeper: place('drying-place'), stage: 'drying', matters: { missing: true } });
    story.and('found-again', { to: HELD, refs: { personId: 'person-1', stage: 'waiting' } }).and('moved', { to: place('shelf') });
    expect(story.head).toMatchObject({ keeper: place('shelf'), stage: 'waiting' });
    expect(verifyChain(story.events, story.head)).toEqual([]);
  });
});

describe('a correction over open matters', () => {
  const open = () => new Story().and('hand-over-offered').and('location-disputed').and('reported-missing');

  test('that puts the thing elsewhere closes all', () => {
    expect(open().and('correction', { to: place('shelf'), refs: {} }).head).toMatchObject({ keeper: place('shelf'), matters: NO_MATTERS });
  });

  test('of words, or of the stage alone, leaves all open: nothing is settled in silence', () => {
    const before = open();
    expect(before.head.matters).toEqual({ handOver: OFFER, disputed: true, missing: true });
    expect(open().and('correction', { to: HELD, refs: {} }).head.matters).toEqual(before.head.matters);
    expect(open().and('correction', { to: HELD, refs: { stage: 'held-wet' } }).head).toMatchObject({ stage: 'held-wet', matters: before.head.matters });
  });
});

describe('kinds that only add to the record', () => {
  const kinds = CUSTODY_EVENT_KINDS.filter(movesNothing);
  test('are the ones of the life cycle that say so', () => {
    expect(kinds).toEqual(['lot-split', 'hand-over-offered', 'hand-over-ended', 'location-disputed', 'reported-missing', 'retagged', 'merged-in']);
  });

  test.each(kinds)('%s keeps keeper and stage in every stage that takes it, and never moves anything', (kind) => {
    const from = KIND_RULES[kind].from;
    for (const stage of STAGES.filter((each) => typeof from !== 'string' && from.includes(each))) {
      const { head } = kind === 'hand-over-ended' ? offeredIn(stage) : new Story(stage);
      const outcome = decide(head, command(kind, head.keeper, { to: head.keeper ?? HELD }), NOW);
      if (isRefusal(outcome)) throw new Error(`${stage}: ${outcome.code} ${outcome.text}`);
      expect(evolve(head, outcome)).toMatchObject({ keeper: head.keeper, stage });
      expect(refused(head, command(kind, head.keeper, { to: place('shelf', 77) }))).toMatchObject({ code: 'keeper_kind_not_allowed', text: expect.stringContaining('moves nothing') });
    }
  });

  test.each(['location-disputed', 'reported-missing', 'retagged', 'merged-in'] as const)('%s is taken whatever is open: evidence is never refused', (kind) => {
    const story = new Story().and('hand-over-offered').and('location-disputed').and('reported-missing').and(kind);
    expect(story.head).toMatchObject({ keeper: HELD, stage: 'waiting', matters: { handOver: OFFER, disputed: true, missing: true } });
  });

  /** In stages in which nothing is offered it was offered before a correction of the stage. */
  function offeredIn(stage: (typeof STAGES)[number]): { head: ItemCustody } {
    const { head } = new Story(stage);
    return { head: { ...head, matters: { ...head.matters, handOver: OFFER } } };
  }
});

describe('records that are joined or swapped', () => {
  test('the one that ends names the one that goes on, and only a correction opens it again', () => {
    const story = new Story('drying').and('merged-away', { to: place('same-thing', 3) });
    expect(story.head).toMatchObject({ keeper: place('same-thing', 3), stage: 'merged', matters: NO_MATTERS });
    expect(story.events.at(-1)?.refs['mergedInto']).toBe('same-thing-3');
    story.and('correction', { to: place('drying-place'), refs: { stage: 'drying' }, corrects: { seq: 3, reason: 'two-things-after-all' } });
    expect(story.head).toMatchObject({ keeper: place('drying-place'), stage: 'drying' });
    expect(verifyChain(story.events, story.head)).toEqual([]);
  });

  test('a chain whose open matters were altered beside it is named', () => {
    const story = new Story().and('hand-over-offered');
    for (const matters of [NO_MATTERS, { ...story.head.matters, missing: true }, { ...story.head.matters, disputed: true }, { ...NO_MATTERS, handOver: { ...OFFER, id: 'hand-over-2' } }, { ...NO_MATTERS, handOver: { ...OFFER, to: place('courier', 3) } }]) {
      expect(sameMatters(matters, story.head.matters)).toBe(false);
      expect(verifyChain(story.events, { ...story.head, matters })).toMatchObject([{ fault: 'head_mismatch', seq: 2 }]);
    }
    expect([nothingOpen(story.head.matters), nothingOpen(NO_MATTERS)]).toEqual([false, true]);
  });
});
