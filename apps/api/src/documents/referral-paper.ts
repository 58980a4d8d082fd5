/** The package that travels with a thing to a specialist: first what can hurt whoever opens it, then how it is and what its owner allows. */
import { render, say, statementsInLanguage, translatorFor, type Language, type Message } from '#care';
import { NO_PICTURES, type PicturesWithheld, type ReferralPackage, type ReferralPictures } from '#application';
import { photographsOf, whatItIs, whatWasDone, whatWasSeen, whatWasTested } from './dossier-sections.js';
import { FlowDocument, flowTable, pictureRows } from './flow/index.js';
import { clockOf } from './paper-clock.js';
import { NO, SCOPE_WORDS, YES } from './paper-words.js';
import type { PaperStyle } from './receipt-paper.js';

const STANDING = say('Everything in it is what trained helpers saw and did. You decide what is done; nothing here tells you to treat it. Please write down what you find and do, and send that back with it.');

/** Draws the package as PDF. */
export function referralPaperPdf(given: ReferralPackage, { language, paper }: PaperStyle, pictures: ReferralPictures = NO_PICTURES): Promise<Buffer> {
  const { dossier } = given;
  const title = render(say('Referral to a specialist'), language);
  const flow = new FlowDocument({ title: `${title} ${dossier.item.tag}`, foot: `${title} ${dossier.item.tag}, ${dossier.incidentName}`, language, createdAtMs: given.atMs, paper });
  flow.title(title);
  protection(flow, given, language);
  flow.heading(flow.spoken(say('The thing')));
  whatItIs(flow, dossier, language);
  const hours = { hours: given.hoursWet };
  flow.text(flow.spoken(given.sinceFlood ? say('Wet for at most {hours, plural, one {# hour} other {# hours}}, counted from the beginning of the flood.', hours) : say('{hours, plural, one {# hour} other {# hours}} since it got wet.', hours)), { beforeMm: 1 });
  whatWasSeen(flow, say('As it came'), dossier.first, dossier, language);
  whatWasSeen(flow, say('Last looked at'), dossier.latest, dossier, language);
  whatWasTested(flow, dossier, language);
  whatWasDone(flow, dossier, language);
  section(flow, say('What not to do'), statementsInLanguage(given.never, language).map(({ text }) => text));
  section(flow, say('What we ask you'), statementsInLanguage(given.referral, language).map(({ text }) => text));
  ownersWord(flow, given, language);
  offers(flow, given, language);
  photographsOf(flow, dossier.photographs);
  drawn(flow, pictures);
  flow.notice(flow.spoken(STANDING));
  return flow.finish();
}

/** On the first page, because whoever opens the box reads no further. */
function protection(flow: FlowDocument, { cautions, ppe, apartFrom }: ReferralPackage, language: Language): void {
  const { spoken } = flow;
  flow.heading(spoken(say('Before you open it')));
  const said = statementsInLanguage(cautions, language).map(({ text }) => text);
  if (ppe.length > 0) flow.text(spoken(say('Wear: {pieces}.', { pieces: ppe.map(translatorFor(language)).join(', ') })), { weight: 'bold' });
  if (said.length === 0) flow.text(spoken(say('No caution is on record. That is no proof that it is clean: it was in a flood.')));
  else flow.points(said);
  if (apartFrom.length === 0) return;
  flow.text(spoken(say('Pack it apart from')), { weight: 'bold', beforeMm: 3, keepMm: 6 });
  flow.points(statementsInLanguage(apartFrom, language).map(({ text }) => text));
}

function section(flow: FlowDocument, name: Message, texts: readonly string[]): void {
  if (texts.length === 0) return;
  flow.heading(flow.spoken(name));
  flow.points(texts);
}

function ownersWord(flow: FlowDocument, { ownerUnknown, dossier: { words, referLimit, timeZone } }: ReferralPackage, language: Language): void {
  const { spoken } = flow;
  flow.heading(spoken(say('What the owner said')));
  if (ownerUnknown.length > 0) return void flow.points(ownerUnknown.map(spoken));
  if (words.length === 0) flow.text(spoken(say('Nothing is on record: do nothing to it before the owner has answered.')));
  const clock = clockOf(timeZone, language);
  flow.facts(words.map(({ scope, given, recordedAtMs }) => [capital(spoken(SCOPE_WORDS[scope])), `${spoken(given ? YES : NO)}, ${clock.day(recordedAtMs)}`] as const));
  const agreed = words.some(({ scope, given }) => scope === 'refer' && given);
  if (referLimit !== null) flow.text(spoken(say('At most {amount}. Ask us before it costs more.', { amount: amountIn(referLimit, language) })), { weight: 'bold', beforeMm: 1 });
  else if (agreed) flow.text(spoken(say('No limit was named. Send an offer, and wait for its approval.')), { beforeMm: 1 });
}

function offers(flow: FlowDocument, { quotes, dossier: { timeZone } }: ReferralPackage, language: Language): void {
  if (quotes.length === 0) return;
  const { spoken } = flow;
  const clock = clockOf(timeZone, language);
  flow.need(60);
  flow.heading(spoken(say('Offers')));
  flowTable(flow, [{ head: spoken(say('Amount')), share: 36 }, { head: spoken(say('Valid until')), share: 42 }, { head: spoken(say('What is offered')), share: 62 }, { head: spoken(say('Answer')), share: 34 }],
    quotes.map(({ amount, validUntilMs, work, state }) => [amountIn(amount, language), clock.day(validUntilMs), work, spoken(ANSWERS[state])]));
}

const WITHHELD: Record<PicturesWithheld, Message> = {
  consent: say('The pictures are not printed: its owner has not agreed that they are shown to others.'),
  'owner-unknown': say('The pictures are not printed while nobody knows the owner.'),
  caller: say('The pictures are not printed here; ask us for them.'),
};

/** What may be shown of the photographs; one that cannot be read is named, and leaves no empty frame. */
function drawn(flow: FlowDocument, { pictures, more, withheld }: ReferralPictures): void {
  const { spoken } = flow;
  if (withheld !== null) return flow.text(spoken(WITHHELD[withheld]), { beforeMm: 1 });
  const read = pictures.flatMap(({ jpeg, reference, takenOn }) => (jpeg === null ? [] : [{ jpeg, caption: [`…${reference.slice(-6)}`, ...(takenOn === null ? [] : [takenOn])].join(', ') }]));
  pictureRows(flow, read);
  for (const { reference } of pictures.filter(({ jpeg }) => jpeg === null)) flow.text(spoken(say('The picture {reference} could not be read when this was printed; ask us for it.', { reference })), { beforeMm: 1 });
  if (more > 0) flow.text(spoken(say('{more, plural, one {# older picture is kept; ask us for it.} other {# older pictures are kept; ask us for them.}}', { more })), { beforeMm: 1 });
}

const ANSWERS = { open: say('open'), approved: say('approved'), declined: say('declined') } as const;

/** As people of the language write it, with the code of the currency, which is the same everywhere. */
function amountIn({ minor, currency }: { minor: number; currency: string }, language: Language): string {
  const format = new Intl.NumberFormat(language === 'es' ? 'es-419' : 'en', { style: 'currency', currency, currencyDisplay: 'code' });
  return format.format(minor / 10 ** (format.resolvedOptions().maximumFractionDigits ?? 2)).replaceAll('\u00A0', ' ');
}

const capital = (text: string): string => `${text.charAt(0).toLocaleUpperCase()}${text.slice(1)}`;
