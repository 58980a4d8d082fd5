/** What families are written, by mail or as a short message: which thing is never named, because others may read it too. */
import { say, type Message } from '#care';
import type { MessageTemplate } from '../ports/family-message-store.js';

export interface MessageFacts {
  /** Things that are with us, for `taken-in`. */
  things: number;
  /** Open questions, for `question` and `reminder`. */
  questions: number;
  /** Until when the first of them should be answered, in words. */
  until: string;
}

const SUBJECTS: Readonly<Record<MessageTemplate, Message>> = {
  'taken-in': say('Your things are with us'),
  question: say('We have a question about your things'),
  reminder: say('A question about your things is still open'),
  ready: say('Some of your things are ready to go back to you'),
  'handed-back': say('Your things were handed back'),
  'not-saved': say('Please speak with us about one of your things'),
  'let-go': say('About something that you agreed to let go'),
  uncollected: say('Some of your things wait for you'),
};

const BODIES: Readonly<Record<MessageTemplate, (facts: MessageFacts) => Message>> = {
  'taken-in': ({ things }) => say('{things, plural, one {One thing of yours is} other {# things of yours are}} with us now. We look after {things, plural, one {it} other {them}} as well as we can. We cannot promise how things turn out, and we will tell you honestly.', { things }),
  question: ({ questions, until }) => say('{questions, plural, one {There is a question} other {There are # questions}} that only you can answer. Please answer by {until} if you can. If you cannot, we keep your things as they are, and somebody tries to reach you.', { questions, until }),
  reminder: ({ questions, until }) => say('{questions, plural, one {A question is} other {# questions are}} still open until {until}. You need not decide alone: on the page you can also ask us to speak with you first.', { questions, until }),
  ready: () => say('Some of your things are ready to go back to you. Please come to us or speak with us to find a time that suits you.'),
  'handed-back': () => say('What you took with you is on your receipt. If something is not as it should be, or if you have a question later, please speak with us.'),
  'not-saved': () => say('There is news about one of your things that we would rather tell you in person. Please come to us or speak with us when you can. Nothing is let go without your word.'),
  'let-go': () => say('Something of yours was let go, as you had agreed with us. If you have a question about it, or if you feel otherwise now, please speak with us.'),
  uncollected: () => say('Some of your things are ready and wait with us. Please come or speak with us to find a time that suits you, and tell us if you need more time. Nothing is let go without your word.'),
};

const LINK_LINE = say('You can see how your things stand here. The page is for you alone, so please do not pass it on:');
const NO_REPLY = say('This message was sent by a machine. To speak with somebody, come to us or use the telephone number on your slip.');

/** Which messages bring a link to the status page. */
export const WITH_LINK: ReadonlySet<MessageTemplate> = new Set(['taken-in', 'question', 'reminder', 'ready', 'uncollected']);

/** Subject and lines of a message; `link` stands by itself on a line. */
export function messageWords(template: MessageTemplate, facts: MessageFacts, link: string | null): { subject: Message; lines: (Message | string)[] } {
  return { subject: SUBJECTS[template], lines: [BODIES[template](facts), ...(link === null ? [] : [LINK_LINE, link]), NO_REPLY] };
}
