/** What the estimates of drying, rooms and acceptance say. Numbers are rounded here, as far as anybody can read them off. */
import { say, type Message } from '#care';
import type { AcceptanceLimit, Advice, DryingForecast, MixedAcceptance, RoomPower, RoomWarningCode, WhatIfCode } from '#climate';
import type { Assumption } from './described-goods.js';
import type { UsualChange } from './usual-changes.js';

type Values = Advice['values'];

/** Numbers as people are told them: hours and kilowatts to a tenth, percent to a whole, the rest to three digits. */
export function toldValues(values: Values): Values {
  return Object.fromEntries(Object.entries(values).map(([name, value]) => [name, typeof value === 'number' ? told(name, value) : value]));
}

function told(name: string, value: number): number {
  if (name.endsWith('Pct')) return Math.round(value);
  if (name.endsWith('Kw') || name.endsWith('H') || name.endsWith('Saved') || name.endsWith('C')) return Math.round(value * 10) / 10;
  return Number(value.toPrecision(3));
}

export function roomWarningWords({ code, values }: Advice<RoomWarningCode>): Message {
  return ROOM_WARNINGS[code](toldValues(values));
}

const ROOM_WARNINGS: { [K in RoomWarningCode]: (values: Values) => Message } = {
  'nothing-leaves': () => say('No water leaves this room: neither machines nor outdoor air take any. Hang nothing wet here.'),
  'over-cap': (values) => say('The air rises to about {peakPct} %, above the cap of {capPct} %: everything else in the room is at risk. Hang less, or take more water out of the air.', values),
  'mould-before-dry': () => say('By the clock of the rule of practice mould may come before these goods are dry. Freeze or cool what may be, or give it a better place first.'),
  'never-dry': () => say('Some goods would come to rest damp in this air and never dry. Lower the humidity.'),
  'not-dry-in-time': (values) => say('Some goods may not be dry within {withinH} h.', values),
  condensation: () => say('The air reaches saturation: water would settle on cold walls, windows and goods.'),
  'fan-without-removal': (values) => say('Moving air lifts the room to about {peakPct} % and saves about {hoursSaved} h: the air can take no more water than leaves it. Take more water out first.', values),
  'thick-goods-band': () => say('Thick or closed goods dry from inside: a single number would be false precision, so only a band is given. Weigh them.'),
  'machines-frost': (values) => say('At {airTempC} °C a refrigerant dehumidifier frosts and takes out far less than its label.', values),
  'windows-would-help': () => say('Outdoor air is drier: exchanging air takes water away. Keep the room warm, and keep rain, dust and draughts off the goods.'),
  'keep-windows-closed': () => say('Outdoor air holds as much water as the room or more: opening windows would not dry it. Keep them closed.'),
};

export function powerWords({ code, values }: RoomPower['advice'][number]): Message {
  const told = toldValues(values);
  if (code === 'electric-load-one-circuit') return say('About {totalKw} kW of electric load. Ask a licensed electrician about the supply; keep cords and plugs off wet floors and behind a residual-current device (GFCI).', told);
  return say('About {totalKw} kW of electric load: more than one circuit of {circuitKw} kW carries, at least {circuitsAtLeast}. Do not plug it all into one. Ask a licensed electrician about the supply; keep cords and plugs off wet floors and behind a residual-current device (GFCI).', told);
}

export function whatIfWords({ code, values }: Advice<WhatIfCode>): Message {
  const told = toldValues(values);
  return WHAT_IFS[code]({ ...told, hoursSaved: Math.max(0, Number(told['hoursSaved'] ?? 0)) });
}

const WHAT_IFS: { [K in WhatIfCode]: (values: Values) => Message } = {
  'worth-while': () => say('Worth while.'),
  'saves-little': () => say('It changes little.'),
  'fan-without-removal': (values) => say('A fan alone lifts the room to about {peakPct} % and saves about {hoursSaved} h: the air can take no more water than leaves it. Take more water out first.', values),
  'windows-not-drier': () => say('Outdoor air is not drier by enough: opening windows would not dry the room. Keep them closed.'),
  'needs-heat': (values) => say('Holding the temperature would take about {moreHeatKw} kW more heat; without it the room cools and dries more slowly than said here.', values),
  'still-over-cap': (values) => say('The air would still rise above its cap, to about {peakPct} %.', values),
  'brings-below-cap': (values) => say('It brings the room below its cap, to at most about {peakPct} %.', values),
};

const CHANGES: Readonly<Record<UsualChange, Message>> = {
  'one-more-machine': say('One more machine like the largest one; 20 litres a day where there is none.'),
  fan: say('A fan that moves air at 1 m/s across the faces.'),
  'open-windows': say('Windows open, four changes of air an hour.'),
  'close-windows': say('Windows shut, a third of a change of air an hour.'),
  'fewer-things': say('A quarter of the things taken off.'),
  'fan-and-machine': say('The fan and one more machine.'),
};

/** Of the usual changes, in words; of somebody's own, by its name. */
export function changeWords(name: string): Message {
  return Object.hasOwn(CHANGES, name) ? CHANGES[name as UsualChange] : { text: name };
}

/** Of an assumption, with the things that it was made for. */
export function assumptionWords(code: Assumption, names: readonly string[]): Message {
  return ASSUMED[code]({ names: names.join(', ') });
}

const ASSUMED: { [K in Assumption]: (values: Values) => Message } = {
  'stage-assumed': (values) => say('How much water is in it was not told: it counts as drained ({names}). Weighing tells.', values),
  'arrangement-assumed': (values) => say('How air reaches it was not told: a packed rack is taken, the slowest ({names}).', values),
  'build-assumed': (values) => say('Whether it is thin was not told: it counts as thick ({names}).', values),
  'placement-assumed': (values) => say('How it lies was not told: flat on a board with one free face is taken ({names}).', values),
  'size-from-kind': (values) => say('Mass or size are those of a usual thing of its kind ({names}); your own weighing is better.', values),
};

/** How long, in a sentence. */
export function dryingWords({ hours, earliestH, latestH, tooDamp }: DryingForecast): Message {
  if (tooDamp) return say('This air is too damp: it would come to rest wet and never dry to a safe state. Lower the humidity first, or freeze what may be frozen.');
  const values = toldValues({ hours: hours ?? 0, earliestH: earliestH ?? 0, latestH: latestH ?? 0 });
  if (hours === null) return say('Between {earliestH} and {latestH} h: it dries from inside, and a single number would be false precision. Weigh it twice, some hours apart.', values);
  return say('Dry after about {hours} h, most likely between {earliestH} and {latestH} h. Weigh and feel it before it is packed.', values);
}

const LIMIT_WORDS: Readonly<Record<Exclude<AcceptanceLimit, 'items-max'>, Message>> = {
  'humidity-cap': say('one more would lift the room above its humidity cap; more dehumidification, not more racks, is what helps'),
  'mould-clock': say('one more would let a mould clock run out before all is dry'),
  time: say('one more would not be dry in the time allowed'),
  'rack-area': say('there is no rack left for one more'),
};

/** How many, in a sentence. */
export function acceptanceWords({ acceptedItems, bindingLimit }: MixedAcceptance, waiting: number): Message {
  if (bindingLimit === null) return say('All {waiting} can be hung now.', { waiting });
  if (acceptedItems === 0) return say('Hang nothing more now: {why}.', { why: LIMIT_WORDS[bindingLimit] });
  return say('Hang {accepted} of {waiting} now: {why}.', { accepted: acceptedItems, waiting, why: LIMIT_WORDS[bindingLimit] });
}

export const AIR_STANDING = say('An estimate to plan with, not a promise: weigh, feel, watch the hygrometer and plan again. A lead who sees the things decides, and a conservator where there is one.');
