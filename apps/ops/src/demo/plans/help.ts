/** What a coordinator would ask the region for, and what it would save; some of it checked by really adding it. */
import { changesInWords, SlotGrid, type StoredValue, toAskedChange, tomorrowMorning, valueInWords } from '#application';
import { render } from '#care';
import { bandOf, bindingResources, buildPlan, describeBlocker, type MarginalBudget, type MarginalValue, marginalValues, type Plan, type PlanProblem, type ProblemChange, suggestChanges } from '#planning';
import { addByHand } from './by-hand.js';
import { type KeptProblem, urgentWeight } from './kept-problem.js';
import { afresh, refuseBroken } from './three-ways.js';

/** Values that are checked by really adding the thing. */
const CHECKED = 3;

/** What is short and what would help, as lines. */
export function helpLines(kept: KeptProblem, budget: MarginalBudget): string[] {
  const problem = afresh(kept.problem);
  const plan = buildPlan(problem, { seed: budget.seeds[0] ?? 1, iterations: budget.iterations });
  const changes = suggestChanges(problem, plan, meansOf(kept)).flat();
  const { values } = marginalValues(problem, plan, changes.map((change) => [change]), budget);
  const ranked = changes.map((change, i) => ({ change, value: values[i]! })).sort((a, b) => b.value.weightSaved.middle - a.value.weightSaved.middle);
  return [
    `Of a weight of ${urgentWeight(problem)} the plan leaves ${plan.objective[0]} not in time. What stands in the way:`,
    ...shortLines(kept, problem, plan),
    'What more of it would save (each alone, beside the same plan without it; greatest first):',
    ...ranked.map(({ change, value }) => `- ${wordsOf(change, kept)}. ${valueWords(value)}`),
    `Checked by really adding it, with seeds ${budget.seeds.join(', ')} and ${budget.iterations} rounds:`,
    ...differentKinds(ranked).map(({ change, value }) => checkLine(problem, change, value, kept, budget)),
  ];
}

function meansOf({ problem, atMs, timeZone, dehumidifierGPerSlot }: KeptProblem): Parameters<typeof suggestChanges>[2] {
  const [volunteers = { from: 0, to: 0 }] = gridOf({ problem, atMs }).inside([tomorrowMorning(atMs, timeZone)]);
  return { volunteers, dehumidifierGPerSlot: new Map(dehumidifierGPerSlot) };
}

function shortLines({ layout }: KeptProblem, problem: PlanProblem, plan: Plan): string[] {
  const names = new Map([...layout.rooms, ...layout.freezers, ...layout.sites].map(({ id, name }) => [id, name]));
  const nameOf = (id: string): string => names.get(id) ?? id;
  return bindingResources(problem, plan).unplanned
    .filter(({ lostWeight }) => lostWeight > 0)
    .map(({ siteId, blockedBy, lostWeight, lostItems }) => `- ${nameOf(siteId)}: ${render(describeBlocker({ ...blockedBy, what: nameOf(blockedBy.what) }), 'en')} (${lostItems} things, weight ${lostWeight})`);
}

function wordsOf(change: ProblemChange, kept: KeptProblem): string {
  const asked = toAskedChange(change, gridOf(kept));
  const words = asked === null ? change.kind : render(changesInWords([asked], kept.layout), 'en');
  return words.charAt(0).toUpperCase() + words.slice(1);
}

function valueWords({ weightSaved, saved, lost }: MarginalValue): string {
  const stored: StoredValue = { changes: [], weightSaved, savedItems: saved.length, lostItems: lost.length, saved, lost };
  return render(valueInWords(stored), 'en');
}

/** The most valuable of each kind first. */
function differentKinds<T extends { change: ProblemChange }>(ranked: readonly T[]): T[] {
  const firsts = ranked.filter(({ change }, i) => ranked.findIndex((other) => other.change.kind === change.kind) === i);
  return [...firsts, ...ranked.filter((one) => !firsts.includes(one))].slice(0, CHECKED);
}

function checkLine(problem: PlanProblem, change: ProblemChange, { weightSaved: told }: MarginalValue, kept: KeptProblem, { seeds, iterations }: MarginalBudget): string {
  const more = addByHand(problem, change);
  const found = bandOf(seeds.map((seed) => {
    const plan = buildPlan(more, { seed, iterations });
    refuseBroken(more, plan);
    return buildPlan(problem, { seed, iterations }).objective[0] - plan.objective[0];
  }));
  return `- ${wordsOf(change, kept)}: told ${told.least} / ${told.middle} / ${told.greatest}, found ${found.least} / ${found.middle} / ${found.greatest} (least / middle / greatest)`;
}

function gridOf({ problem, atMs }: Pick<KeptProblem, 'problem' | 'atMs'>): SlotGrid {
  return new SlotGrid(atMs, problem.slotMinutes, problem.horizonSlots);
}
