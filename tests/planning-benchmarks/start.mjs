// The way in of `npm run bench:planning`: builds what changed, then runs the benchmark. Needs an installed clone (`npm ci`).
import { build } from '../../apps/ops/build.mjs';

build();
await import('../../dist/tests/planning-benchmarks/main.js');
