/** The words around what a family sees on its page; read by people who have just lost a home. */
import { say, type Message } from '#care';

export const PAGE_WORDS = {
  title: say('Your things'),
  intro: say('Here you see how your things stand. The page is for you alone, so please do not pass the link on.'),
  nothing: say('There is nothing of yours on our list yet.'),
  questions: say('What we would like to ask you'),
  questionsHint: say('There is no right or wrong answer. You can take your time, and you can speak with us first.'),
  things: say('Where your things are on their way'),
  gone: say('What is no longer with us'),
  said: say('What you have told us'),
  more: say('See what you said about each thing'),
  moreHint: say('For this please type the pick-up code that you were given with the link.'),
  code: say('Pick-up code'),
  show: say('Show'),
  codeForAnswer: say('For a yes to this, please also type your pick-up code.'),
  noCode: say('If you would like to say yes to this, please speak with us.'),
  stop: say('Change of mind?'),
  stopHint: say('You can take back a yes at any time, whatever you said before. We stop as soon as it is safe for the thing, and somebody speaks with you.'),
  honest: say('We do what we can and tell you honestly how it stands. First aid can slow the damage; it cannot undo it, and we cannot promise how things turn out.'),
  reload: say('Look again'),
} as const satisfies Record<string, Message>;

/** Buttons with which a yes is taken back, by what it was about. */
export const STOP_WORDS = {
  treat: say('Please do not clean or dry it'),
  freeze: say('Please do not freeze it'),
  refer: say('Please do not send it to a specialist'),
  photograph: say('Please do not photograph it'),
  release: say('Please do not let it go'),
} as const satisfies Record<string, Message>;

/** What happened to what the family has just sent. */
export const NOTICES = {
  taken: say('Thank you. We have your answer.'),
  same: say('We have this answer already. You need do nothing more.'),
  other: say('There was an answer to this before, and it still stands. If you have changed your mind, please speak with us or use “Change of mind?” below.'),
  late: say('Thank you. Your answer came after the time we had set. Somebody reads it and speaks with you if something was done meanwhile.'),
  code: say('For this we need your pick-up code. Please check it and try again.'),
  locked: say('The pick-up code was wrong too often, so this link takes none any more. Please speak with us; we give you a new link.'),
  word: say('Thank you. We have written it down. Somebody sees to it.'),
  busy: say('Please try again in a moment. Nothing was lost.'),
} as const satisfies Record<string, Message>;

export type Notice = keyof typeof NOTICES;

/** For whoever opens a link that opens nothing, whatever the reason; said in both languages. */
export const CLOSED_WORDS = {
  title: say('This link does not open anything'),
  body: say('It may have ended, or a letter may be missing. If you are waiting for news of your things, please come to us or use the telephone number on your slip. We will give you a new link.'),
  busyTitle: say('Please wait a moment'),
  busyBody: say('Too many links that open nothing were tried from here. Please wait a minute and open your link again.'),
} as const satisfies Record<string, Message>;

export const COUNT_WORDS = (kind: Message, count: number): Message => (count > 1 ? say('{kind}, {count} pieces', { kind, count }) : kind);
export const ABOUT_WORDS = (number: number, kind: Message): Message => say('About number {number}, {kind}', { number, kind });
export const AS_OF_WORDS = (moment: string): Message => say('As of {moment}.', { moment });
export const YOUR_ANSWER_WORDS = (answer: Message): Message => say('You answered: {answer}.', { answer });
export const YOUR_WORDS = (words: string): Message => say('You said: {words}', { words });
