/** What is said about one row while it is read: refusals, repairs, and notes that change nothing about its outcome. */
import { render, type Language, type Message } from '#care';
import type { RowRemark } from '../../ports/import-store.js';
import { CONTACT_COLUMNS } from './import-columns.js';

const LONGEST_QUOTE = 200;

/**
 * Collects the remarks of one row, as messages of the catalogues: what is stored is said in the language of each reader.
 * Contacts are never quoted in them.
 */
export class RowRemarks {
  /** Any of these refuses the row. */
  readonly refusals: RowRemark[] = [];
  /** Something was put right. */
  readonly repairs: RowRemark[] = [];
  /** Worth knowing; the row is accepted as it is. */
  readonly notes: RowRemark[] = [];

  refuse(column: string, code: string, text: Message, was: string | null = null): void {
    this.refusals.push(remark('refusal', column, code, text, was, null));
  }

  repair(column: string, code: string, text: Message, was: string, became: string): void {
    this.repairs.push(remark('repair', column, code, text, was, became));
  }

  note(column: string, code: string, text: Message, was: string | null = null, became: string | null = null): void {
    this.notes.push(remark('note', column, code, text, was, became));
  }

  /** All of them, the ones that need somebody first. */
  all(): RowRemark[] {
    return [...this.refusals, ...this.repairs, ...this.notes];
  }

  /** A copy to go on with, so that a row decided twice does not say everything twice. */
  copy(): RowRemarks {
    const copy = new RowRemarks();
    copy.refusals.push(...this.refusals);
    copy.repairs.push(...this.repairs);
    copy.notes.push(...this.notes);
    return copy;
  }
}

function remark(kind: RowRemark['kind'], column: string, code: string, message: Message, was: string | null, became: string | null): RowRemark {
  const personal = CONTACT_COLUMNS.has(column);
  return { kind, column, code, ...message, was: personal ? null : shorten(was), became: personal ? null : shorten(became) };
}

/** Cut between characters, never inside a surrogate pair, which no store could hold. */
function shorten(value: string | null): string | null {
  if (value === null || value.length <= LONGEST_QUOTE) return value;
  return `${value.slice(0, LONGEST_QUOTE - 1).replace(/\p{Surrogate}$/u, '')}\u2026`;
}

/** What a stored remark says, in a language. A remark of an earlier version is its English sentence, translated where the sentence has not changed since. */
export function remarkInWords({ text, values }: RowRemark, language: Language): string {
  return render(values === undefined ? { text } : { text, values }, language);
}
