/**
 * The answer of a planner in rows of whole numbers. It keeps nothing of the compiled problem, so that one can go before the
 * assignments, of which there are as many bytes, are written.
 */
import { Hands } from './assign-people.js';
import type { Batch } from './batches.js';
import { byId } from './calendar.js';
import type { Compiled } from './compile.js';
import type { PackedPlan } from './packed-plan.js';
import { NONE, type PlacedStep } from './timetable.js';
import type { PlanAssignment, PlanProblem } from './types.js';
import { type Whole, wholes } from './whole-numbers.js';

const ROWS = ['item', 'option', 'position', 'station', 'place', 'freezer', 'start', 'end', 'people'] as const;

/** Placed steps by start, then item id, then position. */
export class PackedAnswer {
  private readonly length: number;
  private readonly rows: Record<(typeof ROWS)[number], Whole>;
  private readonly ids: Record<'stations' | 'places' | 'freezers', string[]>;
  private readonly people = new PeopleLists();
  /** Names of batches, by entry; few steps have one. */
  private readonly batches = new Map<number, string>();

  constructor({ resources, items }: Compiled, plan: PackedPlan) {
    const { stations, places, freezers, row, horizon } = resources;
    this.length = plan.countSteps();
    const rowTo = (greatest: number): Whole => wholes(this.length, greatest);
    this.rows = {
      item: rowTo(items.length),
      option: rowTo(most(items, ({ options }) => most(options, ({ index }) => index))),
      position: rowTo(most(items, ({ options }) => most(options, ({ steps }) => steps.length))),
      station: rowTo(stations.length), place: rowTo(places.length), freezer: rowTo(freezers.length),
      start: rowTo(horizon), end: rowTo(horizon), people: rowTo(this.length),
    };
    this.ids = { stations: stations.map(({ id }) => id), places: places.map(({ id }) => id), freezers: freezers.map(({ id }) => id) };
    const [hands, names] = [new Hands(resources), new BatchNames()];
    let entry = 0;
    plan.eachByStart(horizon, (index, at, position, placed) => {
      const item = items[index]!;
      this.enter(entry, {
        item: index, option: item.options[at]!.index, position, start: placed.start, end: placed.end,
        station: below(placed.station, row.station), place: below(placed.place, row.place), freezer: below(placed.freezer, row.freezer),
        people: this.people.numberOf(hands.take(placed, item.previous)),
      });
      const name = names.nameOf(placed);
      if (name !== null) this.batches.set(entry, name);
      entry += 1;
    });
  }

  private enter(entry: number, values: Record<(typeof ROWS)[number], number>): void {
    for (const name of ROWS) this.rows[name][entry] = values[name];
  }

  /** As plain objects. Equal lists of people are one list. */
  toAssignments(problem: PlanProblem): PlanAssignment[] {
    // Compiled items are in this order too.
    const items = [...problem.items].sort(byId);
    const { rows, ids } = this;
    // Of its full length at once: a list that grows leaves its smaller selves behind.
    const assignments: PlanAssignment[] = [];
    assignments.length = this.length;
    for (let entry = 0; entry < this.length; entry += 1) {
      const item = items[rows.item[entry]!]!;
      const [option, position] = [rows.option[entry]!, rows.position[entry]!];
      const { disposition, steps } = item.options[option]!;
      assignments[entry] = {
        itemId: item.id,
        option,
        position,
        step: steps[position]!.step,
        disposition,
        batchId: this.batches.get(entry) ?? null,
        stationId: ids.stations[rows.station[entry]!] ?? null,
        personIds: this.people.list(rows.people[entry]!),
        dryingPlaceId: ids.places[rows.place[entry]!] ?? null,
        freezerId: ids.freezers[rows.freezer[entry]!] ?? null,
        startSlot: rows.start[entry]!,
        endSlot: rows.end[entry]!,
      };
    }
    return assignments;
  }
}

function most<T>(of: readonly T[], measure: (one: T) => number): number {
  return of.reduce((greatest, one) => Math.max(greatest, measure(one)), 0);
}

/** Index among its kind, from the row of a resource. */
function below(row: number, first: number): number {
  return row === NONE ? NONE : row - first;
}

/** Lists of people by number; the very same list has one number. */
class PeopleLists {
  private readonly lists: string[][] = [];
  private readonly numbers = new Map<string[], number>();

  numberOf(list: string[]): number {
    let number = this.numbers.get(list);
    if (number === undefined) {
      number = this.lists.push(list) - 1;
      this.numbers.set(list, number);
    }
    return number;
  }

  list(number: number): string[] {
    return this.lists[number]!;
  }
}

/** Names for the batches that more than one thing is in, in the order in which they begin. */
class BatchNames {
  private readonly names = new Map<Batch, string>();

  nameOf({ batch }: PlacedStep): string | null {
    if (batch === null || batch.members.length < 2) return null;
    let name = this.names.get(batch);
    if (name === undefined) this.names.set(batch, (name = `batch-${this.names.size + 1}`));
    return name;
  }
}
