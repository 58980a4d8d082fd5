/**
 * What a family does in the weeks after a thing came home, and when to ask a conservator. Words for the sheet that goes with it, beside the
 * storage rules and prohibitions of the rule book. All of it is our own judgement (no publication that we have read gives a timetable for
 * the home); each sentence names the rules it was put together from. It advises and promises nothing.
 */
import type { Family } from './materials.js';
import { say } from './messages/message.js';
import type { Message } from './messages/message.js';
import type { Source } from './types.js';

export interface HomeAdvice {
  text: string;
  source: Source;
}

export interface HomeCare {
  /** What to do in the next weeks, in the order in which it is done. */
  nextWeeks: HomeAdvice[];
  /** When to stop and ask a conservator. */
  askWhen: HomeAdvice[];
}

/** What the sheet must know of a thing. */
export interface ComingHome {
  family: Family;
  /** Known to be dry. */
  dry: boolean;
  frozen: boolean;
}

const KEEPING_WATCH: Message = say('Our own words, after the rules on storage, drying and mould.');
const OF_ITS_MATERIAL: Message = say('Our own words, after the rules for this material.');
const FREEZING: Message = say('Our own words, after the rules freezing.effect and freezing.thaw.');

const advice = (text: Message, because: Message): HomeAdvice => ({ text: text.text, source: { mark: 'own-calibration', cite: because.text } });

const OPEN_FIRST = say('For the first two weeks leave it where air moves around it and where you can see it. Do not shut it into a chest, a plastic bag or a full cupboard yet.');
const WATCH = say('Look at it and smell it every few days for a month: damp and mould show late.');

/** What the rest of the family asks for: things to do, and the sign at which to ask. */
const OF_FAMILY: Readonly<Record<Family, { weeks: readonly Message[]; ask: Message }>> = {
  textile: {
    weeks: [say('Let it lie flat or hang over something broad and padded, so that no seam bears the weight.'), say('Do not wash, iron or dry-clean it in these weeks.')],
    ask: say('Ask when a colour comes off on a dry white cloth, when threads or cloth split or shed, or before its first wash.'),
  },
  paper: { weeks: [say('Keep it flat between clean, plain sheets of paper, and change a sheet that feels damp.')], ask: say('Ask when ink spreads, when sheets stick together, or when the paper is so soft that it gives under a finger.') },
  book: { weeks: [say('Stand it upright with its covers a little open, or lay it flat if it does not stand; do not press it.')], ask: say('Ask when pages stick together, when covers twist or come off, or when leather turns dark and crumbles.') },
  photo: { weeks: [say('Hold it by the edges. Do not rub the picture, and do not pull apart what sticks together.')], ask: say('Ask when the picture lifts, sticks, fades or changes colour.') },
  film: { weeks: [say('Hold it by the edges, and keep it out of warm rooms. Do not run it through a projector or scanner yet.')], ask: say('Ask when it smells of vinegar or camphor, turns sticky, curls or powders; then keep it away from flames and people.') },
  'audio-visual': { weeks: [say('Do not play it, switch it on or charge it.')], ask: say('Ask a specialist before it is played or switched on for the first time.') },
  painting: { weeks: [say('Keep it upright and away from outer walls, heaters and sun. Do not touch, dust or wipe the paint.')], ask: say('Ask when paint lifts, flakes or turns white, or when the canvas hangs slack.') },
  wood: { weeks: [say('Leave drawers and doors a little open, away from heaters and sun. Do not wax, oil or polish it yet.')], ask: say('Ask when veneer, paint or gilding lifts, when a joint opens, or when the finish turns white.') },
  leather: { weeks: [say('Hold its shape with clean, crumpled paper. Use no oil, cream or polish.')], ask: say('Ask when it stiffens, cracks, turns dark or leaves powder on your hand.') },
  organic: { weeks: [say('Keep it out of sun and away from heaters. Do not brush or bend it.')], ask: say('Ask when it cracks, sheds, changes its shape or shows holes that insects make.') },
  inorganic: { weeks: [say('Keep it dry and free of bumps; hold it from below with both hands.')], ask: say('Ask when you see rust, white crystals, green spots, new cracks or glaze that flakes.') },
  unknown: { weeks: [say('Handle it little, and hold it from below with both hands.')], ask: say('Ask before you clean it: nobody has said what it is made of.') },
};

const ASK_DAMP = say('Ask when it smells musty, feels damp, or shows new spots, stains or a soft, furry growth. Bag it and keep it apart until somebody has answered.');
const ASK_BEFORE_THAWING = say('Ask before you thaw it, or if it has thawed by itself: what thaws must be dried at once.');

/** The sheet's advice for one thing. */
export function homeCare({ family, dry, frozen }: ComingHome): HomeCare {
  if (frozen) return { nextWeeks: [], askWhen: [advice(ASK_BEFORE_THAWING, FREEZING)] };
  const { weeks, ask } = OF_FAMILY[family];
  return {
    nextWeeks: [...(dry ? [advice(OPEN_FIRST, KEEPING_WATCH)] : []), ...weeks.map((text) => advice(text, OF_ITS_MATERIAL)), advice(WATCH, KEEPING_WATCH)],
    askWhen: [advice(ASK_DAMP, KEEPING_WATCH), advice(ask, OF_ITS_MATERIAL)],
  };
}
