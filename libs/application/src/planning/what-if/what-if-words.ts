/** What-ifs as a coordinator reads them. */
import { say, SKILL_WORDS, type Message } from '#care';
import type { PlanWhatIfChange } from '#contracts';
import type { NamedThing, PlanWhatIfResult, StoredValue, WhatIfLayout } from '../../ports/plan-what-if-store.js';

const AND = (all: Message, one: Message): Message => say('{all}, {one}', { all, one });

/** Changes that are made together, in words; what is gone from the layout is called by its id. */
export function changesInWords(changes: readonly PlanWhatIfChange[], layout: WhatIfLayout): Message {
  return changes.map((change) => changeInWords(change, layout)).reduce((all, one) => say('{all}, together with {one}', { all, one }));
}

function changeInWords(change: PlanWhatIfChange, layout: WhatIfLayout): Message {
  switch (change.kind) {
    case 'people':
      return peopleInWords(change, nameIn(layout.sites, change.siteId));
    case 'person-leaves':
      return say('{person} goes home at {at}', { person: nameIn(layout.people, change.personId), at: momentInWords(Date.parse(change.at)) });
    case 'station-units': {
      const values = { station: nameIn(layout.stations, change.stationId), units: Math.abs(change.units) };
      return change.units > 0 ? say('{units, plural, one {# place} other {# places}} more at {station}', values) : say('{units, plural, one {# place} other {# places}} fewer at {station}', values);
    }
    case 'station-open':
      return say('{station} open from {from} to {to}', { station: nameIn(layout.stations, change.stationId), ...spanInWords(change) });
    case 'station-closed':
      return say('{station} shut from {from} to {to}', { station: nameIn(layout.stations, change.stationId), ...spanInWords(change) });
    case 'drying-area': {
      const values = { room: nameIn(layout.rooms, change.dryingRoomId), areaM2: Math.abs(change.areaM2) };
      return change.areaM2 > 0 ? say('{areaM2} m² more to dry on in {room}', values) : say('{areaM2} m² less to dry on in {room}', values);
    }
    case 'dehumidifier':
      return say('a dehumidifier of {litres} L a day more in {room}', { litres: change.ratedLPerDay, room: nameIn(layout.rooms, change.dryingRoomId) });
    case 'dehumidifier-fails':
      return say('dehumidifier {machine} fails', { machine: nameIn(layout.dehumidifiers, change.dehumidifierId) });
    case 'freezer':
      return say('a freezer of {litres} L more at {site}', { litres: change.volumeL, site: nameIn(layout.sites, change.siteId) });
    case 'freezer-fails':
      return say('freezer {freezer} fails', { freezer: nameIn(layout.freezers, change.freezerId) });
    case 'specialist-units': {
      const values = { specialist: nameIn(layout.specialists, change.specialistId), units: Math.abs(change.units) };
      return change.units > 0 ? say('{units, plural, one {# thing} other {# things}} more at once with {specialist}', values) : say('{units, plural, one {# thing} other {# things}} fewer at once with {specialist}', values);
    }
  }
}

function peopleInWords({ count, skills, shifts }: Extract<PlanWhatIfChange, { kind: 'people' }>, site: string): Message {
  const values = { count, site, ...spanInWords({ from: shifts[0]?.startsAt ?? '', to: shifts[0]?.endsAt ?? '' }) };
  const able = skills.map((skill) => SKILL_WORDS[skill]);
  const who = able.length === 0
    ? say('{count, plural, one {one more person} other {# more people}} at {site} from {from} to {to}', values)
    : say('{count, plural, one {one more person} other {# more people}} for {skills} at {site} from {from} to {to}', { ...values, skills: able.reduce(AND) });
  return shifts.length === 1 ? who : say('{who} and {more, plural, one {# more shift} other {# more shifts}}', { who, more: shifts.length - 1 });
}

/** What it saves or costs, in words. */
export function valueInWords({ weightSaved: { least, greatest }, savedItems, lostItems }: StoredValue): Message {
  if (least === 0 && greatest === 0) return say('It would save nothing that is not saved without it.');
  if (least < 0 && greatest > 0) return say('Whether it saves anything is not clear: a weight between {least} and {greatest}, as the search goes.', { least, greatest });
  if (greatest <= 0) return costInWords(-greatest, -least, lostItems);
  if (least === greatest) return say('It would save a weight of {weight}: {items, plural, one {# thing} other {# things}} in time that would not be.', { weight: least, items: savedItems });
  return say('It would save a weight of {least} to {greatest}, as the search goes; {items, plural, one {# thing is} other {# things are}} in time in one plan or another that would not be.', { least, greatest, items: savedItems });
}

function costInWords(least: number, greatest: number, items: number): Message {
  if (least === greatest) return say('It would cost a weight of {weight}: {items, plural, one {# thing} other {# things}} not in time any more.', { weight: least, items });
  return say('It would cost a weight of {least} to {greatest}, as the search goes; {items, plural, one {# thing is} other {# things are}} not in time any more in one plan or another.', { least, greatest, items });
}

/** What a change asks of people, power and places: it stands beside every number. */
export function cautionsOf(changes: readonly PlanWhatIfChange[], { most, rest }: PlanWhatIfResult['hours']): Message[] {
  const kinds = new Set(changes.map(({ kind }) => kind));
  const found: Message[] = [];
  if (kinds.has('people') || kinds.has('station-open')) {
    found.push(say('Ask people within the rest rules: nobody works more than {most} hours here without a break of {rest} hours. Longer shifts are not counted in this.', { most, rest }));
    found.push(say('In heat, water, shade and rest come first. Whoever is new is shown what to wear and what not to lift before they begin.'));
  }
  if (kinds.has('person-leaves')) found.push(say('Whoever is tired or unwell goes home, whatever it costs here.'));
  if (kinds.has('dehumidifier') || kinds.has('freezer')) found.push(say('Check power, floor and drain before a machine is set up: local codes come first.'));
  if (kinds.has('freezer-fails')) found.push(say('What lies in it is not moved by this reckoning: its clock goes on as it thaws. Find it another freezer first.'));
  if (kinds.has('specialist-units')) found.push(say('Ask the specialist first: what they take, and when, is theirs to say. No thing leaves without the recorded yes of its owner, or of a lead where nobody knows the owner.'));
  if (kinds.has('drying-area')) found.push(say('Keep ways out free, and room to walk between the screens.'));
  return found;
}

/** What would get one item in. */
export function helpInWords(name: string, item: NonNullable<PlanWhatIfResult['item']>, { values, seeds }: Pick<PlanWhatIfResult, 'values' | 'seeds'>, layout: WhatIfLayout): Message {
  const runs = seeds.length;
  if (item.unchangedSeeds === runs) return say('{item} is in time when the plan is made anew, without any change.', { item: name });
  const smallest = item.smallest === null ? undefined : values[item.smallest];
  if (smallest !== undefined) return say('{item} would be in time with this: {change}.', { item: name, change: changesInWords(smallest.changes, layout) });
  const most = Math.max(0, ...item.changedSeeds);
  const best = most > item.unchangedSeeds ? values[item.changedSeeds.indexOf(most)] : undefined;
  if (best !== undefined) return say('{item} would be in time in {most} of {runs} plans with this: {change}.', { item: name, most, runs, change: changesInWords(best.changes, layout) });
  return say('None of the changes that were tried gets {item} in.', { item: name });
}

/** A moment to stand in a sentence, in whole minutes. */
export function momentInWords(ms: number): Message {
  return say('{time} UTC', { time: Number.isNaN(ms) ? '' : new Date(ms).toISOString().slice(0, 16).replace('T', ' ') });
}

function spanInWords({ from, to }: { from: string; to: string }): { from: Message; to: Message } {
  return { from: momentInWords(Date.parse(from)), to: momentInWords(Date.parse(to)) };
}

function nameIn(things: readonly NamedThing[], id: string): string {
  return things.find((thing) => thing.id === id)?.name ?? id;
}
