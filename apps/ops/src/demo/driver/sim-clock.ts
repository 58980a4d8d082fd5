import { rename, writeFile } from 'node:fs/promises';

/** The clock of the played day: every process reads the file, so a day passes in minutes and goes on after a restart. */
export class SimClock {
  private atMs = 0;

  constructor(readonly file: string) {}

  get nowMs(): number {
    return this.atMs;
  }

  /** Moves the day on; written beside and renamed, so that nobody reads half a number. Time never goes back. */
  async set(ms: number): Promise<void> {
    this.atMs = Math.max(this.atMs, Math.round(ms));
    await writeFile(`${this.file}.new`, `${this.atMs}\n`);
    await rename(`${this.file}.new`, this.file);
  }
}
