/** What people want of the plan, as the planner takes it. Pure. */
import { say, type Message } from '#care';
import type { PlanItem, PlanOption, PlanProblem, PlanStep } from '#planning';
import type { InputWish, PlanInput } from '../ports/plan-input.js';
import type { LapsedWish } from '../ports/plan-wish-store.js';
import type { OpenRoute } from './item-standing.js';
import { pinnedIn } from './pinned.js';
import { byId, type SlotGrid } from './slots.js';

/** Said of a pin that the planner found no room for. */
export const PIN_TAKEN = say('what it needs is shut or taken by something else at the time that was pinned');

export class Wishes {
  /** Pins that cannot hold any more, with what has become of them. */
  readonly lapsed: LapsedWish[] = [];
  private readonly ofItem: ReadonlyMap<string, InputWish[]>;

  constructor(input: Pick<PlanInput, 'wishes'>, private readonly grid: SlotGrid, private readonly resources: Pick<PlanProblem, 'stations' | 'places' | 'freezers' | 'people'>) {
    this.ofItem = byItem(input.wishes ?? []);
  }

  /** The ways that nobody has ruled out. */
  waysOf(itemId: string, routes: readonly OpenRoute[]): OpenRoute[] {
    const barred = new Set(this.of(itemId, 'bar-way').map(({ disposition }) => disposition));
    return routes.filter(({ disposition }) => !barred.has(disposition));
  }

  /** The item as people want it. */
  heeded(item: PlanItem): PlanItem {
    const bars = this.of(item.id, 'bar-station');
    const moments = this.of(item.id, 'not-before').map(({ notBeforeMs }) => this.grid.ceil(notBeforeMs ?? 0));
    const wanted: PlanItem = {
      ...item,
      releaseSlot: Math.max(item.releaseSlot, ...moments),
      options: bars.length === 0 ? item.options : item.options.map((option) => withoutStations(option, bars)),
      ...(this.of(item.id, 'first').length > 0 && { first: true }),
    };
    return this.pinned(wanted);
  }

  private pinned(item: PlanItem): PlanItem {
    const [pin] = this.of(item.id, 'pin');
    if (pin === undefined) return item;
    const found = pinnedIn(pin.pinned ?? [], item, this.grid, this.resources);
    if ('assignments' in found) return { ...item, pinned: found.assignments };
    this.lapsed.push({ wishId: pin.id, why: found.why });
    return item;
  }

  private of(itemId: string, kind: InputWish['kind']): InputWish[] {
    return this.ofItem.get(itemId)?.filter((wish) => wish.kind === kind) ?? [];
  }
}

function byItem(wishes: readonly InputWish[]): Map<string, InputWish[]> {
  const ofItem = new Map<string, InputWish[]>();
  for (const wish of [...wishes].sort(byId)) ofItem.set(wish.itemId, [...(ofItem.get(wish.itemId) ?? []), wish]);
  return ofItem;
}

function withoutStations(option: PlanOption, bars: readonly InputWish[]): PlanOption {
  const steps = option.steps.map((step): PlanStep => {
    const barred = bars.filter((bar) => bar.step === null || bar.step === step.step).map(({ stationId }) => stationId ?? '');
    return barred.length === 0 ? step : { ...step, barredStationIds: [...new Set(barred)].sort() };
  });
  return { ...option, steps };
}

/** The rows without the pins of some items, and those pins with the reason why they fell. */
export function withoutPins(input: PlanInput, itemIds: ReadonlySet<string>, why: Message): { input: PlanInput; lapsed: LapsedWish[] } {
  const falls = ({ kind, itemId }: InputWish) => kind === 'pin' && itemIds.has(itemId);
  const wishes = input.wishes ?? [];
  return { input: { ...input, wishes: wishes.filter((wish) => !falls(wish)) }, lapsed: wishes.filter(falls).map(({ id }) => ({ wishId: id, why })) };
}
