/**
 * How a family uses its page: by the forms alone, or, where WRACKLINE_STORY names a folder and Debian's chromedriver is installed, in a real browser
 * on a screen of 360 by 640, with pictures. Speaks the WebDriver protocol (W3C, "WebDriver", Recommendation of 2018) by fetch.
 */
import { type ChildProcess, spawn } from 'node:child_process';
import { writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import { freePort } from '#platform';
import type { TestServer } from '#testing';
import { openPage, sendForm } from '../api/support/families.js';

/** A phone in a family's hand. Every call answers what the page shows then, as text. */
export interface Phone {
  open(path: string): Promise<string>;
  /** Presses the button of an answer on the card of a question; with the pick-up code where one is asked. */
  answer(path: string, questionId: string, answer: string, code?: string): Promise<string>;
  picture(name: string): Promise<void>;
  close(): Promise<void>;
}

export function formsAlone(server: TestServer): Phone {
  const open = async (path: string) => (await openPage(server, path).expect(200)).text;
  return {
    open,
    async answer(path, questionId, answer, code) {
      const sent = await sendForm(server, `${path}/answers?lang=es`, { question: questionId, answer, ...(code === undefined ? {} : { code }) }).expect(303);
      return open(String(sent.headers['location']));
    },
    picture: () => Promise.resolve(),
    close: () => Promise.resolve(),
  };
}

const ELEMENT = 'element-6066-11e4-a52e-4f735466cecf';
const START_TRIES = 100;
const LOOK_FOR_MS = 5_000;

/** A browser that shows what a small old phone shows. @throws Error when there is none */
export class BrowserPhone implements Phone {
  private constructor(private readonly server: TestServer, private readonly folder: string, private readonly driver: ChildProcess, private readonly session: string) {}

  static async start(server: TestServer, folder: string): Promise<BrowserPhone> {
    const port = await freePort();
    const driver = spawn('chromedriver', [`--port=${port}`], { stdio: 'ignore' });
    const url = `http://127.0.0.1:${port}`;
    for (let tries = 0; tries < START_TRIES && !(await fetch(`${url}/status`).then(({ ok }) => ok, () => false)); tries += 1) await pause(100);
    const args = ['--headless=new', '--no-sandbox', '--disable-gpu', '--hide-scrollbars'];
    const device = { deviceMetrics: { width: 360, height: 640, pixelRatio: 2 }, userAgent: 'phone' };
    const { sessionId } = await ask<{ sessionId: string }>('POST', `${url}/session`, { capabilities: { alwaysMatch: { browserName: 'chrome', 'goog:chromeOptions': { args, mobileEmulation: device } } } });
    const session = `${url}/session/${sessionId}`;
    // A form that is sent leaves nothing to look at for a moment.
    await ask('POST', `${session}/timeouts`, { implicit: LOOK_FOR_MS });
    return new BrowserPhone(server, folder, driver, session);
  }

  async open(path: string): Promise<string> {
    await ask('POST', `${this.session}/url`, { url: `${this.server.url}${path}` });
    return this.text();
  }

  async answer(_path: string, questionId: string, answer: string, code?: string): Promise<string> {
    const card = `//form[input[@name="question" and @value="${questionId}"]]`;
    if (code !== undefined) await ask('POST', `${this.session}/element/${await this.find(`${card}//input[@name="code"]`)}/value`, { text: code });
    await ask('POST', `${this.session}/element/${await this.find(`${card}//button[@value="${answer}"]`)}/click`, {});
    for (let tries = 0; tries < START_TRIES && !((await this.url()).includes('said=') && (await this.gone(card))); tries += 1) await pause(50);
    if (!(await this.url()).includes('said=')) throw new Error(`the page did not take the answer: it is still at ${await this.url()}`);
    return this.text();
  }

  async picture(name: string): Promise<void> {
    await writeFile(join(this.folder, `${name}.png`), Buffer.from(await ask<string>('GET', `${this.session}/screenshot`), 'base64'));
  }

  async close(): Promise<void> {
    await ask('DELETE', this.session).catch(() => null);
    this.driver.kill();
  }

  private url(): Promise<string> {
    return ask<string>('GET', `${this.session}/url`);
  }

  private async gone(xpath: string): Promise<boolean> {
    return (await ask<unknown[]>('POST', `${this.session}/elements`, { using: 'xpath', value: `//main[not(.${xpath})]` })).length > 0;
  }

  private async find(xpath: string): Promise<string> {
    return (await ask<Record<string, string>>('POST', `${this.session}/element`, { using: 'xpath', value: xpath }))[ELEMENT] ?? '';
  }

  private async text(): Promise<string> {
    return ask<string>('GET', `${this.session}/element/${await this.find('//main')}/text`);
  }
}

async function ask<T>(method: string, url: string, body?: object): Promise<T> {
  const response = await fetch(url, { method, ...(body === undefined ? {} : { headers: { 'content-type': 'application/json' }, body: JSON.stringify(body) }) });
  const { value } = (await response.json()) as { value: T };
  if (!response.ok) throw new Error(`the browser answered ${JSON.stringify(value).slice(0, 300)}`);
  return value;
}
