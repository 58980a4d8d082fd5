import type { z } from 'zod';
import type { PlanLoad } from '#application';
import { render, say, SKILL_WORDS, STEP_WORDS, type Language, type Message } from '#care';
import type { LoadChart } from '#climate';
import type { PlanLoadBody } from '#contracts';
import { iso } from '../../presenters/time.js';
import { wallClock, type WallClock } from '../../presenters/wall-clock.js';

type Body = z.output<typeof PlanLoadBody>;
type Resource = PlanLoad['resource'];

const STANDING = say('As the plan knew things when it was made. Rates, areas and volumes are our own calibration, and what a room’s air takes is an estimate: look and measure before you rely on it. A trained lead decides, safety and local codes come first.');
/** The planner counts in slots, dm², cl and grams per slot; people read hours, m², litres and grams per hour. */
const UNITS: Readonly<Record<Resource, Body['unit']>> = { station: 'stations', crew: 'people', 'drying-area': 'm2', 'room-air': 'g-per-h', freezer: 'L', service: 'pieces' };
const UNIT_SIGNS: Readonly<Record<Body['unit'], Message>> = { stations: say('stations in use'), people: say('people at work'), m2: say('square metres'), 'g-per-h': say('g of water per hour'), L: say('litres'), pieces: say('pieces') };

export function presentPlanLoad(load: PlanLoad, language: Language): Body {
  const clock = wallClock(load.timeZone, language);
  const { revision, resource, what, site, thing } = load;
  const named = (one: { id: string; code: string; name: string } | null) => one && { id: one.id, code: one.code, name: one.name };
  return {
    revision: { id: revision.id, number: revision.number, madeAt: iso(revision.createdAtMs) }, at: iso(load.nowMs), resource, what, inWords: render(nameOf(load), language), site: named(site), thing: named(thing), unit: UNITS[resource],
    from: iso(load.fromMs), to: iso(load.toMs), steps: stepsOf(load).map(({ fromMs, toMs, used, available }) => ({ from: iso(fromMs), to: iso(toMs), used, available })),
    told: tellingOf(load, clock).map((message) => render(message, language)), standing: render(STANDING, language),
  };
}

/** The same as a picture. */
export function drawPlanLoad(load: PlanLoad, language: Language): LoadChart {
  const inWords = (message: Message): string => render(message, language);
  const clock = wallClock(load.timeZone, language);
  const told = tellingOf(load, clock).map(inWords);
  const name = inWords(nameOf(load));
  return {
    title: load.site === null ? name : inWords(say('{resource}, at {site}', { resource: name, site: load.site.name })), description: told.join(' '), language, fromMs: load.fromMs, toMs: load.toMs, clock,
    timeLabel: inWords(say('Time on the clock in {zone}', { zone: clock.zone })), now: { atMs: load.nowMs, label: inWords(say('now, {moment}', { moment: clock.moment(load.nowMs) })) },
    label: inWords(signOf(load)), steps: stepsOf(load), legend: { used: inWords(say('used by the plan')), available: inWords(say('there is')), over: inWords(say('more than there is')) },
    emptyLabel: inWords(say('The plan says nothing of this time')), notes: [...told, inWords(STANDING)],
  };
}

/** Things by their code, which stands on them. */
function nameOf({ resource, what, thing }: PlanLoad): Message {
  const code = thing?.code ?? what;
  switch (resource) {
    case 'station': return say('Stations for “{step}”', { step: wordOf(STEP_WORDS, what) });
    case 'crew': return what === '' ? say('People') : say('People with the skill “{skill}”', { skill: wordOf(SKILL_WORDS, what) });
    case 'drying-area': return say('Drying area in room {code}', { code });
    case 'room-air': return say('Water given to the air of room {code}, and what it takes', { code });
    case 'freezer': return say('Volume of freezer {code}', { code });
    case 'service': return say('Courier or specialist {code}', { code });
  }
}

/** The word for a code; the code itself where a stored plan holds one that has no word any more. */
function wordOf(words: Readonly<Record<string, Message>>, code: string): Message | string {
  return Object.hasOwn(words, code) ? (words[code] ?? code) : code;
}

function signOf({ resource }: PlanLoad): Message {
  return UNIT_SIGNS[UNITS[resource]];
}

function stepsOf({ resource, slotMinutes, steps }: PlanLoad): PlanLoad['steps'] {
  const per: Readonly<Record<Resource, number>> = { station: 1, crew: 1, 'drying-area': 0.01, 'room-air': 60 / slotMinutes, freezer: 0.01, service: 1 };
  const inUnits = (amount: number): number => Math.round(amount * per[resource] * 100) / 100;
  return steps.map((step) => ({ ...step, used: inUnits(step.used), available: inUnits(step.available) }));
}

/** The main numbers in words. */
function tellingOf(load: PlanLoad, clock: WallClock): Message[] {
  const steps = stepsOf(load);
  const by = say('By plan {number}.', { number: load.revision.number });
  if (steps.length === 0) return [by, say('The plan says nothing of this time. Ask for one that it covers.')];
  const fullest = steps.reduce((most, step) => (step.used > most.used ? step : most));
  const over = steps.filter(({ used, available }) => used > available);
  const hours = over.reduce((sum, { fromMs, toMs }) => sum + toMs - fromMs, 0) / 3_600_000;
  const values = { used: fullest.used, available: fullest.available, unit: signOf(load), moment: clock.moment(fullest.fromMs) };
  return [
    by,
    fullest.used === 0 ? say('Nothing of it is used in this time.') : say('The most is used on {moment}: {used}, where there are {available} ({unit}).', values),
    ...(over.length === 0 ? [] : [say('For {hours} hours more is in use than there is, because it had begun before the plan was made; the plan places nothing on top of it.', { hours: Math.round(hours * 10) / 10 })]),
  ];
}
