/**
 * What an alarm says: what is the matter, what to do now, and the cautions for people. First the people, then the things.
 * What to do is common practice in drying rooms; the respirator is that of the mould rules (EPA 402-K-01-001), the freezer
 * advice that of the freezing rules. None of it replaces the licensed electrician or the conservator.
 */
import { say, type Message } from '#care';
import type { AlarmEvidenceOf, AlarmKind } from './types.js';

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
const SILENCE = say('Until a reading comes the air counts as saturated, so clocks run fast on paper. Read an ordinary hygrometer and type it in.');

const ONE_DECIMAL = 10;
const round = (value: number): number => Math.round(value * ONE_DECIMAL) / ONE_DECIMAL;

/** The sentences of an alarm about a place with this name. */
export function alarmWords<K extends AlarmKind>(kind: K, evidence: AlarmEvidenceOf[K], name: string): AlarmWords {
  return WORDS[kind](evidence, name);
}

const WORDS: { [K in AlarmKind]: (evidence: AlarmEvidenceOf[K], name: string) => AlarmWords } = {
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
    what: soonestRedH === null
      ? say('{name}: {items, plural, one {the clock of # thing is} other {the clocks of # things are}} at amber ({households, plural, one {# household} other {# households}}); they stand still for now.', { name, items, households })
      : say('{name}: {items, plural, one {the clock of # thing is} other {the clocks of # things are}} at amber ({households, plural, one {# household} other {# households}}); the first has about {hours} h left by the 48 h rule of practice.', { name, items, households, hours: Math.floor(soonestRedH) }),
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
      name, hours: round((toMs - fromMs) / 3_600_000), running, expected: round(expectedKg), taken: round(Math.max(0, atMostKg)),
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
  'sensor-silent': ({ silentH }, name) => ({
    what: say('{name}: no reading for {hours} h.', { name, hours: Math.floor(silentH) }),
    doNow: [SILENCE],
    cautions: [],
  }),
};
