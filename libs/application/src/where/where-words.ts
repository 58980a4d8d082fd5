/** Where a thing is, in words: from the box it is in to the place where the box stands. */
import { say, type Message } from '#care';
import { formatTagCode, type OpenMatters } from '#custody';
import type { WhereStep } from '../ports/where-store.js';

/** The sentences that answer "where is it?", from the inside outwards. */
export function whereWords(steps: readonly WhereStep[]): Message[] {
  return steps.map(stepWords);
}

function stepWords({ keeper, code, name, siteName }: WhereStep): Message {
  const at = { name: name === '' ? code : name, site: siteName ?? '' };
  switch (keeper.kind) {
    case 'station': return say('At the station {name}, {site}.', at);
    case 'holding': return say('In the waiting area {name}, {site}.', at);
    case 'drying-place': return say('On the drying place {name}, {site}.', at);
    case 'freezer': return say('In the freezer {name}, {site}.', at);
    case 'shelf': return say('On the shelf {name}, {site}.', at);
    case 'container': return say('In the container {tag} ({name}).', { tag: code === '' ? '?' : formatTagCode(code), name });
    case 'vehicle': return say('In the vehicle {name}.', at);
    case 'courier': return say('With {name}, who carries it.', at);
    case 'specialist': return say('With the specialist {name}.', at);
    case 'household': return say('Back with its household {code}.', { code });
    case 'partner-network': return say('With a partner network.');
    case 'disposed': return say('No longer with us: it was let go with the agreement of its owner, or by two people where nobody knew the owner.');
    case 'same-thing': return say('Its record was joined to another one of the same thing; look there.');
    default: return keeper.kind satisfies never;
  }
}

/** What must be known before anybody relies on it. */
export function matterWords({ missing, disputed, handOver }: OpenMatters): Message[] {
  return [
    ...(missing ? [say('It was reported missing: this is only the last place on record.')] : []),
    ...(disputed ? [say('Another report says that it is elsewhere: go and look before you rely on this.')] : []),
    ...(handOver !== null ? [say('It is being handed over: until the receiver accepts, this is where it is on record.')] : []),
  ];
}
