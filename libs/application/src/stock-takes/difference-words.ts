/** What a difference of a stock-take is, in words for the person who has to work it off. */
import { say, type Message } from '#care';
import { formatTagCode } from '#custody';
import type { DifferenceView } from './view.js';

export function differenceWords({ difference: { kind, scan }, replacedBy }: DifferenceView): Message {
  if (kind === 'missing') return say('It should be here and nobody has seen it. Look around it, in the boxes beside it and under the screens, before you report it missing.');
  if (kind === 'misplaced') return say('It lies where the record does not have it. Put it back, or put it on record where it is.');
  switch (scan.standing) {
    case 'ours': return say('On record it is at another place. Put it on record here, or take it back there.');
    case 'left': return say('The record says that it has left us. Put it aside and give it to the coordinator.');
    case 'retired': return replacedBy === null ? say('This tag was replaced by another one. Look for the new tag on the thing and scan that.') : say('This tag was replaced by {tag}. Look for that tag on the thing and scan it.', { tag: formatTagCode(replacedBy) });
    case 'not-tied': return say('This tag belongs to no thing yet. If it is on a thing, the thing was never taken in: give it to the coordinator.');
    case 'other-incident': return say('This tag belongs to another incident of ours. Give the thing to the coordinator.');
    case 'unknown': return say('Nobody here knows this tag. Read it again; if it is right, give the thing to the coordinator.');
    default: return scan.standing satisfies never;
  }
}
