/**
 * What an alarm says: what is the matter, what to do now, and the cautions for people. First the people, then the things.
 * What to do is common practice in drying rooms; the respirator is that of the mould rules (EPA 402-K-01-001), the freezer
 * advice that of the freezing rules. None of it replaces the licensed electrician or the conservator.
 */
import { say, type Message } from '#care';
import { HOUR_MS } from '../durations.js';
import type { AlarmEvidenceOf, AlarmKind, AlarmSubjectKind } from './types.js';

/** The sentences of one alarm. */
export interface AlarmWords {
  what: Message;
  doNow: Message[];
  cautions: Message[];
}

const ELECTRICITY = say('Electricity near water kills: touch no plug, cable or machine with wet hands or while you stand in water. Take the power off before anybody opens, empties or moves a machine that has stopped; a breaker that has tripped is reset by a licensed electrician and by nobody else.');
const MOULD = say('Mould may be growing there: wear a fit-tested N95 respirator or better, gloves and eye protection. Nobody with asthma, a mould allergy or weakened immunity goes in.');
const WARM_FREEZER = say('Keep the lid shut, and let nobody open parcels to look. Thawing starts every clock again and can make dyes run.');
const REFREEZE = say('Do not simply freeze again what has thawed: ask a conservator first, above all for wet photographs, film, books and coated paper, and dry what can be dried.');
const SILENT_ROOM = say('Read an ordinary hygrometer and type it in. Without readings the air soon counts as saturated, so clocks run fast on paper.');
const SILENT_FREEZER = say('Read its thermometer and type it in, with the lid shut if that can be done. Nobody knows whether what lies in it is still frozen.');

/** With more hours left than this a clock is told in days: beyond the longest that the sources span at room temperature it hardly runs. Own choice. */
const HARDLY_RUNS_H = 72;
const DAY_H = 24;

const ONE_DECIMAL = 10;
const round = (value: number): number => Math.round(value * ONE_DECIMAL) / ONE_DECIMAL;

/** The sentences of an alarm about a thing of this kind and name. */
export function alarmWords<K extends AlarmKind>(kind: K, evidence: AlarmEvidenceOf[K], name: string, subject: AlarmSubjectKind): AlarmWords {
  return WORDS[kind](evidence, name, subject);
}

const WORDS: { [K in AlarmKind]: (evidence: AlarmEvidenceOf[K], name: string, subject: AlarmSubjectKind) => AlarmWords } = {
  'room-over-cap': ({ relativeHumidityPct, capPct }, name) => ({
    what: say('{name}: the air is at {humidity} %, above its cap of {cap} %.', { name, humidity: round(relativeHumidityPct), cap: round(capPct) }),
    doNow: [
      say('Hang nothing more there. See that every dehumidifier runs and its tank is empty, and close doors to damp rooms.'),
      say('Open windows only while the air outside is drier than the air inside.'),
    ],
    cautions: [ELECTRICITY],
  }),
  'room-mould-possible': ({ relativeHumidityPct, airTempC }, name) => ({
    what: say('{name}: at {humidity} % and {temperature} °C mould can grow even on things that are dry.', { name, humidity: round(relativeHumidityPct), temperature: round(airTempC) }),
    doNow: [say('Bring the humidity down now, or move the dry things out to a drier or colder place. Take the most perishable first.')],
    cautions: [MOULD, ELECTRICITY],
  }),
  'clock-amber': ({ items, households, soonestRedH }, name) => ({
    what: amberWords(name, { items, households, soonestRedH }),
    doNow: [say('Give them the driest places and a fan that does not blow straight at them, or freeze what may be frozen. A lead decides which.')],
    cautions: [],
  }),
  'clock-red': ({ items, households }, name) => ({
    what: say('{name}: {items, plural, one {# thing has} other {# things have}} used up the time that the rule of practice allows ({households, plural, one {# household} other {# households}}). That does not say that there is mould.', { name, items, households }),
    doNow: [say('Look at each of them for mould before it is handled further, and record what you see. What has mould goes to quarantine.')],
    cautions: [MOULD],
  }),
  'dehumidifier-stopped': ({ code }, name) => ({
    what: say('{name}: the dehumidifier {code} is recorded as tripped.', { name, code }),
    doNow: [say('Ask for a licensed electrician, and for another machine meanwhile. Record it as running when it runs again.')],
    cautions: [ELECTRICITY],
  }),
  'dehumidifier-short': ({ expectedKg, atMostKg, running, fromMs, toMs }, name) => ({
    what: say('{name}: in {hours} h {running, plural, one {the dehumidifier} other {the # dehumidifiers}} should have taken about {expected} kg of water from this air, and can have taken {taken} kg at most.', {
      name, hours: round((toMs - fromMs) / HOUR_MS), running, expected: round(expectedKg), taken: round(Math.max(0, atMostKg)),
    }),
    doNow: [
      say('Go and look: does it run, is the tank full, the filter blocked, the coil iced, a door open? If one has stopped, record it as tripped or off.'),
      say('It is reckoned from the air, the things that hang and the labels, so a wrong label or an open door gives the same picture.'),
    ],
    cautions: [ELECTRICITY],
  }),
  'freezer-warm': ({ tempC, limitC }, name) => ({
    what: say('{name}: the freezer is at {temperature} °C, warmer than {limit} °C. Frozen things are held at -18 °C.', { name, temperature: round(tempC), limit: round(limitC) }),
    doNow: [say('See that the lid is shut, the plug in and nothing warm was just put in. If it does not fall within the hour, find another freezer and move the parcels closed.')],
    cautions: [WARM_FREEZER, ELECTRICITY],
  }),
  'freezer-thawing': ({ tempC }, name) => ({
    what: say('{name}: the freezer is at {temperature} °C. What lies in it thaws, and its clocks run again.', { name, temperature: round(tempC) }),
    doNow: [say('Move the parcels, closed and still frozen ones first, to another freezer. Take out only what can be dried in this session.')],
    cautions: [REFREEZE, WARM_FREEZER, ELECTRICITY],
  }),
  'sensor-silent': ({ silentH, expectedEveryMinutes }, name, subject) => ({
    what: silenceWords(name, silentH * 60, expectedEveryMinutes ?? null),
    doNow: [subject === 'freezer' ? SILENT_FREEZER : SILENT_ROOM],
    cautions: [],
  }),
  'things-unseen': ({ items, households }, name) => ({
    what: say('{name}: nobody has met {items, plural, one {# thing} other {# things}} for longer than is usual at this stage ({households, plural, one {# household} other {# households}}).', { name, items, households }),
    doNow: [say('Look for each where it is on record, the longest unseen first, and scan it there. What is not found is reported missing.')],
    cautions: [],
  }),
};

/** A clock that hardly runs is not told in hours, which would sound as if they could be counted on. */
function amberWords(name: string, { items, households, soonestRedH }: Pick<AlarmEvidenceOf['clock-amber'], 'items' | 'households' | 'soonestRedH'>): Message {
  if (soonestRedH === null) return say('{name}: {items, plural, one {the clock of # thing is} other {the clocks of # things are}} at amber ({households, plural, one {# household} other {# households}}); they stand still for now.', { name, items, households });
  if (soonestRedH <= HARDLY_RUNS_H) return say('{name}: {items, plural, one {the clock of # thing is} other {the clocks of # things are}} at amber ({households, plural, one {# household} other {# households}}); the first has about {hours} h left by the 48 h rule of practice.', { name, items, households, hours: Math.floor(soonestRedH) });
  return say('{name}: {items, plural, one {the clock of # thing is} other {the clocks of # things are}} at amber ({households, plural, one {# household} other {# households}}). In the present air they hardly run: it would be more than {days} days until the first is red. In damper air it is less.', { name, items, households, days: Math.floor(soonestRedH / DAY_H) });
}

function silenceWords(name: string, silentMinutes: number, everyMinutes: number | null): Message {
  const hours = Math.floor(silentMinutes / 60);
  if (everyMinutes === null) return say('{name}: no reading for {hours} h.', { name, hours });
  if (hours < 1) return say('{name}: no reading for {minutes} min, where one is expected every {every} min.', { name, minutes: Math.floor(silentMinutes), every: everyMinutes });
  if (everyMinutes < 2 * 60) return say('{name}: no reading for {hours} h, where one is expected every {every} min.', { name, hours, every: everyMinutes });
  return say('{name}: no reading for {hours} h, where one is expected every {every} h.', { name, hours, every: round(everyMinutes / 60) });
}
