/**
 * Finds where a function changes sign between two points (after T. R. Chandrupatla, Advances in Engineering Software 28,
 * 1997; own code, from memory): inverse quadratic steps where they are safe, halving otherwise, so that it is quick on smooth
 * functions and still certain at kinks and jumps, such as the branch change of saturation pressure.
 * Returns the end of the final bracket, no wider than about `2 xTolerance`, with the smaller absolute value.
 */
export function bracketedRoot(f: (x: number) => number, low: number, high: number, xTolerance: number, fTolerance = 0): number {
  return rootBetween(f, { x: low, y: f(low) }, { x: high, y: f(high) }, xTolerance, fTolerance);
}

/** The same where the function is known at both points already. */
export function rootBetween(f: (x: number) => number, low: { x: number; y: number }, high: { x: number; y: number }, xTolerance: number, fTolerance = 0): number {
  let { x: a, y: fa } = low;
  let { x: b, y: fb } = high;
  if (fa === 0) return a;
  if (fb === 0) return b;
  if (fa > 0 === fb > 0) throw new Error(`bracketedRoot: no sign change between ${a} and ${b}`);
  let step = 0.5;
  for (let turn = 0; turn < 200; turn += 1) {
    const x = a + step * (b - a);
    const fx = f(x);
    let c = a;
    let fc = fa;
    if (fx > 0 !== fa > 0) {
      c = b;
      fc = fb;
      b = a;
      fb = fa;
    }
    a = x;
    fa = fx;
    const best = Math.abs(fa) < Math.abs(fb) ? a : b;
    const least = (xTolerance + 2 * Number.EPSILON * Math.abs(best)) / Math.abs(b - a);
    if (Math.abs(fa) <= fTolerance || least > 0.5) return best;
    step = Math.min(1 - least, Math.max(least, safeStep(a, fa, b, fb, c, fc)));
  }
  return Math.abs(fa) < Math.abs(fb) ? a : b;
}

/** The inverse quadratic step as a share of the bracket from a to b, or one half where the three points do not allow it. */
function safeStep(a: number, fa: number, b: number, fb: number, c: number, fc: number): number {
  const xi = (a - b) / (c - b);
  const phi = (fa - fb) / (fc - fb);
  if (!(phi * phi < xi && (1 - phi) * (1 - phi) < 1 - xi)) return 0.5;
  return (fa / (fb - fa)) * (fc / (fb - fc)) + ((c - a) / (b - a)) * (fa / (fc - fa)) * (fb / (fc - fb));
}
