/** Some things of a plan explained as the service explains them to a coordinator. */
import { momentInWords } from '#application';
import { render, stretchInWords } from '#care';
import { formatTagCode } from '#custody';
import { buildPlan, explainItem, explanationInWords, type Plan, type PlanItem, type PlanProblem, type PlanSpeaker, whyBefore } from '#planning';
import type { KeptProblem } from './kept-problem.js';
import { afresh } from './three-ways.js';

/** The weightiest thing that is left out, the weightiest that took another way than it should, and why one comes before another at the same station. */
export function explanationLines(kept: KeptProblem, seed: number, iterations: number): string[] {
  const problem = afresh(kept.problem);
  const plan = buildPlan(problem, { seed, iterations });
  const speaker = speakerOf(kept);
  const { leftOut, rerouted, pair } = toldItems(problem, plan);
  const told = [leftOut, rerouted].flatMap((item) => (item === undefined ? [] : [
    `${speaker.nameOf(item.id)}, weight ${item.weight}:`,
    ...explanationInWords(explainItem(problem, plan, item.id), speaker).map((sentence) => `- ${render(sentence, 'en')}`),
  ]));
  const [first, second] = pair;
  if (first === undefined || second === undefined) return told;
  return [...told, `${speaker.nameOf(first)} and ${speaker.nameOf(second)}:`, ...whyBefore(problem, plan, first, second, speaker).text.map((sentence) => `- ${render(sentence, 'en')}`)];
}

function toldItems(problem: PlanProblem, plan: Plan): { leftOut: PlanItem | undefined; rerouted: PlanItem | undefined; pair: string[] } {
  const optionOf = new Map(plan.assignments.map(({ itemId, option }) => [itemId, option]));
  const byWeight = problem.items.filter(({ stabilised }) => !stabilised).sort((a, b) => b.weight - a.weight || (a.id < b.id ? -1 : 1));
  const crowded = plan.assignments.filter(({ stationId, startSlot }) => stationId !== null && startSlot > 0).sort((a, b) => a.startSlot - b.startSlot);
  const last = crowded.at(-1);
  const before = crowded.find(({ stationId, itemId }) => stationId === last?.stationId && itemId !== last?.itemId);
  return {
    leftOut: byWeight.find(({ id }) => !optionOf.has(id)), rerouted: byWeight.find(({ id }) => (optionOf.get(id) ?? 0) > 0),
    pair: [before, last].flatMap((assignment) => assignment?.itemId ?? []),
  };
}

function speakerOf({ layout, labels, problem }: KeptProblem): PlanSpeaker {
  const names = new Map([
    ...[...layout.stations, ...layout.places, ...layout.rooms, ...layout.freezers, ...layout.people].map(({ id, name }) => [id, name] as const),
    ...labels.map(([id, { tagCode, description }]) => [id, `${formatTagCode(tagCode)} (${description})`] as const),
  ]);
  const slotMs = problem.slotMinutes * 60_000;
  return { nameOf: (id) => names.get(id) ?? id, stretchOf: (slots) => stretchInWords(slots * slotMs), momentOf: (slot) => momentInWords(problem.originMs + slot * slotMs) };
}
