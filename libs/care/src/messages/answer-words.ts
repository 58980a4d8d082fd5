/** The possible answers to a question, as people say them. */
import type { Fibre, Fragility, MouldState, Soil, WaterKind, WetState } from '../types.js';
import { MATERIAL_WORDS } from './material-words.js';
import { say } from './message.js';
import type { Language, Message } from './message.js';
import { render } from './render.js';

const FIBRE_WORDS: Readonly<Record<Fibre, Message>> = {
  cotton: say('cotton'), linen: say('linen'), wool: say('wool'), silk: say('silk'), viscose: say('viscose'), acetate: say('acetate'), nylon: say('nylon'), polyester: say('polyester'), acrylic: say('acrylic'), mixed: say('mixed fibres'), unknown: say('not known'),
};
const WET_WORDS: Readonly<Record<WetState, Message>> = { dripping: say('dripping'), wet: say('wet'), damp: say('damp'), dry: say('dry to the touch'), unknown: say('not known') };
const WATER_WORDS: Readonly<Record<WaterKind, Message>> = {
  clean: say('clean water from a pipe'), grey: say('used water'), black: say('river water or sewage'), salt: say('sea water'), unknown: say('not known'),
};
const MOULD_WORDS: Readonly<Record<MouldState, Message>> = { none: say('no mould seen'), suspected: say('mould suspected'), active: say('soft, active mould'), dry: say('dry mould'), unknown: say('not known') };
const FRAGILITY_WORDS: Readonly<Record<Fragility, Message>> = { sound: say('sound'), weak: say('weak'), 'very-degraded': say('very degraded'), unknown: say('not known') };
const SOIL_WORDS: Readonly<Record<Soil, Message>> = { none: say('no soil'), light: say('a little soil'), 'heavy-mud': say('mud that a finger sinks into'), unknown: say('not known') };

/** Words that answer more than one question. */
const OTHER_WORDS: Readonly<Record<string, Message>> = {
  yes: say('yes'), no: say('no'), 'just now': say('just now'), 'no-transfer': say('no dye on the swab'), 'any-transfer': say('dye on the swab'), '4-5': say('a trace of dye, grade 4-5'),
};
const WORDS_OF: Readonly<Record<string, Readonly<Record<string, Message>>>> = {
  materialClass: MATERIAL_WORDS, fibre: FIBRE_WORDS, wetState: WET_WORDS, water: WATER_WORDS, mould: MOULD_WORDS, fragility: FRAGILITY_WORDS, soil: SOIL_WORDS,
};

const HOURS_AGO = /^(\d+) h ago$/;

/** An answer to the question about an observation, in words; the answer itself where there are none. */
export function wordsOfAnswer(observation: string, answer: string): Message {
  const hoursAgo = HOURS_AGO.exec(answer)?.[1];
  if (hoursAgo !== undefined) return say('{hours, plural, one {# hour ago} other {# hours ago}}', { hours: Number(hoursAgo) });
  return ownWord(WORDS_OF[observation], answer) ?? ownWord(OTHER_WORDS, answer) ?? { text: answer };
}

/** As `wordsOfAnswer`, said in a language. */
export function answerInWords(observation: string, answer: string, language: Language): string {
  return render(wordsOfAnswer(observation, answer), language);
}

function ownWord(words: Readonly<Record<string, Message>> | undefined, answer: string): Message | undefined {
  return words !== undefined && Object.hasOwn(words, answer) ? words[answer] : undefined;
}
