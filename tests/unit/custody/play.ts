/** Plays seeded histories through the rules and through the reference model side by side. The rules are passed in, so that faults can be seeded. */
import { expect } from '@jest/globals';
import { beforeIntake, isRefusal, verifyChain, type CustodyEvent, type ItemCustody, type Refusal, decide, evolve } from '#custody';
import { NETWORK, NOW } from './histories.js';
import { ITEMS, RandomCommands, type Order } from './random-commands.js';
import { predict, type Known } from './reference-model.js';

/** The code under test. */
export interface Rules {
  decide: typeof decide;
  evolve: typeof evolve;
}

/** Where the rules and the model part. The seed plays the history again. */
export interface Difference {
  seed: number;
  step: number;
  order: Order | null;
  was: Known | null;
  model: unknown;
  rules: unknown;
}

/** What was met on the way, so that a run in which nothing happens cannot pass. */
export interface Tally {
  accepted: Map<string, number>;
  refused: Map<string, number>;
}

export const emptyTally = (): Tally => ({ accepted: new Map(), refused: new Map() });

/** Commands, or loads of commands, in a history. */
const STEPS = 20;

/** One item in the code and in the model, as far as both can be compared. */
type Standing = Omit<Known, 'events'> & { seq: number };

/** Plays one history; answers the first difference, or null. */
export function playHistory(seed: number, rules: Rules, tally: Tally = emptyTally()): Difference | null {
  const history = new History(seed, rules, tally);
  for (let step = 1; step <= STEPS; step += 1) {
    const difference = history.play(step);
    if (difference !== null) return difference;
  }
  return history.verify();
}

/** Plays histories of consecutive seeds until one differs. */
export function firstDifference(firstSeed: number, histories: number, rules: Rules): { found: Difference | null; played: number } {
  for (let index = 0; index < histories; index += 1) {
    const found = playHistory(firstSeed + index, rules);
    if (found !== null) return { found, played: index + 1 };
  }
  return { found: null, played: histories };
}

class History {
  private readonly known = new Map<string, Known>();
  private readonly states = new Map<string, ItemCustody>();
  private readonly events = new Map<string, CustodyEvent[]>();
  private readonly commands: RandomCommands;
  private nowMs = NOW;

  constructor(
    private readonly seed: number,
    private readonly rules: Rules,
    private readonly tally: Tally,
  ) {
    this.commands = new RandomCommands(seed, this.known, (itemId) => this.state(itemId).headHash);
  }

  play(step: number): Difference | null {
    this.nowMs += this.commands.pauseMs();
    for (const order of this.commands.next(this.nowMs)) {
      const difference = this.send(order, step);
      if (difference !== null) return difference;
    }
    return null;
  }

  /** At the end the chain of each item is held against how the model says that it stands. */
  verify(): Difference | null {
    for (const itemId of ITEMS) {
      const faults = verifyChain(this.events.get(itemId) ?? [], this.state(itemId));
      if (faults.length > 0) return { seed: this.seed, step: STEPS, order: null, was: this.known.get(itemId) ?? null, model: [], rules: faults };
    }
    return null;
  }

  private state(itemId: string): ItemCustody {
    return this.states.get(itemId) ?? beforeIntake(NETWORK, itemId);
  }

  private send(order: Order, step: number): Difference | null {
    const { itemId, command } = order;
    const was = this.known.get(itemId);
    const next = predict(was, { ...command, itemId }, this.nowMs);
    const answer = this.answerOf(itemId, order);
    const differs = (model: unknown, rules: unknown): Difference => ({ seed: this.seed, step, order, was: was ?? null, model, rules });
    if (answer instanceof Error) return differs(next ?? 'refused', answer.message);
    if (isRefusal(answer.outcome)) {
      count(this.tally.refused, answer.outcome.code);
      return next === null ? null : differs(next, answer.outcome);
    }
    count(this.tally.accepted, command.kind);
    if (next === null) return differs('refused', answer.outcome);
    const [modelled, real] = [standingOf(next), standing(answer.state)];
    if (JSON.stringify(modelled) !== JSON.stringify(real)) return differs(modelled, real);
    this.known.set(itemId, next);
    this.states.set(itemId, answer.state);
    this.events.set(itemId, [...(this.events.get(itemId) ?? []), answer.outcome]);
    return null;
  }

  private answerOf(itemId: string, { command }: Order): { outcome: CustodyEvent | Refusal; state: ItemCustody } | Error {
    const before = this.state(itemId);
    try {
      const outcome = this.rules.decide(before, command, this.nowMs);
      return { outcome, state: isRefusal(outcome) ? before : this.rules.evolve(before, outcome) };
    } catch (error) {
      if (error instanceof RangeError) return error;
      throw error;
    }
  }
}

function standingOf({ keeper, stage, offer, disputed, missing, events }: Known): Standing {
  return { keeper: { kind: keeper.kind, id: keeper.id }, stage, offer: offer && { id: offer.id, to: { kind: offer.to.kind, id: offer.to.id } }, disputed, missing, seq: events };
}

function standing({ keeper, stage, matters, seq }: ItemCustody): Standing {
  if (keeper === null || stage === null) throw new RangeError('an event left the item with nobody');
  return standingOf({ keeper, stage, offer: matters.handOver, disputed: matters.disputed, missing: matters.missing, events: seq });
}

function count(counts: Map<string, number>, key: string): void {
  counts.set(key, (counts.get(key) ?? 0) + 1);
}

/** Fails with the whole of the first differences, seed first. */
export function expectNone(differences: readonly Difference[]): void {
  expect(differences.map((difference) => JSON.stringify(difference))).toEqual([]);
}
