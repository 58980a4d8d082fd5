import { setTimeout as pause } from 'node:timers/promises';
import type { z } from 'zod';
import type { HouseholdSummary, IntakeImportBody } from '#contracts';
import type { IntakeFile } from '../files/intake-files.js';
import { mend } from '../files/mend.js';
import type { DemoThing } from '../world/types.js';
import type { Book, Item } from './book.js';

type Import = z.output<typeof IntakeImportBody>;

const LOOK_EVERY_MS = 150;
const WAIT_AT_MOST_MS = 120_000;

/** What became of one table. */
export interface DeskReport {
  file: string;
  rows: number;
  accepted: number;
  repaired: number;
  refused: number;
  alreadyThere: number;
  /** Refused rows that went in when they were mended. */
  mended: number;
}

/** A desk sends its table, mends what was refused, and sends the same table a second time to be sure. */
export class Desk {
  constructor(
    private readonly book: Book,
    private readonly file: IntakeFile,
  ) {}

  /** Sends, mends and checks. @throws Error when the program takes in something twice or loses a row */
  async send(told: (progress: { things: number; mended: number }) => void): Promise<DeskReport> {
    const { file } = this;
    const first = await this.through(file.name, file.dialect.mediaType, file.content);
    told({ things: first.accepted + first.repaired, mended: 0 });
    const mended = await this.mendRefused(first, told);
    await this.sendAgain(first);
    await this.learn();
    return { file: file.name, rows: first.rowsTotal, accepted: first.accepted, repaired: first.repaired, refused: first.refused, alreadyThere: first.alreadyThere, mended };
  }

  private async mendRefused(first: Import, told: (progress: { things: number; mended: number }) => void): Promise<number> {
    const refused = await this.book.api.get<string>(`/v1/intake-imports/${first.id}/refused-rows`);
    const mended = mend(refused, this.file, this.book.families, this.book.tags);
    if ((mended?.truths.length ?? 0) !== first.refused) throw new Error(`${this.file.name}: ${first.refused} rows were refused, and the file of refused rows has ${mended?.truths.length ?? 0}`);
    if (mended === null) return 0;
    const second = await this.through(mended.name, 'text/csv', mended.content);
    if (second.refused > 0) throw new Error(`${this.file.name}: ${second.refused} mended rows were refused again`);
    told({ things: second.accepted + second.repaired, mended: second.rowsTotal });
    return second.rowsTotal;
  }

  /** The very same file again must answer the earlier import and create nothing. */
  private async sendAgain(first: Import): Promise<void> {
    const { status, body } = await this.upload(this.file.name, this.file.dialect.mediaType, this.file.content);
    if (status !== 200 || body.id !== first.id) throw new Error(`${this.file.name}: the second upload was taken as a new file`);
  }

  /** Sends a file and waits until every row has its answer. */
  private async through(name: string, mediaType: string, content: Buffer): Promise<Import> {
    let { body: found } = await this.upload(name, mediaType, content);
    const untilMs = Date.now() + WAIT_AT_MOST_MS;
    while (found.state !== 'done') {
      if (found.state === 'failed' || Date.now() > untilMs) throw new Error(`${name}: the import is ${found.state} after ${found.rowsDone} of ${found.rowsTotal} rows. ${found.failure ?? ''}`);
      await pause(LOOK_EVERY_MS);
      found = await this.book.api.get<Import>(`/v1/intake-imports/${found.id}`);
    }
    if (found.rowsDone !== found.rowsTotal || found.accepted + found.repaired + found.refused + found.alreadyThere !== found.rowsTotal) throw new Error(`${name}: rows are missing from the report`);
    return found;
  }

  private upload(name: string, mediaType: string, content: Buffer) {
    return this.book.api.upload<Import>(`/v1/incidents/${this.book.incidentId}/intake-imports?siteId=${this.book.site(this.file.site).id}&fileName=${encodeURIComponent(name)}`, mediaType, content);
  }

  /** Reads what the import made: the households, what the file has no column for, and the items. */
  private async learn(): Promise<void> {
    const households = await this.book.api.list<z.output<typeof HouseholdSummary>>(`/v1/incidents/${this.book.incidentId}/households`);
    const mine = new Map<string, DemoThing[]>();
    for (const { thing } of this.file.rows.values()) if (!mine.get(thing.household)?.includes(thing)) mine.set(thing.household, [...(mine.get(thing.household) ?? []), thing]);
    for (const [code, things] of mine) {
      const household = households.find((candidate) => candidate.code === code);
      if (!household) throw new Error(`${this.file.name}: household ${code} was not registered`);
      await this.learnHousehold(household.id, code, things);
    }
  }

  private async learnHousehold(householdId: string, code: string, things: readonly DemoThing[]): Promise<void> {
    const release = this.book.families.get(code)?.consents.release ?? null;
    const isNew = !this.book.households.has(code);
    this.book.households.set(code, householdId);
    if (isNew && release !== null) await this.book.api.post(`/v1/households/${householdId}/consents`, { scope: 'release', given: release, manner: 'spoken' });
    const items = await this.book.api.list<Item>(`/v1/incidents/${this.book.incidentId}/items?householdId=${householdId}`);
    const byTag = new Map(items.map((item) => [item.tag, item]));
    for (const thing of things) {
      const item = byTag.get(this.book.tags.get(thing.key) ?? '');
      if (!item) throw new Error(`${this.file.name}: ${thing.object} did not come in`);
      this.book.remember(thing, item);
    }
  }
}
