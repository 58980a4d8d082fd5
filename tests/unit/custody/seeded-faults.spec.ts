/**
 * A test that finds nothing proves nothing until it is seen to find something: faults that a tired person could write are put around
 * the rules, one at a time, and the run of `model.spec.ts` must find each of them. The source is never edited.
 */
import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { decide, evolve, hashEvent, isRefusal, mattersAfter, type CustodyCommand, type CustodyEvent, type ItemCustody, type OpenMatters } from '#custody';
import { firstDifference, type Rules } from './play.js';

const HISTORIES = 10_000;
const FIRST_SEED = ((fc.readConfigureGlobal().seed ?? 0) % 100_000) * HISTORIES;

const SOUND: Rules = { decide, evolve };

/** The rules see another state or command than the true one; what they decide is chained to the true one. */
function misled(mislead: (state: ItemCustody, command: CustodyCommand) => { state?: Partial<ItemCustody>; command?: Partial<CustodyCommand> }): Rules {
  return {
    decide: (state, command, nowMs) => {
      const seen = mislead(state, command);
      return decide({ ...state, ...seen.state }, { ...command, ...seen.command }, nowMs);
    },
    evolve,
  };
}

/** What was decided is altered, and hashed again. */
function altered(alter: (event: CustodyEvent, state: ItemCustody) => Partial<CustodyEvent>): Rules {
  return {
    decide: (state, command, nowMs) => {
      const outcome = decide(state, command, nowMs);
      if (isRefusal(outcome)) return outcome;
      const body = { ...outcome, ...alter(outcome, state) };
      return { ...body, hash: hashEvent(body) };
    },
    evolve,
  };
}

/** The state after an event is altered. */
function forgetful(forget: (before: ItemCustody, after: ItemCustody, event: CustodyEvent) => Partial<ItemCustody>): Rules {
  return { decide, evolve: (state, event) => { const after = evolve(state, event); return { ...after, ...forget(state, after, event) }; } };
}

const unless = (matters: OpenMatters, change: Partial<OpenMatters>) => ({ state: { matters: { ...matters, ...change } } });
const MOVES = ['moved', 'work-started', 'drying-started', 'frozen'];

const FAULTS: Record<string, Rules> = {
  'a hand-over is accepted under the number of another one': misled(({ matters }, { kind, refs }) => (kind === 'hand-over-accepted' && matters.handOver ? { command: { refs: { ...refs, handOverId: matters.handOver.id } } } : {})),
  'whoever comes may accept what was offered to somebody else': misled(({ matters }, { kind, to }) => (kind === 'hand-over-accepted' && matters.handOver ? { state: { matters: { ...matters, handOver: { ...matters.handOver, to } } } } : {})),
  'an offer alone makes the receiver the keeper': altered(({ kind, refs, to }) => (kind === 'hand-over-offered' ? { to: { kind: refs['offeredKind'] as typeof to.kind, id: refs['offeredId'] ?? '' } } : {})),
  'an offer that was declined stays open': forgetful((before, _after, { kind }) => (kind === 'hand-over-ended' ? { matters: before.matters } : {})),
  'a disputed place is settled by the next move': {
    decide: (state, command, nowMs) => decide(MOVES.includes(command.kind) ? { ...state, ...unless(state.matters, { disputed: false }).state } : state, command, nowMs),
    evolve: (state, event) => (MOVES.includes(event.kind) ? evolve({ ...state, ...unless(state.matters, { disputed: false }).state }, event) : evolve(state, event)),
  },
  'a missing thing goes on as if it were there': misled(({ matters }, { kind }) => (kind === 'found-again' ? {} : unless(matters, { missing: false }))),
  'what was found again is still looked for': forgetful((_before, after, { kind }) => (kind === 'found-again' ? { matters: { ...after.matters, missing: true } } : {})),
  'what was handed back moves on': {
    decide: misled(({ stage, keeper }, { kind }) => (stage === 'handed-back' && kind === 'moved' && keeper ? { state: { stage: 'waiting' } } : {})).decide,
    evolve: (state, event) => (state.stage === 'handed-back' && event.kind === 'moved' ? { ...state, seq: event.seq, headHash: event.hash, keeper: event.to, stage: event.stage } : evolve(state, event)),
  },
  'whoever names another giver is believed': misled(({ keeper }, { kind }) => (kind === 'moved' ? { command: { from: keeper } } : {})),
  'a number is left out': {
    decide: altered(({ seq }) => ({ seq: seq + (seq === 3 ? 1 : 0) })).decide,
    evolve: (state, event) => ({ ...evolve(state, { ...event, seq: state.seq + 1 }), seq: event.seq }),
  },
  'an event does not link to the one before it': { decide: altered((_event, { seq }) => (seq === 2 ? { prevHash: 'f'.repeat(64) } : {})).decide, evolve: (state, event) => evolve(state, { ...event, prevHash: state.headHash }) },
  'a correction that puts it elsewhere leaves the old questions open': forgetful((before, _after, { kind }) => (kind === 'correction' ? { matters: before.matters } : {})),
  'a correction of words closes what is open': forgetful((_before, _after, { kind }) => (kind === 'correction' ? { matters: { handOver: null, disputed: false, missing: false } } : {})),
  'a specialist gets it without the word of the owner': misled((_state, { kind, refs }) => (kind === 'hand-over-accepted' ? { command: { refs: { ...refs, consentId: 'consent-1' } } } : {})),
  'a clock that runs far ahead is believed': misled((_state, { occurredAtMs }) => ({ command: { occurredAtMs: Math.min(occurredAtMs, 1_700_000_000_000) } })),
  'two records of one thing both go on': {
    decide: altered(({ kind }, { keeper, stage }) => (kind === 'merged-away' && keeper && stage ? { to: keeper, stage } : {})).decide,
    evolve: (state, event) => (event.kind === 'merged-away' ? { ...state, seq: event.seq, headHash: event.hash, matters: mattersAfter(state, event) } : evolve(state, event)),
  },
};

describe('each fault is found by the run of the model', () => {
  test.each(Object.entries(FAULTS))('%s', (_fault, rules) => {
    const { found, played } = firstDifference(FIRST_SEED, HISTORIES, rules);
    expect(found).not.toBeNull();
    // The same histories hold no difference where nothing is wrong: it was the fault that was found.
    expect(firstDifference(FIRST_SEED, Math.min(played, 500), SOUND).found).toBeNull();
  });
});
