// Proves the optima of the tiny incidents anew (some minutes) and prints `optima.tsv`. Needs an installed clone (`npm ci`).
import { build } from '../../../../apps/ops/build.mjs';

build();
await import('../../../../dist/tests/reference/planning/exact/main.js');
