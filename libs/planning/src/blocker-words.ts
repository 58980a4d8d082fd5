/** What stands in the way of a plan, and what more of would help, for the coordinator who asks for it. */
import { say, SKILL_WORDS, STEP_WORDS, type Message } from '#care';
import type { ResourceUse } from './binding-resources.js';
import type { Blocker } from './types.js';

/** A blocker in words; `what` may be the name of a room or freezer instead of its id. */
export function describeBlocker({ kind, what }: Blocker): Message {
  switch (kind) {
    case 'station': return say('no free station for “{step}”', { step: wordOf(STEP_WORDS, what) });
    case 'crew': return what === '' ? say('nobody free') : say('nobody free with the skill “{skill}”', { skill: wordOf(SKILL_WORDS, what) });
    case 'respirator-fit':
      return what === '' ? say('nobody is free whose respirator fit is valid for it') : say('nobody is free with the skill “{skill}” whose respirator fit is valid for it', { skill: wordOf(SKILL_WORDS, what) });
    case 'restriction':
      return what === '' ? say('nobody is free whom neither age nor a declared restriction keeps from it') : say('nobody is free with the skill “{skill}” whom neither age nor a declared restriction keeps from it', { skill: wordOf(SKILL_WORDS, what) });
    case 'heat': return say('it is too hot for “{step}”: cool the place, or wait for a cooler hour', { step: wordOf(STEP_WORDS, what) });
    case 'drying-area': return what === '' ? say('no drying place on the site') : say('no free drying area, soonest in room {room}', { room: what });
    case 'room-air': return what === '' ? say('no drying room on the site') : say('the air of the rooms cannot take more water, soonest in room {room}', { room: what });
    case 'company': return say('what it must not lie with is in every place that has room for it, soonest free in {place}', { place: what });
    case 'freezer': return what === '' ? say('no freezer on the site') : say('no free freezer volume, the largest freezer is {freezer}', { freezer: what });
    case 'service': return what === '' ? say('no courier or specialist for it') : say('no free courier or specialist, soonest {service}', { service: what });
    case 'pin': return say('it is pinned to a place and time that cannot be kept any more');
    case 'time': return say('its deadline leaves too little time even with everything free');
    case 'route': return say('it has no allowed care route that makes it safe');
  }
}

/** What there would have to be more of; `what` as for `describeBlocker`. */
export function resourceInWords({ kind, what }: { kind: ResourceUse['kind']; what: string }): Message {
  switch (kind) {
    case 'station': return say('stations for “{step}”', { step: wordOf(STEP_WORDS, what) });
    case 'crew': return what === '' ? say('people') : say('people with the skill “{skill}”', { skill: wordOf(SKILL_WORDS, what) });
    case 'drying-area': return say('drying area in room {room}', { room: what });
    case 'room-air': return say('drying of the air in room {room}: dehumidifiers, or drier air from outside', { room: what });
    case 'freezer': return say('volume of freezer {freezer}', { freezer: what });
    case 'service': return say('journeys or hours of {service}', { service: what });
  }
}

/** The word for a code; the code itself where a stored plan holds one that has no word any more. */
function wordOf(words: Readonly<Record<string, Message>>, code: string): Message | string {
  return Object.hasOwn(words, code) ? (words[code] ?? code) : code;
}
