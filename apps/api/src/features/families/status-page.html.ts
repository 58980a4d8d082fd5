import { createHash } from 'node:crypto';
import { ANSWER_WORDS, type AskedOnPage, type StatusPage, type ThingOnPage } from '#application';
import { LANGUAGES, render, type Language, type Message } from '#care';
import { ABOUT_WORDS, AS_OF_WORDS, CLOSED_WORDS, COUNT_WORDS, NOTICES, PAGE_WORDS, STOP_WORDS, YOUR_ANSWER_WORDS, YOUR_WORDS, type Notice } from './page-words.js';

/** Large type and targets of 48 px (WCAG 2.2, 2.5.5 asks for 44), no picture, nothing to load. */
const STYLE = `body{font:18px/1.5 sans-serif;margin:0;color:#1d2a2b;background:#fdfcf8}main{max-width:36em;margin:0 auto;padding:16px}
h1{font-size:26px;line-height:1.2;margin:8px 0}h2{font-size:21px;line-height:1.25;margin:32px 0 8px;padding-top:12px;border-top:2px solid #7a8f83}h3{font-size:18px;margin:0 0 4px}p{margin:6px 0}
.card{background:#fff;border:1px solid #c9d1c9;border-radius:8px;padding:12px 14px;margin:12px 0}.note{background:#e8f0e6;border-left:6px solid #47705a;padding:12px 14px;margin:12px 0}.soft{color:#46594f;font-size:16px}
button{display:block;width:100%;min-height:48px;margin:10px 0 0;padding:10px 12px;font:inherit;text-align:left;color:#1d2a2b;background:#eef3ec;border:2px solid #47705a;border-radius:8px}
input[type=text]{display:block;box-sizing:border-box;width:100%;min-height:48px;font:inherit;padding:8px 10px;border:2px solid #7a8f83;border-radius:8px}label{display:block;margin:10px 0 4px}
nav a{display:inline-block;min-height:44px;line-height:44px;padding-right:24px;color:#1d4d3a}summary{min-height:44px;line-height:44px;color:#1d4d3a}`;

/** What the page may do: nothing but its own style and sending its forms back. */
export const PAGE_POLICY = `default-src 'none'; style-src 'sha256-${createHash('sha256').update(STYLE).digest('base64')}'; form-action 'self'; frame-ancestors 'none'; base-uri 'none'`;

const OF_THEIR_OWN: Readonly<Record<Language, string>> = { en: 'English', es: 'Español' };

export interface Shown {
  page: StatusPage;
  /** `/s/...`, in which the secret stands. */
  path: string;
  notice: Notice | null;
}

/** The page of a family, for any browser that shows forms. */
export function statusHtml({ page, path, notice }: Shown): string {
  const { language } = page;
  const tell = speaker(language);
  const here = page.things.filter(({ gone }) => !gone);
  const gone = page.things.filter(({ gone: has }) => has);
  const body = [
    languages(path, language),
    `<h1>${tell(PAGE_WORDS.title)}</h1>`,
    notice === null ? '' : `<p class="note" role="status">${tell(NOTICES[notice])}</p>`,
    `<p>${tell(PAGE_WORDS.intro)}</p><p class="soft">${tell(AS_OF_WORDS(page.asOf))}</p>`,
    page.asked.length === 0 ? '' : `<h2>${tell(PAGE_WORDS.questions)}</h2><p>${tell(PAGE_WORDS.questionsHint)}</p>${page.asked.map((asked) => question(asked, page, path)).join('')}`,
    `<h2>${tell(PAGE_WORDS.things)}</h2>`,
    here.length === 0 ? `<p>${tell(PAGE_WORDS.nothing)}</p>` : here.map((thing) => card(thing, page, path)).join(''),
    gone.length === 0 ? '' : `<h2>${tell(PAGE_WORDS.gone)}</h2>${gone.map((thing) => card(thing, page, path)).join('')}`,
    page.answered.length === 0 ? '' : `<h2>${tell(PAGE_WORDS.said)}</h2>${page.answered.map(({ itemNumber, asks, answer }) => `<p>${itemNumber}. ${tell(asks)} ${tell(YOUR_ANSWER_WORDS(ANSWER_WORDS[answer]))}</p>`).join('')}`,
    page.hasCode && here.some(({ description }) => description === null) ? more(page, path) : '',
    `<p class="soft">${tell(PAGE_WORDS.honest)}</p><nav><a href="${link(path, language)}">${tell(PAGE_WORDS.reload)}</a></nav>`,
  ];
  return document(language, tell(PAGE_WORDS.title), body.join('\n'));
}

/** What every link that opens nothing answers, and an address that guesses too much. */
export function closedHtml(busy: boolean): string {
  const both = LANGUAGES.map((language) => {
    const tell = speaker(language);
    return `<section lang="${language}"><h1>${tell(busy ? CLOSED_WORDS.busyTitle : CLOSED_WORDS.title)}</h1><p>${tell(busy ? CLOSED_WORDS.busyBody : CLOSED_WORDS.body)}</p></section>`;
  });
  return document('en', 'Wrackline', both.join('\n'));
}

function document(language: Language, title: string, body: string): string {
  return `<!doctype html><html lang="${language}"><head><meta charset="utf-8"><meta name="viewport" content="width=device-width, initial-scale=1"><meta name="robots" content="noindex"><title>${title}</title><style>${STYLE}</style></head><body><main>
${body}
</main></body></html>`;
}

function speaker(language: Language): (words: Message | string) => string {
  return (words) => escape(typeof words === 'string' ? words : render(words, language));
}

function languages(path: string, language: Language): string {
  const others = LANGUAGES.filter((other) => other !== language).map((other) => `<a lang="${other}" href="${link(path, other)}">${OF_THEIR_OWN[other]}</a>`);
  return `<nav>${others.join('')}</nav>`;
}

const link = (path: string, language: Language): string => `${path}?lang=${language}`;

function question({ id, itemNumber, itemKind, asks, means, answers, withCode, ifNone }: AskedOnPage, { language, hasCode }: StatusPage, path: string): string {
  const tell = speaker(language);
  const offered = answers.filter((answer) => hasCode || !withCode.includes(answer));
  const code = withCode.length === 0 ? '' : hasCode ? `<label for="c-${id}">${tell(PAGE_WORDS.codeForAnswer)}</label><input type="text" id="c-${id}" name="code" autocomplete="off" maxlength="20">` : `<p>${tell(PAGE_WORDS.noCode)}</p>`;
  const buttons = offered.map((answer) => `<button name="answer" value="${answer}">${tell(ANSWER_WORDS[answer])}</button>`).join('');
  return `<form class="card" method="post" action="${path}/answers?lang=${language}"><p class="soft">${tell(ABOUT_WORDS(itemNumber, itemKind))}</p><h3>${tell(asks)}</h3>${means.map((each) => `<p>${tell(each)}</p>`).join('')}
<p class="soft">${tell(ifNone)}</p><input type="hidden" name="question" value="${id}">${code}${buttons}</form>`;
}

function card({ id, number, kind, count, status, description, gone }: ThingOnPage, { language }: StatusPage, path: string): string {
  const tell = speaker(language);
  const words = description === null || description === '' ? '' : `<p>${tell(YOUR_WORDS(description))}</p>`;
  return `<div class="card"><h3>${number}. ${tell(COUNT_WORDS(kind, count))}</h3><p>${tell(status)}</p>${words}${gone ? '' : stop(id, language, path)}</div>`;
}

function stop(itemId: string, language: Language, path: string): string {
  const tell = speaker(language);
  const buttons = Object.entries(STOP_WORDS).map(([scope, words]) => `<button name="scope" value="${scope}">${tell(words)}</button>`).join('');
  return `<details><summary>${tell(PAGE_WORDS.stop)}</summary><p class="soft">${tell(PAGE_WORDS.stopHint)}</p><form method="post" action="${path}/words?lang=${language}"><input type="hidden" name="item" value="${itemId}">${buttons}</form></details>`;
}

function more({ language }: StatusPage, path: string): string {
  const tell = speaker(language);
  return `<h2>${tell(PAGE_WORDS.more)}</h2><form class="card" method="post" action="${path}/more?lang=${language}"><p>${tell(PAGE_WORDS.moreHint)}</p><label for="code">${tell(PAGE_WORDS.code)}</label><input type="text" id="code" name="code" autocomplete="off" maxlength="20" required><button>${tell(PAGE_WORDS.show)}</button></form>`;
}

function escape(value: string): string {
  return value.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;').replaceAll('"', '&quot;').replaceAll("'", '&#39;');
}
