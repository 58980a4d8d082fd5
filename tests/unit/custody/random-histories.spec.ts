import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { FUTURE_TOLERANCE_MS, beforeIntake, decide, evolve, isRefusal, sameKeeper, verifyChain, type CustodyEvent, type ItemCustody, type Keeper } from '#custody';
import { NETWORK, NOW, attemptArb, attempted, command, place, type Attempt } from './histories.js';

/** All that a person would have to remember: who holds each item, and how many passings there were. */
type Model = { items: Map<string, { keeper: Keeper; seq: number; closed: boolean }> };
type Real = { states: Map<string, ItemCustody>; events: Map<string, CustodyEvent[]>; nowMs: number; accepted: number };

const ITEMS = ['item-a', 'item-b', 'item-c'];

function apply(real: Real, item: string, event: CustodyEvent): void {
  real.states.set(item, evolve(real.states.get(item) ?? beforeIntake(NETWORK, item), event));
  real.events.set(item, [...(real.events.get(item) ?? []), event]);
  real.accepted += 1;
}

/** Sends one attempt to one item and holds the answer, the state and the chain against the model. */
class Send implements fc.Command<Model, Real> {
  constructor(
    private readonly item: string,
    private readonly attempt: Attempt,
  ) {}

  check(): boolean {
    return true;
  }

  run(model: Model, real: Real): void {
    real.nowMs += 1000;
    const known = model.items.get(this.item);
    const state = real.states.get(this.item) ?? beforeIntake(NETWORK, this.item);
    const opens = this.attempt.kind === 'taken-in' || this.attempt.kind === 'split-off';
    const order = attempted(this.attempt, known?.keeper ?? null, real.nowMs);
    const outcome = decide(state, order, real.nowMs);
    expect(decide(state, order, real.nowMs)).toEqual(outcome);

    const mustRefuse =
      opens !== (known === undefined) ||
      !sameKeeper(order.from, known?.keeper ?? null) ||
      (known?.closed === true && order.kind !== 'correction') ||
      order.occurredAtMs - real.nowMs > FUTURE_TOLERANCE_MS;
    if (mustRefuse) expect(isRefusal(outcome)).toBe(true);
    if (isRefusal(outcome)) {
      expect(outcome.text.length).toBeGreaterThan(20);
    } else {
      apply(real, this.item, outcome);
      model.items.set(this.item, { keeper: order.to, seq: (known?.seq ?? 0) + 1, closed: outcome.stage === 'handed-back' || outcome.stage === 'released' });
    }
    this.compare(model, real);
  }

  private compare(model: Model, real: Real): void {
    for (const item of ITEMS) {
      const known = model.items.get(item);
      const state = real.states.get(item) ?? beforeIntake(NETWORK, item);
      expect({ keeper: state.keeper, seq: state.seq }).toEqual({ keeper: known?.keeper ?? null, seq: known?.seq ?? 0 });
      expect(state.stage === null).toBe(known === undefined);
    }
    expect(verifyChain(real.events.get(this.item) ?? [], real.states.get(this.item))).toEqual([]);
  }

  toString(): string {
    return `${this.item}: ${this.attempt.kind} -> ${this.attempt.to.id}${this.attempt.liesAboutFrom ? ' (false giver)' : ''}`;
  }
}

describe('random histories', () => {
  test('every item has one keeper at each moment, gapless numbers and a chain that verifies, whatever is sent', () => {
    let accepted = 0;
    const send = fc.tuple(fc.constantFrom(...ITEMS), attemptArb).map(([item, attempt]) => new Send(item, attempt));
    fc.assert(
      fc.property(fc.commands([send], { maxCommands: 60, size: 'max' }), (commands) => {
        const real: Real = { states: new Map(), events: new Map(), nowMs: NOW, accepted: 0 };
        // Two items are on the premises; the third waits for its intake among the commands.
        const model: Model = { items: new Map() };
        for (const item of ITEMS.slice(0, 2)) {
          const first = decide(beforeIntake(NETWORK, item), command('taken-in', null, { to: place('holding') }), NOW);
          if (isRefusal(first)) throw new Error(first.text);
          apply(real, item, first);
          model.items.set(item, { keeper: place('holding'), seq: 1, closed: false });
        }
        fc.modelRun(() => ({ model, real }), commands);
        accepted += real.accepted - 2;
      }),
      { numRuns: 150 },
    );
    // A model test in which nothing is ever accepted would prove nothing.
    expect(accepted).toBeGreaterThan(500);
  });

  test('of two commands that both start from the same state only one can be applied', () => {
    fc.assert(
      fc.property(attemptArb, attemptArb, (a, b) => {
        const first = decide(beforeIntake(NETWORK, 'item-a'), command('taken-in', null, { to: place('holding') }), NOW);
        if (isRefusal(first)) throw new Error(first.text);
        const state = evolve(beforeIntake(NETWORK, 'item-a'), first);
        const outcome = decide(state, attempted(a, state.keeper, NOW), NOW);
        const rival = decide(state, attempted(b, state.keeper, NOW), NOW);
        if (isRefusal(outcome) || isRefusal(rival)) return;
        expect(() => evolve(evolve(state, outcome), rival)).toThrow(RangeError);
      }),
    );
  });
});
