/**
 * What several rules say of one thing, put together for the person who reads it: gloves of several kinds in one line, and no
 * prohibition beside a stricter one. Stored results keep every word of every rule; this is done when they are read out.
 */
import type { TriageOutcome } from '../triage.js';
import type { CareStep, DispositionOption, Statement } from '../types.js';
import { say } from './message.js';
import type { Message } from './message.js';

/** Gloves of the rule book by what they are for. What is not named here is left as it stands. */
const GLOVES: Readonly<Record<string, 'nitrile' | 'rubber' | 'waterproof' | 'cut' | 'any'>> = {
  'powder-free nitrile gloves': 'nitrile', 'nitrile gloves': 'nitrile', 'waterproof rubber gloves': 'rubber', 'waterproof gloves': 'waterproof', 'nitrile or other waterproof gloves': 'waterproof',
  'cut-resistant gloves under the waterproof ones': 'cut', gloves: 'any',
};

/** One line of gloves by what is asked for; the outermost stands last. Never less than any of the kinds asks for: common practice, the words are ours. */
function gloveLine(kinds: ReadonlySet<string>): Message {
  const [nitrile, rubber, cut] = [kinds.has('nitrile'), kinds.has('rubber'), kinds.has('cut')];
  if (nitrile && cut) return rubber ? say('powder-free nitrile gloves, cut-resistant gloves over them against sharps, and waterproof rubber gloves outermost') : say('powder-free nitrile gloves, cut-resistant gloves over them against sharps, and waterproof gloves outermost');
  if (cut) return rubber ? say('cut-resistant gloves against sharps, with waterproof rubber gloves over them') : say('cut-resistant gloves against sharps, with waterproof gloves over them');
  if (nitrile && rubber) return say('powder-free nitrile gloves, with waterproof rubber gloves over them');
  if (nitrile) return kinds.has('waterproof') ? say('powder-free nitrile gloves that let no water through') : say('powder-free nitrile gloves');
  return rubber ? say('waterproof rubber gloves') : say('waterproof gloves');
}

/** What to wear, with gloves of several kinds in one line and no eye protection named beside goggles, which are that. */
export function wornPlainly(ppe: readonly string[]): string[] {
  const gloves = ppe.filter((piece) => Object.hasOwn(GLOVES, piece));
  const [first] = gloves;
  const line = gloves.length > 1 ? gloveLine(new Set(gloves.map((piece) => GLOVES[piece] ?? 'any'))).text : first;
  return ppe.flatMap((piece) => {
    if (piece === 'eye protection' && ppe.includes('goggles')) return [];
    if (!gloves.includes(piece)) return [piece];
    return piece === first && line !== undefined ? [line] : [];
  });
}

/** A prohibition with the stricter ones that say it as well. Sentences of the rule book. */
const SAID_BY: Readonly<Record<string, readonly string[]>> = {
  'Never touch the image side while it is wet.': ['Never touch the picture side.'],
};

/** Prohibitions, each said once: what a stricter one says beside it is left out. */
export function neverPlainly<S extends Statement>(never: readonly S[]): S[] {
  const said = new Set(never.map(({ text }) => text));
  return never.filter(({ text }) => !(Object.hasOwn(SAID_BY, text) && SAID_BY[text]?.some((stricter) => said.has(stricter))));
}

/** A step with what to wear said plainly. */
export function stepPlainly(step: CareStep): CareStep {
  return { ...step, ppe: wornPlainly(step.ppe) };
}

/** A triage result to read out; its reasons stay whole, so that every rule that spoke is still named. */
export function plainly<T extends TriageOutcome>(result: T): T {
  const told: Pick<TriageOutcome, 'options' | 'never' | 'ppe'> = {
    options: result.options.map((option): DispositionOption => ({ ...option, steps: option.steps.map(stepPlainly) })), never: neverPlainly(result.never), ppe: wornPlainly(result.ppe),
  };
  return { ...result, ...told };
}
