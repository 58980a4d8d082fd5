/** What the sentences of a paper rest on: a number behind the sentence, the source in a list at the end. */
import { say, type Mark, type Message, type Source } from '#care';
import type { FlowDocument } from './flow/index.js';
import { SMALL_MM } from './flow/index.js';

const HOW_SURE: Readonly<Record<Mark, Message>> = {
  published: say('published'), 'common-practice': say('common practice'), 'from-memory': say('from memory, not checked'), 'own-calibration': say('our own judgement'),
};

/** The sources of one paper, each numbered where it first stands. */
export class Sources {
  private readonly numbers = new Map<string, { number: number; source: Source }>();

  constructor(private readonly flow: FlowDocument) {}

  /** `[2]`, to stand behind a sentence. */
  mark(source: Source): string {
    const key = `${source.mark} ${source.cite}`;
    const known = this.numbers.get(key) ?? { number: this.numbers.size + 1, source };
    this.numbers.set(key, known);
    return `[${known.number}]`;
  }

  /** The list, where there is anything to list. */
  list(): void {
    if (this.numbers.size === 0) return;
    const { flow } = this;
    flow.text(flow.spoken(say('What this rests on')), { weight: 'bold', sizeMm: SMALL_MM, beforeMm: 4, keepMm: 12 });
    for (const { number, source } of this.numbers.values()) {
      flow.text(`[${number}] ${source.cite}${source.cite.endsWith('.') ? '' : '.'} (${flow.spoken(HOW_SURE[source.mark])})`, { sizeMm: SMALL_MM });
    }
  }
}
