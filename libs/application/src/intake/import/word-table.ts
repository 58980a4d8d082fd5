/** Look-up of everyday words: whole words only, the longest phrase first, and no answer when two would do equally well. */

interface Entry<T> {
  value: T;
  /** Words of the phrase, then 1 for a strong word: the better match has the greater weight. */
  weight: number;
}

/** Folded phrase to what it means. */
export type WordTable<T> = ReadonlyMap<string, Entry<T>>;

const LONGEST_PHRASE = 4;

/** Builds a table from lists of phrases, separated by commas. @throws Error when one phrase has two meanings. */
export function wordTable<T extends string>(lists: { plain: Partial<Record<T, string>>; strong: Partial<Record<T, string>> }): WordTable<T> {
  const table = new Map<string, Entry<T>>();
  for (const strength of ['plain', 'strong'] as const) {
    for (const [value, phrases] of Object.entries(lists[strength]) as [T, string][]) {
      for (const phrase of phrases.split(',').map((each) => foldWords(each))) {
        if (table.has(phrase)) throw new Error(`"${phrase}" stands in the table twice`);
        table.set(phrase, { value, weight: 2 * phrase.split(' ').length + (strength === 'strong' ? 3 : 0) });
      }
    }
  }
  return table;
}

/** Lower case, without accents, every run of other characters one space. */
export function foldWords(text: string): string {
  return text.toLowerCase().normalize('NFKD').replace(/\p{M}/gu, '').replaceAll('\u00DF', 'ss').replace(/[^\p{L}\p{N}]+/gu, ' ').trim();
}

/** The best meaning of a folded text; null when nothing fits or the best two disagree. */
export function bestWord<T>(folded: string, table: WordTable<T>): T | null {
  const words = folded.split(' ').slice(0, 40);
  let best: Entry<T> | null = null;
  let disputed = false;
  for (let from = 0; from < words.length; from += 1) {
    for (let length = 1; length <= LONGEST_PHRASE && from + length <= words.length; length += 1) {
      const found = lookUp(words.slice(from, from + length).join(' '), table);
      if (found === undefined) continue;
      if (best === null || found.weight > best.weight) [best, disputed] = [found, false];
      else if (found.weight === best.weight && found.value !== best.value) disputed = true;
    }
  }
  return best === null || disputed ? null : best.value;
}

/** A phrase as it stands, or without the s of an English plural. */
function lookUp<T>(phrase: string, table: WordTable<T>): Entry<T> | undefined {
  return table.get(phrase) ?? (phrase.endsWith('s') ? table.get(phrase.slice(0, -1)) : undefined);
}
