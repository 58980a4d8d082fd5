import { describe, expect, test } from '@jest/globals';
import { mattersAfter, movesNothing, CUSTODY_EVENT_KINDS, FUTURE_TOLERANCE_MS, KEEPER_KINDS, STAGES, beforeIntake, decide, describeKeeper, evolve, isRefusal, keeper, sameKeeper, type CustodyCommand, type CustodyEventKind, type ItemCustody, type Keeper, type Refusal, type Stage } from '#custody';
import { ITEM, NETWORK, NOW, accept, chainOf, command, inStage, place, refused } from './histories.js';

/** Which kinds each stage lets through, and the stage they give: written by hand, so that the data table has a witness. */
const LETS_THROUGH: Record<Stage, Partial<Record<CustodyEventKind, Stage>>> = {
  waiting: { moved: 'waiting', 'work-started': 'in-work', 'drying-started': 'drying', frozen: 'held-frozen', 'held-wet': 'held-wet', 'referred-out': 'referred-out', released: 'released', 'handed-back': 'handed-back', 'lot-split': 'waiting', 'hand-over-offered': 'waiting', 'location-disputed': 'waiting', 'reported-missing': 'waiting', retagged: 'waiting', 'merged-away': 'merged', 'merged-in': 'waiting', correction: 'waiting' },
  'in-work': { moved: 'in-work', 'work-started': 'in-work', 'work-ended': 'waiting', 'drying-started': 'drying', frozen: 'held-frozen', 'held-wet': 'held-wet', 'lot-split': 'in-work', 'location-disputed': 'in-work', 'reported-missing': 'in-work', retagged: 'in-work', 'merged-away': 'merged', 'merged-in': 'in-work', correction: 'in-work' },
  drying: { 'work-started': 'in-work', 'drying-started': 'drying', 'drying-ended': 'waiting', frozen: 'held-frozen', 'held-wet': 'held-wet', 'referred-out': 'referred-out', released: 'released', 'handed-back': 'handed-back', 'lot-split': 'drying', 'location-disputed': 'drying', 'reported-missing': 'drying', retagged: 'drying', 'merged-away': 'merged', 'merged-in': 'drying', correction: 'drying' },
  'held-wet': { moved: 'held-wet', 'work-started': 'in-work', 'drying-started': 'drying', frozen: 'held-frozen', 'referred-out': 'referred-out', released: 'released', 'handed-back': 'handed-back', 'lot-split': 'held-wet', 'hand-over-offered': 'held-wet', 'location-disputed': 'held-wet', 'reported-missing': 'held-wet', retagged: 'held-wet', 'merged-away': 'merged', 'merged-in': 'held-wet', correction: 'held-wet' },
  'held-frozen': { moved: 'held-frozen', frozen: 'held-frozen', thawed: 'waiting', 'referred-out': 'referred-out', released: 'released', 'handed-back': 'handed-back', 'lot-split': 'held-frozen', 'hand-over-offered': 'held-frozen', 'location-disputed': 'held-frozen', 'reported-missing': 'held-frozen', retagged: 'held-frozen', 'merged-away': 'merged', 'merged-in': 'held-frozen', correction: 'held-frozen' },
  'referred-out': { moved: 'referred-out', 'referral-returned': 'waiting', released: 'released', 'handed-back': 'handed-back', 'hand-over-offered': 'referred-out', 'location-disputed': 'referred-out', 'reported-missing': 'referred-out', retagged: 'referred-out', 'merged-away': 'merged', 'merged-in': 'referred-out', correction: 'referred-out' },
  released: { correction: 'released' },
  'handed-back': { correction: 'handed-back' },
  merged: { correction: 'merged' },
};

/** A keeper that suits both the kind and the stage it gives. */
function suits(kind: CustodyEventKind, stage: Stage): Keeper {
  if (kind === 'moved' || kind === 'correction') {
    const kinds: Record<Stage, Keeper> = { waiting: place('station', 9), 'in-work': place('station', 9), drying: place('drying-place', 9), 'held-wet': place('container', 9), 'held-frozen': place('courier', 9), 'referred-out': place('specialist', 9), released: place('household', 9), 'handed-back': place('household', 9), merged: place('same-thing', 9) };
    return kinds[stage];
  }
  return command(kind, null).to;
}

describe('life cycle', () => {
  for (const stage of STAGES) {
    for (const kind of CUSTODY_EVENT_KINDS) {
      const next = LETS_THROUGH[stage][kind];
      test(`${kind} while ${stage} ${next === undefined ? 'is refused' : `leads to ${next}`}`, () => {
        const { head } = inStage(stage);
        const to = movesNothing(kind) && head.keeper ? head.keeper : suits(kind, next ?? stage);
        const outcome = decide(head, command(kind, head.keeper, { to }), NOW);
        if (next === undefined) {
          expect(isRefusal(outcome)).toBe(true);
          return;
        }
        if (isRefusal(outcome)) throw new Error(`${outcome.code}: ${outcome.text}`);
        expect(outcome.stage).toBe(next);
        expect(evolve(head, outcome)).toEqual({ ...head, seq: head.seq + 1, headHash: outcome.hash, keeper: outcome.to, stage: next, matters: mattersAfter(head, outcome) });
      });
    }
  }

  /** Who may receive the item by each kind of event from the named stage; every other kind of keeper is refused. */
  const RECEIVERS: [CustodyEventKind, Stage, Keeper['kind'][]][] = [
    ['moved', 'waiting', ['holding', 'station', 'container', 'shelf', 'vehicle', 'courier']],
    ['moved', 'in-work', ['station']],
    ['moved', 'drying', []],
    ['moved', 'held-wet', ['holding', 'station', 'container', 'shelf', 'vehicle', 'courier']],
    ['moved', 'held-frozen', ['vehicle', 'courier']],
    ['moved', 'referred-out', ['vehicle', 'courier', 'specialist', 'partner-network']],
    ['work-started', 'waiting', ['station']],
    ['work-ended', 'in-work', ['holding', 'station', 'container', 'shelf']],
    ['drying-started', 'waiting', ['drying-place']],
    ['drying-ended', 'drying', ['holding', 'station', 'container', 'shelf']],
    ['frozen', 'waiting', ['freezer']],
    ['thawed', 'held-frozen', ['holding', 'station', 'container', 'shelf']],
    ['held-wet', 'waiting', ['holding', 'container', 'shelf']],
    ['referred-out', 'waiting', ['vehicle', 'courier', 'specialist', 'partner-network']],
    ['referral-returned', 'referred-out', ['holding', 'station', 'container', 'shelf', 'freezer', 'vehicle']],
    ['released', 'waiting', ['disposed', 'household']],
    ['handed-back', 'waiting', ['household']],
    ['merged-away', 'waiting', ['same-thing']],
  ];
  test.each(RECEIVERS)('%s while %s goes to %j and to nobody else', (kind, stage, allowed) => {
    const { head } = inStage(stage);
    for (const to of KEEPER_KINDS) {
      const outcome = decide(head, command(kind, head.keeper, { to: place(to, 7) }), NOW);
      if (allowed.includes(to)) expect(isRefusal(outcome)).toBe(false);
      else expect(outcome).toMatchObject({ refused: true, code: 'keeper_kind_not_allowed' });
    }
  });

  test.each(['holding', 'station', 'container', 'freezer'] as const)('an item is taken in to %s and waits', (kind) => {
    const event = accept(beforeIntake(NETWORK, ITEM), command('taken-in', null, { to: place(kind) }));
    expect(event).toMatchObject({ seq: 1, from: null, stage: 'waiting', prevHash: '0'.repeat(64), networkId: NETWORK, itemId: ITEM });
  });

  test('an arrival put into a freezer is confirmed frozen in the same freezer', () => {
    const { head } = chainOf([['taken-in', place('freezer')], ['frozen', place('freezer')]]);
    expect(head).toMatchObject({ stage: 'held-frozen', keeper: place('freezer') });
  });

  test('an item moves to a second drying place or freezer by the same kind of event', () => {
    expect(chainOf([['taken-in', place('holding')], ['drying-started', place('drying-place')], ['drying-started', place('drying-place', 2)]]).head.keeper).toEqual(place('drying-place', 2));
    expect(chainOf([['taken-in', place('holding')], ['frozen', place('freezer')], ['frozen', place('freezer', 2)]]).head.keeper).toEqual(place('freezer', 2));
  });

  test('a split-off item starts its own record, in the stage it is really in', () => {
    const start = beforeIntake(NETWORK, 'part-1');
    expect(accept(start, command('split-off', null, { to: place('holding') }))).toMatchObject({ seq: 1, stage: 'waiting' });
    const drying = command('split-off', null, { to: place('drying-place'), refs: { splitFrom: ITEM, stage: 'drying' } });
    expect(accept(start, drying)).toMatchObject({ seq: 1, stage: 'drying' });
    expect(refused(start, { ...drying, to: place('holding') }).code).toBe('keeper_kind_not_allowed');
    for (const stage of ['referred-out', 'released', 'handed-back', 'lost']) {
      expect(refused(start, command('split-off', null, { to: place('courier'), refs: { splitFrom: ITEM, stage } })).code).toBe('command_malformed');
    }
    expect(refused(start, command('split-off', null, { to: place('holding'), refs: { splitFrom: 'part-1' } })).code).toBe('reference_missing');
  });
});

describe('splits of a lot', () => {
  const { head } = inStage('drying');
  const split = (part: Partial<CustodyCommand> = {}) => command('lot-split', head.keeper, { to: place('drying-place'), ...part });

  test('a lot that is split stays where it is and is still doing what it did', () => {
    expect(evolve(head, accept(head, split()))).toMatchObject({ stage: 'drying', keeper: place('drying-place'), seq: head.seq + 1 });
  });

  test('a split moves nothing', () => {
    expect(refused(head, split({ to: place('drying-place', 2) }))).toMatchObject({ code: 'keeper_kind_not_allowed', text: expect.stringContaining('moves nothing') });
  });

  test.each([
    ['its part', { pieces: '1', left: '1' }, /refs\.splitTo/],
    ['another part than itself', { splitTo: ITEM, pieces: '1', left: '1' }, /refs\.splitTo/],
    ['the pieces of the part', { splitTo: 'part-1', left: '1' }, /refs\.pieces/],
    ['whole pieces', { splitTo: 'part-1', pieces: '1.5', left: '1' }, /whole numbers/],
    ['a piece that stays', { splitTo: 'part-1', pieces: '1', left: '0' }, /1 or more/],
  ])('a split without %s is refused', (_what, refs, text) => {
    const refusal = refused(head, split({ refs }));
    expect(refusal.code).toBe('reference_missing');
    expect(refusal.text).toMatch(text);
  });
});

describe('corrections', () => {
  test('a wrongly handed-back item is put back where it is, and work goes on', () => {
    const { head, events } = inStage('handed-back');
    const fix = accept(head, command('correction', head.keeper, { to: place('drying-place'), refs: { stage: 'drying' }, corrects: { seq: 2, reason: 'wrong-tag-scanned' } }));
    expect(fix).toMatchObject({ stage: 'drying', to: place('drying-place'), corrects: { seq: 2, reason: 'wrong-tag-scanned' } });
    const after = evolve(head, fix);
    expect(accept(after, command('drying-ended', after.keeper, { to: place('holding') })).seq).toBe(events.length + 2);
  });

  test('a correction may leave keeper and stage alone', () => {
    const { head } = inStage('waiting');
    expect(accept(head, command('correction', head.keeper, { to: place('holding'), refs: {} }))).toMatchObject({ stage: 'waiting', to: place('holding') });
  });

  test('a correction cannot put the item with a keeper that its stage does not allow', () => {
    const { head } = inStage('waiting');
    const refusal = refused(head, command('correction', head.keeper, { to: place('drying-place'), refs: {} }));
    expect(refusal.code).toBe('keeper_kind_not_allowed');
    expect(refusal.text).toContain('refs.stage');
    expect(refused(head, command('correction', head.keeper, { refs: { stage: 'lost' } })).code).toBe('command_malformed');
  });

  test.each([
    ['released', 'disposed', 'consent_missing'],
    ['referred-out', 'specialist', 'consent_missing'],
    ['handed-back', 'household', 'reference_missing'],
  ] as const)('a correction to %s is no way around the agreement', (stage, to, code) => {
    const { head } = inStage('waiting');
    expect(refused(head, command('correction', head.keeper, { to: place(to), refs: { stage } })).code).toBe(code);
  });
});

/** A waiting item about which one thing is open. */
function withOpen(...kinds: CustodyEventKind[]): ItemCustody {
  return kinds.reduce((head, kind) => evolve(head, accept(head, command(kind, head.keeper, { to: place('holding') }))), inStage('waiting').head);
}

describe('refusals', () => {
  const waiting = inStage('waiting').head;
  const before = beforeIntake(NETWORK, ITEM);
  const held = place('holding');
  const offerTo = (offeredKind: string, offeredId: string) => ({ handOverId: 'hand-over-1', offeredKind, offeredId });
  const [offered, disputed, missing] = [withOpen('hand-over-offered'), withOpen('location-disputed'), withOpen('reported-missing')];
  const rows: [string, Refusal['code'], RegExp, ItemCustody, CustodyCommand][] = [
    ['a second intake', 'already_taken_in', /another object/, waiting, command('taken-in', null)],
    ['a split-off of an item that has a record', 'already_taken_in', /its own tag/, waiting, command('split-off', null)],
    ['a move before intake', 'not_taken_in', /taken-in.* first/, before, command('moved', held)],
    ['a correction before intake', 'not_taken_in', /taken-in.* first/, before, command('correction', null)],
    ['anything after hand-back', 'terminal', /handed back.*coordinator/, inStage('handed-back').head, command('moved', place('household'))],
    ['anything after release', 'terminal', /owner's agreement.*correction/, inStage('released').head, command('handed-back', place('disposed'))],
    ['a giver of another kind', 'wrong_keeper', /a drying place holds this item, but you named a holding area.*present keeper/, inStage('drying').head, command('drying-ended', held)],
    ['a giver of the same kind', 'wrong_keeper', /a holding area holds this item, but you named another of that kind/, waiting, command('moved', place('holding', 5))],
    ['no giver', 'wrong_keeper', /names nobody/, waiting, command('moved', null)],
    ['an intake that names a giver', 'wrong_keeper', /must be null/, before, command('taken-in', place('household'))],
    ['a move to where it is', 'same_keeper', /Nothing needs to be sent/, waiting, command('moved', held, { to: held })],
    ['work started twice at one station', 'same_keeper', /already says so/, inStage('in-work').head, command('work-started', place('station'), { to: place('station') })],
    ['an end of work that was not started', 'wrong_stage', /can follow in-work/, waiting, command('work-ended', held)],
    ['a hand-back out of unfinished work', 'wrong_stage', /`work-ended` first/, inStage('in-work').head, command('handed-back', place('station'))],
    ['work on a frozen item', 'wrong_stage', /`thawed` first/, inStage('held-frozen').head, command('work-started', place('freezer'))],
    ['a move into a drying place', 'keeper_kind_not_allowed', /Use `drying-started`/, waiting, command('moved', held, { to: place('drying-place') })],
    ['a move into a freezer', 'keeper_kind_not_allowed', /Use `frozen`/, waiting, command('moved', held, { to: place('freezer') })],
    ['a move to the household', 'keeper_kind_not_allowed', /Use `handed-back`/, waiting, command('moved', held, { to: place('household') })],
    ['a move to disposal', 'keeper_kind_not_allowed', /Use `released`/, waiting, command('moved', held, { to: place('disposed') })],
    ['a move to a specialist', 'keeper_kind_not_allowed', /Use `referred-out`/, waiting, command('moved', held, { to: place('specialist') })],
    ['a move off a drying place', 'keeper_kind_not_allowed', /Use `drying-ended`/, inStage('drying').head, command('moved', place('drying-place'), { to: held })],
    ['a move out of a freezer', 'keeper_kind_not_allowed', /Use `thawed`/, inStage('held-frozen').head, command('moved', place('freezer'), { to: held })],
    ['a move back from a courier of a referral', 'keeper_kind_not_allowed', /Use `referral-returned`/, inStage('referred-out').head, command('moved', place('courier'), { to: held })],
    ['work at a freezer', 'keeper_kind_not_allowed', /only the crew at a station can hold it; you named a freezer/, waiting, command('work-started', held, { to: place('freezer') })],
    ['a referral without consent', 'consent_missing', /refs\.consentId/, waiting, command('referred-out', held, { refs: {} })],
    ['a referral with blank consent', 'consent_missing', /refs\.consentId/, waiting, command('referred-out', held, { refs: { consentId: '  ' } })],
    ['a release without consent', 'consent_missing', /owner's recorded agreement/, waiting, command('released', held, { refs: {} })],
    ['a specialist who passes it on without consent', 'consent_missing', /owner's recorded agreement/, inStage('referred-out').head, command('moved', place('courier'), { to: place('specialist'), refs: {} })],
    ['a hand-back without its record', 'reference_missing', /refs\.handBackId/, waiting, command('handed-back', held, { refs: {} })],
    ['a split-off without its lot', 'reference_missing', /refs\.splitFrom/, before, command('split-off', null, { refs: {} })],
    ['a correction of nothing', 'correction_target_missing', /from 1 to 1/, waiting, command('correction', held, { corrects: undefined })],
    ['a correction of an event to come', 'correction_target_missing', /from 1 to 1/, waiting, command('correction', held, { corrects: { seq: 2, reason: 'x' } })],
    ['a correction without a reason', 'correction_target_missing', /reason code/, waiting, command('correction', held, { corrects: { seq: 1, reason: ' ' } })],
    ['an event of the future', 'occurred_in_future', /6 minutes from now; at most 5/, waiting, command('moved', held, { occurredAtMs: NOW + FUTURE_TOLERANCE_MS + 1 })],
    ['a broken time', 'command_malformed', /whole epoch milliseconds/, waiting, command('moved', held, { occurredAtMs: Number.NaN })],
    ['a time before the calendar', 'command_malformed', /calendar year/, waiting, command('moved', held, { occurredAtMs: -62_135_596_800_001 })],
    ['an id that the database would spell otherwise', 'command_malformed', /lower case/, waiting, command('moved', held, { to: { kind: 'station', id: '0190B000-0000-7000-8000-000000000001' } })],
    ['a command id in capitals', 'command_malformed', /lower case/, waiting, command('moved', held, { commandId: 'ABC' })],
    ['nobody who vouches', 'command_malformed', /actorId/, waiting, command('moved', held, { actorId: '' })],
    ['a receiver without id', 'command_malformed', /to\.id/, waiting, command('moved', held, { to: { kind: 'station', id: '' } })],
    ['a reference that the database could not give back', 'command_malformed', /cannot be stored/, waiting, command('moved', held, { refs: { note: 'a\u0000b' } })],
    ['half a surrogate pair', 'command_malformed', /cannot be stored/, waiting, command('moved', held, { refs: { '\ud83e': 'x' } })],
    ['a second offer', 'hand_over_open', /receiver accept or decline it, or withdraw it/, offered, command('hand-over-offered', held, { to: held })],
    ['a move while an offer is open', 'hand_over_open', /hand-over of this item is open/, offered, command('moved', held)],
    ['a hand-back while an offer is open', 'hand_over_open', /withdraw it; then go on/, offered, command('handed-back', held)],
    ['an answer to an offer that nobody made', 'hand_over_not_open', /never offered.*offer it anew/, waiting, command('hand-over-accepted', held, { to: place('courier', 2) })],
    ['an answer to another offer', 'hand_over_not_open', /not open any more/, offered, command('hand-over-ended', held, { to: held, refs: { handOverId: 'hand-over-9', outcome: 'declined' } })],
    ['somebody else who accepts', 'hand_over_not_open', /offered to somebody else.*withdraw it/, offered, command('hand-over-accepted', held, { to: place('courier', 3) })],
    ['an offer that ends as nobody knows', 'command_malformed', /withdrawn, declined, expired/, offered, command('hand-over-ended', held, { to: held, refs: { handOverId: 'hand-over-1', outcome: 'forgotten' } })],
    ['an offer to who holds it', 'same_keeper', /nothing to hand over/, waiting, command('hand-over-offered', held, { to: held, refs: offerTo('holding', 'holding-1') })],
    ['an offer to a drying place', 'keeper_kind_not_allowed', /somebody who can accept it/, waiting, command('hand-over-offered', held, { to: held, refs: offerTo('drying-place', 'drying-place-1') })],
    ['an offer that could never be accepted', 'keeper_kind_not_allowed', /While the item is held-frozen, a shelf cannot receive it; only a vehicle or a courier can.*`thawed` first/, inStage('held-frozen').head, command('hand-over-offered', place('freezer'), { to: place('freezer'), refs: offerTo('shelf', 'shelf-1') })],
    ['an offer to what is no keeper', 'command_malformed', /refs\.offeredKind.*kind of keeper/, waiting, command('hand-over-offered', held, { to: held, refs: offerTo('cupboard', 'cupboard-1') })],
    ['an offer whose id is given back otherwise', 'command_malformed', /refs\.offeredId.*lower case/, waiting, command('hand-over-offered', held, { to: held, refs: offerTo('courier', 'Courier-1') })],
    ['an offer without a receiver', 'reference_missing', /refs\.offeredId/, waiting, command('hand-over-offered', held, { to: held, refs: { handOverId: 'hand-over-1', offeredKind: 'courier' } })],
    ['an offer that moves the item at once', 'keeper_kind_not_allowed', /moves nothing/, waiting, command('hand-over-offered', held, { to: place('courier', 2) })],
    ['a specialist who accepts without the word of the owner', 'consent_missing', /refs\.consentId/, evolve(waiting, accept(waiting, command('hand-over-offered', held, { to: held, refs: offerTo('specialist', 'specialist-1') }))), command('hand-over-accepted', held, { to: place('specialist'), refs: { handOverId: 'hand-over-1' } })],
    ['a move over a dispute', 'location_disputed', /in two places.*`location-settled`/, disputed, command('moved', held)],
    ['an offer over a dispute', 'location_disputed', /Look for it/, disputed, command('hand-over-offered', held, { to: held })],
    ['a claim that says what the record says', 'same_keeper', /nothing to dispute.*`reported-missing`/, waiting, command('location-disputed', held, { to: held, refs: { claimedKind: 'holding', claimedId: 'holding-1' } })],
    ['a claim of what is no keeper', 'command_malformed', /refs\.claimedKind/, waiting, command('location-disputed', held, { to: held, refs: { claimedKind: 'attic', claimedId: 'attic-1' } })],
    ['a settlement of nothing', 'not_disputed', /Nobody disputes/, waiting, command('location-settled', held)],
    ['a settlement by nobody', 'reference_missing', /refs\.personId/, disputed, command('location-settled', held, { refs: {} })],
    ['a settlement that needs another stage', 'keeper_kind_not_allowed', /refs\.stage/, disputed, command('location-settled', held, { to: place('drying-place') })],
    ['a settlement by what is another thing', 'command_malformed', /refs\.stage/, disputed, command('location-settled', held, { to: place('same-thing'), refs: { personId: 'person-1', stage: 'merged', mergedInto: 'same-thing-1' } })],
    ['the next step of what is missing', 'missing', /`found-again` with the place/, missing, command('work-started', held)],
    ['a split of what is missing', 'missing', /where it is now matters more/, missing, command('lot-split', held, { to: held })],
    ['a merge of what is missing', 'missing', /`found-again`/, missing, command('merged-away', held)],
    ['what was never missing and is found', 'not_missing', /not reported missing.*disputed location or a correction/, waiting, command('found-again', held)],
    ['a new tag that is the old one', 'reference_missing', /differs from the one before/, waiting, command('retagged', held, { to: held, refs: { tagWas: 'tag-1', tagIs: 'tag-1' } })],
    ['a thing that is its own double', 'reference_missing', /the other item/, waiting, command('merged-away', held, { to: { kind: 'same-thing', id: ITEM } })],
    ['a record that goes on elsewhere than it says', 'reference_missing', /`to` names as well/, waiting, command('merged-away', held, { to: place('same-thing'), refs: { mergedInto: 'another-item' } })],
    ['a joined record without its last hash', 'reference_missing', /64 hexadecimal digits/, waiting, command('merged-in', held, { to: held, refs: { mergedFrom: 'another-item', otherHead: 'unknown' } })],
    ['anything after it was joined to another', 'terminal', /another record of the same thing.*correction/, inStage('merged').head, command('moved', place('same-thing'))],
    ['a corrected event on another kind', 'command_malformed', /`correction` only/, waiting, command('moved', held, { corrects: { seq: 1, reason: 'x' } })],
  ];
  test.each(rows)('%s is refused as %s', (_name, code, text, state, order) => {
    const refusal = refused(state, order);
    expect(refusal).toEqual({ refused: true, code, text: expect.stringMatching(text) });
    expect(refusal.text).not.toMatch(/-1\b|somewhere-else|undefined|null holds/);
  });

  test('every code of the contract is provoked above', () => {
    const provoked = new Set(rows.map(([, code]) => code));
    expect([...provoked].sort()).toEqual(['already_taken_in', 'command_malformed', 'consent_missing', 'correction_target_missing', 'hand_over_not_open', 'hand_over_open', 'keeper_kind_not_allowed', 'location_disputed', 'missing', 'not_disputed', 'not_missing', 'not_taken_in', 'occurred_in_future', 'reference_missing', 'same_keeper', 'terminal', 'wrong_keeper', 'wrong_stage']);
  });
});

describe('time', () => {
  const { head } = inStage('waiting');
  test('five minutes ahead is still accepted', () => {
    expect(accept(head, command('moved', head.keeper, { to: place('container'), occurredAtMs: NOW + FUTURE_TOLERANCE_MS })).occurredAtMs).toBe(NOW + FUTURE_TOLERANCE_MS);
  });
  test.each([0, NOW - 30 * 86_400_000, -1])('a slip keyed in late (%d) keeps both times', (occurredAtMs) => {
    expect(accept(head, command('moved', head.keeper, { to: place('container'), occurredAtMs }))).toMatchObject({ occurredAtMs, recordedAtMs: NOW });
  });
});

describe('purity', () => {
  test('the same state, command and clock give the same event, and nothing that was passed in changes or is shared', () => {
    const { head } = inStage('waiting');
    const order = command('moved', place('holding'), { to: place('station'), refs: { reason: 'queue' } });
    const snapshot = structuredClone({ head, order });
    const first = accept(head, order);
    expect(accept(head, order)).toEqual(first);
    evolve(head, first);
    expect({ head, order }).toEqual(snapshot);
    order.refs['reason'] = 'changed later';
    order.to.id = 'changed later';
    expect(first).toMatchObject({ refs: { reason: 'queue' }, to: place('station') });
  });

  test('an event applied to the wrong state stops the caller instead of building on a lie', () => {
    const { events, head } = inStage('drying');
    const [first, second] = events;
    if (first === undefined || second === undefined) throw new Error('two events expected');
    const start = beforeIntake(NETWORK, ITEM);
    expect(() => evolve(start, second)).toThrow(/cannot follow event 0/);
    expect(() => evolve(head, second)).toThrow(RangeError);
    expect(() => evolve(beforeIntake(NETWORK, 'other'), first)).toThrow(/does not belong/);
    expect(() => evolve(beforeIntake('other', ITEM), first)).toThrow(/does not belong/);
    expect(() => evolve(start, { ...first, prevHash: 'f'.repeat(64) })).toThrow(/does not link/);
    expect(() => evolve(start, { ...first, from: place('household') })).toThrow(/did not hold/);
    expect(() => evolve(start, { ...first, kind: 'moved' })).toThrow(/cannot follow stage none/);
  });
});

describe('keepers', () => {
  test('two keepers are the same only by kind and id', () => {
    expect(sameKeeper(keeper.station('a'), keeper.station('a'))).toBe(true);
    expect(sameKeeper(keeper.station('a'), keeper.station('b'))).toBe(false);
    expect(sameKeeper(keeper.station('a'), keeper.freezer('a'))).toBe(false);
    expect(sameKeeper(null, keeper.station('a'))).toBe(false);
    expect(sameKeeper(keeper.station('a'), null)).toBe(false);
    expect(sameKeeper(null, null)).toBe(true);
  });

  test('every kind of keeper has a constructor and a sentence that leaks no id', () => {
    const made = Object.values(keeper).map((make) => make('secret-id'));
    expect(made.map((each) => each.kind).sort()).toEqual([...KEEPER_KINDS].sort());
    for (const each of made) {
      expect(describeKeeper(each)).toMatch(/^[A-Z].*\.$/);
      expect(describeKeeper(each)).not.toContain('secret-id');
    }
    expect(describeKeeper(null)).toContain('not been taken in');
    expect(describeKeeper(keeper.dryingPlace('x'))).toBe('A drying place holds it now.');
  });
});
