/** What a new triage changed, in sentences for the person who reads it. */
import {
  DAMAGE_WORDS, isLate, MATERIAL_WORDS, render, say, STEP_WORDS, translate, URGENCY_WORDS, WAY_WORDS, wornPlainly,
  type Compared, type DamageKind, type Difference, type Disposition, type Language, type MaterialClass, type Message, type StepKind, type TriageChange, type Urgency,
} from '#care';
import { OBSERVATION_WORDS } from './observation-words.js';

/** The sentences of a change seen at `atMs`, what changed first and why it did last; empty when nothing did. */
export function changeInWords(change: TriageChange, language: Language, atMs: number): string[] {
  if (change.differences.length === 0) return [];
  const what = change.differences.flatMap((difference) => TOLD[difference.what](difference, language, atMs));
  return [...what, ...why(change, language)];
}

/** What new evidence did to the work so far. */
export interface RoundChange {
  /** It got wet again after it was dry or dried. */
  again: boolean;
  /** Steps that count as done no longer. */
  undoes: readonly StepKind[];
  /** A lead's choice that is over with it. */
  overturned: { disposition: Disposition } | null;
}

/** What must be done again and decided again, in sentences. */
export function roundInWords({ again, undoes, overturned }: RoundChange): Message[] {
  return [
    ...(again ? [say('It got wet again, so a new round of work begins. Its colour tests stay.')] : []),
    ...(undoes.length > 0 ? [say('No longer done: {steps}.', { steps: stepsInWords(undoes) })] : []),
    ...(overturned ? [say('A lead chose {way} before this was known, so that choice is over. A lead who still wants it chooses it again.', { way: WAY_WORDS[overturned.disposition] })] : []),
  ];
}

function stepsInWords(steps: readonly StepKind[]): Message {
  return steps.map((step) => STEP_WORDS[step]).reduce((all, one) => say('{all}, {one}', { all, one }));
}

type Teller = (difference: Difference, language: Language, atMs: number) => string[];

const [codeBefore, codeAfter] = [({ before }: Difference) => before[0], ({ after }: Difference) => after[0]];
const listed = (words: readonly Message[], language: Language): string => words.map((word) => render(word, language)).join(', ');
const cameNew = ({ before, after }: Difference): string[] => after.filter((text) => !before.includes(text));
const wentAway = ({ before, after }: Difference): string[] => before.filter((text) => !after.includes(text));
const minute = (iso: string | undefined): string => (iso ?? '').slice(0, 16).replace('T', ' ');

/** One sentence about what came and one about what went, where there is any. */
function cameAndWent(came: (texts: string) => Message, went: (texts: string) => Message, together: (texts: readonly string[]) => readonly string[] = (texts) => texts): Teller {
  return (difference, language) => {
    const spoken = (texts: readonly string[]): string => together(texts).map((text) => translate(text, language)).join('; ');
    const [added, gone] = [cameNew(difference), wentAway(difference)];
    return [...(added.length > 0 ? [render(came(spoken(added)), language)] : []), ...(gone.length > 0 ? [render(went(spoken(gone)), language)] : [])];
  };
}

const waysInWords = (codes: readonly string[], language: Language): string => listed(codes.map((code) => WAY_WORDS[code as Disposition]), language);

const TOLD: Readonly<Record<Compared, Teller>> = {
  urgency: (difference, language) => [render(say('Handling must start: {now} (before: {before}).', { now: URGENCY_WORDS[codeAfter(difference) as Urgency], before: URGENCY_WORDS[codeBefore(difference) as Urgency] }), language)],
  startBy: (difference, language, atMs) => {
    const [now, before] = [codeAfter(difference), codeBefore(difference)];
    const moments = { now: minute(now), before: minute(before) };
    return [render(isLate(Date.parse(now ?? ''), atMs) ? say('Its time to start is now {now} UTC, which has passed already; before it was {before} UTC.', moments) : say('Its time to start is now {now} UTC; before it was {before} UTC.', moments), language)];
  },
  binding: (difference, language) => {
    const damage = codeAfter(difference) as DamageKind | undefined;
    return [render(damage === undefined ? say('No damage threatens it by the clock any more.') : say('What threatens it first is now {damage}.', { damage: DAMAGE_WORDS[damage] }), language)];
  },
  firstDisposition: (difference, language) => [render(say('The first way is now {now}; before it was {before}.', { now: WAY_WORDS[codeAfter(difference) as Disposition], before: WAY_WORDS[codeBefore(difference) as Disposition] }), language)],
  dispositions: (difference, language) => {
    const [opened, closed] = [cameNew(difference), wentAway(difference)];
    return [
      ...(opened.length > 0 ? [render(say('Open now as well: {ways}.', { ways: waysInWords(opened, language) }), language)] : []),
      ...(closed.length > 0 ? [render(say('No longer open: {ways}.', { ways: waysInWords(closed, language) }), language)] : []),
    ];
  },
  route: ({ after }, language) => [render(say('The steps of the first way are now: {steps}.', { steps: listed(after.map((code) => STEP_WORDS[code as StepKind]), language) }), language)],
  needs: cameAndWent((texts) => say('Needed now: {texts}.', { texts }), (texts) => say('No longer needed: {texts}.', { texts })),
  ppe: cameAndWent((texts) => say('To wear as well: {texts}.', { texts }), (texts) => say('No longer to be worn: {texts}.', { texts }), wornPlainly),
  never: cameAndWent((texts) => say('New prohibition: {texts}', { texts }), (texts) => say('No longer said: {texts}', { texts })),
  cautions: (difference, language) => [
    render(say('{added, plural, =0 {No caution is new} one {# caution is new} other {# cautions are new}}, {gone, plural, =0 {none has gone} one {# has gone} other {# have gone}}.', { added: cameNew(difference).length, gone: wentAway(difference).length }), language),
  ],
  referral: cameAndWent((texts) => say('A specialist is asked for now: {texts}', { texts }), (texts) => say('No specialist is asked for any more because of this: {texts}', { texts })),
  bathGroup: (_difference, language) => [render(say('It shares a bath with other things than before, or with none.'), language)],
  apartFrom: (_difference, language) => [render(say('What it is kept apart from has changed.'), language)],
  treatedAs: (difference, language) => [render(say('It is handled as: {material}.', { material: MATERIAL_WORDS[codeAfter(difference) as MaterialClass] }), language)],
};

function why({ observations, byTimeAlone, ruleBook }: TriageChange, language: Language): string[] {
  const seen = observations.map((name) => OBSERVATION_WORDS[name]);
  return [
    ...(seen.length > 0 ? [render(say('Told anew: {observations}.', { observations: listed(seen, language) }), language)] : []),
    ...(byTimeAlone ? [render(say('Nothing was observed anew: the hours, the air or the work done made the change.'), language)] : []),
    ...(ruleBook === null ? [] : [render(say('Another rule book was in force: {after} instead of {before}.', { after: ruleBook.after, before: ruleBook.before }), language)]),
  ];
}
