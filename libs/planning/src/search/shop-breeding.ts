/** First plans of a shop, and plans between two others. */
import type { Dice } from './dice.js';
import type { CompiledShop } from './shop.js';
import type { KeptPlan } from './shop-graph.js';

/** Operations in an order that follows the jobs, and the choice of each: enough to make a plan from. */
export interface ShopOrder { order: Int32Array; choice: Int32Array }

/** Jobs looked at for each next operation of a first plan; more make the first plans better and more alike. */
const LOOKED_AT = 3;

/** A random plan: of a few jobs the one whose operation ends first comes next, on the machine where it does. */
export function randomPlan(shop: CompiledShop, dice: Dice): ShopOrder {
  const { count, before, after, release, firstChoice, choiceMachine, choiceDuration } = shop;
  const ready: number[] = [];
  for (let x = 0; x < count; x += 1) if (before[x] === count) ready.push(x);
  const [order, choice, end, free] = [new Int32Array(count), new Int32Array(count), new Int32Array(count + 1), new Int32Array(shop.machines)];
  for (let i = 0; i < count; i += 1) {
    let [slot, chosen, least] = [0, 0, Number.POSITIVE_INFINITY];
    for (let tries = 0; tries < LOOKED_AT; tries += 1) {
      const at = dice.below(ready.length);
      const x = ready[at]!;
      for (let c = firstChoice[x]!; c < firstChoice[x + 1]!; c += 1) {
        const ends = Math.max(release[x]!, end[before[x]!]!, free[choiceMachine[c]!]!) + choiceDuration[c]!;
        if (ends < least || (ends === least && dice.below(2) === 0)) [slot, chosen, least] = [at, c, ends];
      }
    }
    const x = ready[slot]!;
    order[i] = x;
    choice[x] = chosen;
    end[x] = least;
    free[choiceMachine[chosen]!] = least;
    if (after[x]! < count) ready[slot] = after[x]!;
    else ready.splice(slot, 1);
  }
  return { order, choice };
}

/**
 * A plan between two: operations by a weighted mean of their places in both, so that pairs that both order alike stay
 * so (and those of a job in sequence); machines from either.
 */
export function planBetween(father: KeptPlan, mother: KeptPlan, dice: Dice): ShopOrder {
  const count = father.order.length;
  const key = new Float64Array(count);
  const share = 0.3 + 0.4 * dice.unit();
  for (let i = 0; i < count; i += 1) key[father.order[i]!] = (1 - share) * i;
  for (let i = 0; i < count; i += 1) key[mother.order[i]!]! += share * i;
  return {
    order: father.order.slice().sort((x, y) => key[x]! - key[y]! || x - y),
    choice: father.choice.map((own, x) => (own === mother.choice[x] || dice.unit() >= share ? own : mother.choice[x]!)),
  };
}

/** Pairs of operations of one machine that two plans order differently, and operations on different machines. */
export function differences(shop: CompiledShop, one: KeptPlan, other: KeptPlan): number {
  const place = new Int32Array(shop.count);
  for (let i = 0; i < shop.count; i += 1) place[other.order[i]!] = i;
  const onMachine: number[][] = Array.from({ length: shop.machines }, () => []);
  let sum = 0;
  for (let i = 0; i < shop.count; i += 1) {
    const x = one.order[i]!;
    if (one.choice[x] !== other.choice[x]) {
      sum += 1;
      continue;
    }
    const list = onMachine[shop.choiceMachine[one.choice[x]!]!]!;
    for (const y of list) if (place[y]! > place[x]!) sum += 1;
    list.push(x);
  }
  return sum;
}
