/** What a release once said it says for ever: triage results, receipts and decisions refer to it by its name. */
import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from '@jest/globals';
import { buildBook, choicesOf, MATERIAL_CLASSES, NEWEST_RELEASE, RELEASES, type MaterialClass, type ReleaseName } from '#care';
import { projectRoot } from '#platform';
import { fingerprintsOf, type Fingerprints, type Side } from './releases/golden.js';

const fileOf = (release: ReleaseName): string => join(projectRoot(), 'tests', 'reference', 'care', 'releases', `${release}.json`);

function fingerprints(release: ReleaseName, materials: readonly MaterialClass[]): Fingerprints {
  const sides = choicesOf(release).flatMap((choice) => choice.options.map(({ id, text, source }): Side => ({
    name: `${choice.id}=${id}`, told: [choice.text, choice.floor, choice.default, text, source], book: choice.floor ? null : buildBook({ release, choices: { [choice.id]: id } }),
  })));
  return fingerprintsOf(release, buildBook({ release }), materials, sides);
}

/**
 * The newest release is still being written until it is given to networks: then its fingerprints are taken anew with
 * WRITE_RELEASE=1. Those of a release that has another behind it are never taken again.
 */
if (process.env['WRITE_RELEASE'] === '1') writeFileSync(fileOf(NEWEST_RELEASE), `${JSON.stringify(fingerprints(NEWEST_RELEASE, MATERIAL_CLASSES), null, 2)}\n`);

function kept(release: ReleaseName): Fingerprints {
  const file = fileOf(release);
  if (!existsSync(file)) throw new Error(`no fingerprints of release ${release} are kept`);
  return JSON.parse(readFileSync(file, 'utf8')) as Fingerprints;
}

describe.each(RELEASES)('release %s', (release) => {
  test('says today what it said when its fingerprints were taken: rule by rule, material by material, side by side', () => {
    const before = kept(release);
    // A material that came later was no part of it.
    const now = fingerprints(release, MATERIAL_CLASSES.filter((materialClass) => Object.hasOwn(before.outcomes, materialClass)));
    expect(now).toEqual(before);
    expect([Object.keys(before.rules).length, Object.keys(before.outcomes).length, Object.keys(before.choices).length].map((count) => count > 40)).toEqual([true, true, true]);
  });

  test('keeps its rules in their order, which is the order in which they are read', () => {
    expect(buildBook({ release }).rules.map(({ id }) => id)).toEqual(Object.keys(kept(release).rules));
  });
});

test('a changed word in an old release would be seen', () => {
  const book = buildBook({ release: RELEASES[0] });
  const [first, ...others] = book.rules;
  if (first === undefined) throw new Error('a book without rules');
  const changed = fingerprintsOf(RELEASES[0], { ...book, rules: [{ ...first, text: `${first.text} ` }, ...others] }, [], []);
  expect(changed.rules[first.id]).not.toBe(kept(RELEASES[0]).rules[first.id]);
});
