import {
  DAMAGE_WORDS, DEFAULT_CALIBRATION, render, say, STEP_WORDS, translate, WAY_WORDS, ZONE_WORDS,
  type Book, type Conclusion, type Disposition, type Language, type Message, type Restriction, type Scope, type SharedPlace,
} from '#care';

type Kind = Conclusion['kind'];
type Told<K extends Kind> = Extract<Conclusion, { kind: K }>;

/** What words need besides the conclusion: the numbers of the book, and the language. */
interface Telling {
  book: Book;
  language: Language;
}

/** One conclusion of a rule as somebody would say it. */
export function conclusionInWords<K extends Kind>(conclusion: Told<K>, book: Book, language: Language): string {
  const tell = TELL[conclusion.kind as K] as (told: Told<K>, telling: Telling) => Message | string;
  const told = tell(conclusion, { book, language });
  return typeof told === 'string' ? told : render(told, language);
}

const hoursOf = ({ book }: Telling, clock: Told<'clock'>['clock']) => book.calibrate(DEFAULT_CALIBRATION).clockHours[clock];
const listed = (words: readonly Message[], { language }: Telling): string => words.map((word) => render(word, language)).join(', ');
const waysOf = (dispositions: readonly Disposition[], telling: Telling): string => listed(dispositions.map((one) => WAY_WORDS[one]), telling);

/** A sentence of the rule book with the steps or places it is for. */
function scoped(text: string, { steps, zones }: Scope, telling: Telling): string {
  const where = [...(steps ?? []).map((step) => STEP_WORDS[step]), ...(zones ?? []).map((zone) => ZONE_WORDS[zone])];
  const spoken = translate(text, telling.language);
  return where.length === 0 ? spoken : `${spoken} (${listed(where, telling)})`;
}

const TELL: { readonly [K in Kind]: (told: Told<K>, telling: Telling) => Message | string } = {
  clock: ({ damage, clock }, telling) => {
    const { deadline, warn } = hoursOf(telling, clock);
    return say('Reckoned from the wetting, {damage}: to be expected after {deadline, plural, one {# hour} other {# hours}}, with a warning after {warn, plural, one {# hour} other {# hours}}.', { damage: DAMAGE_WORDS[damage], deadline, warn });
  },
  'start-by': ({ clock }, telling) => say('For the sake of people, handling starts within {deadline, plural, =0 {the hour} one {# hour} other {# hours}} of the wetting.', { deadline: hoursOf(telling, clock).deadline }),
  offer: ({ disposition, steps }, telling) => say('Opens a way: {way} ({steps}).', { way: WAY_WORDS[disposition], steps: listed(steps.map((step) => STEP_WORDS[step]), telling) }),
  prefer: ({ disposition }) => say('Puts a way further to the front: {way}.', { way: WAY_WORDS[disposition] }),
  bar: ({ disposition }) => say('Closes a way: {way}.', { way: WAY_WORDS[disposition] }),
  'add-step': ({ step, dispositions }, telling) => say('Adds a step: {step} ({ways}).', { step: STEP_WORDS[step], ways: waysOf(dispositions, telling) }),
  'omit-step': ({ step, dispositions }, telling) => say('Leaves a step out: {step} ({ways}).', { step: STEP_WORDS[step], ways: waysOf(dispositions, telling) }),
  need: ({ text, dispositions }, telling) => say('Needed first: {need} ({ways}).', { need: translate(text, telling.language), ways: waysOf(dispositions, telling) }),
  caution: (told, telling) => scoped(told.text, told, telling),
  never: ({ text }, { language }) => translate(text, language),
  ppe: (told, telling) => say('To wear: {items}.', { items: scoped(told.items.map((item) => translate(item, telling.language)).join(', '), told, telling) }),
  'bar-people': (told, telling) => say('Not for people who declared: {restrictions}.', { restrictions: scoped(listed(told.restrictions.map((one) => DECLARED[one]), telling), told, telling) }),
  referral: ({ text }, { language }) => translate(text, language),
  'bath-alone': () => say('Shares its bath with nothing.'),
  apart: ({ place, text }, { language }) => say('{place}: {what}', { place: PLACE_WORDS[place], what: translate(text, language) }),
  storage: ({ text }, { language }) => translate(text, language),
  'not-colder': ({ limit }, { book }) => say('Kept no colder than {limitC} °C.', { limitC: limit === 'disc' ? book.calibrate(DEFAULT_CALIBRATION).freezer.discsNotColderC : 0 }),
  bench: ({ disposition, step, zone }) => say('Moves a step: {step}, {place} ({way}).', { step: STEP_WORDS[step], place: ZONE_WORDS[zone], way: WAY_WORDS[disposition] }),
};

const DECLARED: Readonly<Record<Restriction, Message>> = {
  'no-mould': say('no work with mould'), 'no-lifting': say('no lifting'), 'no-wet-work': say('no wet work'), 'under-age': say('under age'), 'no-heat': say('no work in heat'),
};
const PLACE_WORDS: Readonly<Record<SharedPlace, Message>> = { bath: say('In a bath'), rack: say('On a rack'), bag: say('In a bag'), freezer: say('In a freezer') };
