import type { z } from 'zod';
import { momentInWords, type CarryList, type Departure, type ToCarry } from '#application';
import { neverPlainly, render, say, startByInWords, statementsInLanguage, type Language } from '#care';
import { formatTagCode } from '#custody';
import type { CarryListBody } from '#contracts';
import { iso, isoOrNull } from '../../presenters/time.js';

type Body = z.output<typeof CarryListBody>;

/** What to wear is what the rule book asks for in the dirty zone (`water.rules`); that people and wet things ride apart is common practice, without a source. */
const BEFORE_IT_IS_LOADED = say('Advice to the coordinator: the plan moves nothing. Weights are reckoned from dry weights and what wet things take up, nobody has weighed them, and the room in the vehicle is not reckoned: whoever loads it looks at the load, and leaves behind what does not fit or cannot be lifted safely. Flood water counts as contaminated: gloves, boots and goggles for whoever loads, wet things shut away from the people in the vehicle, hands washed afterwards. The driver decides whether to go, local rules come first, and people come before things.');

export function presentCarryList(list: CarryList, language: Language): Body {
  return {
    incidentId: list.incidentId, at: iso(list.atMs), revision: list.revision && { number: list.revision.number, madeAt: iso(list.revision.createdAtMs) },
    departures: list.departures.map((departure) => presentDeparture(departure, list.atMs, language)), standing: render(BEFORE_IT_IS_LOADED, language),
  };
}

function presentDeparture({ ride: { vehicle, from, to }, ...departure }: Departure, atMs: number, language: Language): Body['departures'][number] {
  const sentence = say('{vehicle} leaves {from} at {leaves} for {to} with {things, plural, one {# thing} other {# things}}, about {kg} kg as reckoned.', {
    vehicle: vehicle.code, from: from.code, to: to.code, leaves: momentInWords(departure.leavesAtMs), things: departure.items.length, kg: departure.kg,
  });
  return {
    vehicle, from, to, leavesAt: iso(departure.leavesAtMs), arrivesAt: iso(departure.arrivesAtMs), overdue: departure.overdue, kgReckoned: departure.kg, maxLoadKg: departure.maxLoadKg,
    inWords: render(sentence, language), items: departure.items.map((item) => presentCarried(item, atMs, language)),
  };
}

function presentCarried(item: ToCarry, atMs: number, language: Language): Body['departures'][number]['items'][number] {
  return {
    itemId: item.itemId, itemVersion: item.version, tag: formatTagCode(item.tagCode), description: item.description, count: item.count, keeper: { ...item.keeper, code: item.keeperCode, name: item.keeperName },
    kgReckoned: item.kg, lift: { peopleNeeded: item.peopleNeeded, liftingAid: item.liftingAid, inWords: item.liftInWords.map((message) => render(message, language)) },
    firstStep: item.firstStep, startBy: isoOrNull(item.startByMs), startByInWords: item.startByMs === null ? null : render(startByInWords(item.startByMs, atMs), language),
    never: statementsInLanguage(neverPlainly(item.never), language),
  };
}
