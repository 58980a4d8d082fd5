/** Reads a set in the format of the shared benchmarks: `instances.jsonl`, and `expected.tsv` where there is one. */
import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Expected } from './adapter.js';
import { UsageError } from './options.js';

export interface Row { name: string; instance: unknown; expected: Expected }

/**
 * @param data the folder of the set, or the folder that holds it under its name
 * @throws UsageError when there is no such set, or an instance has no expected row although the file is there
 */
export function readSet(set: string, data: string): Row[] {
  const folder = [join(data, set), data].find((path) => existsSync(join(path, 'instances.jsonl')));
  if (!folder) throw new UsageError(`There is no instances.jsonl in ${join(data, set)} nor in ${data}.`);
  const expected = readExpected(join(folder, 'expected.tsv'));
  return lines(join(folder, 'instances.jsonl')).map((line) => {
    const instance = JSON.parse(line) as { name: string };
    const row = expected === null ? {} : expected.get(instance.name);
    if (!row) throw new UsageError(`${join(folder, 'expected.tsv')} has no row for ${instance.name}.`);
    return { name: instance.name, instance, expected: row };
  });
}

function readExpected(path: string): Map<string, Expected> | null {
  if (!existsSync(path)) return null;
  const [header = '', ...rows] = lines(path);
  const columns = header.split('\t');
  return new Map(rows.map((row) => {
    const cells = row.split('\t');
    return [cells[0] ?? '', Object.fromEntries(columns.map((column, i) => [column, cells[i] ?? '']))];
  }));
}

function lines(path: string): string[] {
  return readFileSync(path, 'utf8').split(/\r?\n/).filter((line) => line !== '');
}
