/** Who may share a rinse bath. */
import type { Findings } from './conclusions.js';
import type { Facts } from './facts.js';
import type { Assessment, DispositionOption } from './types.js';

/** Words that, alone, name an undyed or white cloth. Anything else counts as coloured. */
const WHITES: ReadonlySet<string> = new Set(['white', 'off-white', 'cream', 'ecru', 'natural', 'undyed', 'unbleached', 'ivory']);

function shade(assessment: Assessment): 'white' | 'coloured' {
  const tested = assessment.colourTests.map((test) => test.colour.trim().toLowerCase());
  return tested.length > 0 && tested.every((colour) => WHITES.has(colour)) ? 'white' : 'coloured';
}

/** Wool and silk want cool, still water; the others stand a flow. */
function handling(assessment: Assessment, facts: Facts): 'delicate' | 'plain' {
  const delicateClass = facts.handledAs === 'textile-silk' || facts.handledAs === 'textile-wool';
  return delicateClass || (assessment.fibre !== 'cotton' && assessment.fibre !== 'linen') ? 'delicate' : 'plain';
}

/**
 * Key of the things that may share a bath, or `null` for alone. Whites stay apart from colours (G. Tieu, The
 * Conservation Center, on the Czech & Slovak Museum flood); the split by family, water and delicacy is ours.
 */
export function bathGroupOf(findings: Findings, assessment: Assessment, facts: Facts, options: readonly DispositionOption[]): string | null {
  const rinsed = options.some((option) => option.disposition === 'treat' && option.steps.some(({ step }) => step === 'rinse'));
  if (!rinsed || findings.drawn['bath-alone'].length > 0) return null;
  const kind = facts.family === 'textile' ? `textile-${handling(assessment, facts)}-${shade(assessment)}` : facts.handledAs;
  return `${kind}/${facts.water}-water`;
}
