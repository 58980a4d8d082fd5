import { describe, expect, test } from '@jest/globals';
import { projectFiles, read } from './files.js';

const BINARY = /\.(png|jpe?g|pdf|woff2?|ico|gz|zip)$/;
const files = projectFiles().filter((path) => !BINARY.test(path));
const texts = files.map((path) => [path, read(path)] as const);
const holding = (pattern: RegExp, exempt: (path: string) => boolean = () => false) => texts.filter(([path, text]) => !exempt(path) && pattern.test(text)).map(([path]) => path);

/** Spelled in pieces, so that this file does not find itself. */
const either = (...words: string[][]) => new RegExp(words.map((pieces) => pieces.join('')).join('|'));

describe('no file of the project', () => {
  test('holds the path of a machine', () => {
    expect(holding(either(['/wo', 'rk/(main|shared)'], ['/ho', 'me/[a-z]'], ['/Us', 'ers/[A-Za-z]'], ['/ro', 'ot/'], ['[A-Z]:\\\\{1,2}Us', 'ers\\\\']))).toEqual([]);
  });

  test('holds the host of a package registry or mirror', () => {
    expect(holding(either(['registry\\.', 'npmjs'], ['registry\\.', 'yarnpkg'], ['npm\\.', 'pkg\\.'], ['artifact', 'ory'], ['verd', 'accio'], ['"reso', 'lved": "http'], ['_auth', 'Token']))).toEqual([]);
  });

  test('holds a private key or a live API key of ours', () => {
    expect(holding(either(['-----BEGIN [A-Z ]*PRIV', 'ATE KEY']))).toEqual([]);
    // The form of `makeApiKey`: eight characters, then the secret in base 32 with digits and letters mixed.
    const live = /\bwk_[0-9a-z]{8}_(?=[0-9A-Za-z]*[0-9])(?=[0-9A-Za-z]*[A-Za-z])[0-9A-Za-z]{40,}/;
    expect(holding(live)).toEqual([]);
  });

  test('leaves something for later: no skipped or focused test, no switched-off check', () => {
    const code = /\.(m?ts|mjs)$/;
    expect(holding(either(['\\b(test|describe|it)\\.sk', 'ip\\b'], ['\\b(test|describe|it)\\.on', 'ly\\b'], ['@ts-ig', 'nore'], ['@ts-noch', 'eck'], ['\\bas a', 'ny\\b'], ['TO', 'DO\\b'], ['FIX', 'ME\\b']), (path) => !code.test(path) || path.includes('/generated/'))).toEqual([]);
  });
});

test('every migration is a folder of its own with a time and a name', () => {
  const migrations = files.filter((path) => path.startsWith('prisma/migrations/'));
  expect(migrations.length).toBeGreaterThan(0);
  expect(migrations.filter((path) => !/^prisma\/migrations\/(\d{14}_[a-z0-9_]+\/migration\.sql|migration_lock\.toml)$/.test(path))).toEqual([]);
});
