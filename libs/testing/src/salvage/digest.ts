/** One spelling of plain data, and its hash. */
import { createHash } from 'node:crypto';
import type { PlanProblem } from '#planning';

/** JSON with members in the order of their names and none left out but undefined ones: equal data has equal text. */
export function canonicalJson(value: unknown, known?: WeakMap<object, string>): string {
  if (value === null || typeof value !== 'object') return JSON.stringify(value);
  const before = known?.get(value);
  if (before !== undefined) return before;
  const isStep = 'durationSlots' in value;
  const text = Array.isArray(value)
    ? `[${value.map((entry) => canonicalJson(entry, known)).join(',')}]`
    : `{${Object.entries(value).filter(([, member]) => member !== undefined).sort(([a], [b]) => (a < b ? -1 : 1)).map(([name, member]) => `${JSON.stringify(name)}:${canonicalJson(member, known)}`).join(',')}}`;
  // Steps are the bulk and few of them differ.
  if (isStep) known?.set(value, text);
  return text;
}

const ENTRIES_AT_ONCE = 64;

/** SHA-256, in hexadecimal, of the canonical JSON of a problem; item by item, as a large one is longer than a string may be. */
export function digestOf(problem: PlanProblem): string {
  const known = new WeakMap<object, string>();
  const hash = createHash('sha256');
  for (const name of Object.keys(problem).sort() as (keyof PlanProblem)[]) {
    const member = problem[name];
    if (member === undefined) continue;
    hash.update(`${JSON.stringify(name)}:`);
    const entries: unknown[] = Array.isArray(member) ? member : [member];
    for (let from = 0; from < entries.length; from += ENTRIES_AT_ONCE) hash.update(entries.slice(from, from + ENTRIES_AT_ONCE).map((entry) => canonicalJson(entry, known)).join());
  }
  return hash.digest('hex');
}
