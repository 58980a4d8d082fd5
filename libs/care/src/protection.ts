/** What the protection that a step asks for means for the body inside it: the fit of a respirator, the heat of the clothing, the effort. */
import type { StepKind } from './types.js';

/**
 * How a step protects the breath.
 * `none`; `offered`: a filtering mask as a precaution that the wearer chooses; `dust`: a filtering mask (N95) that the step asks
 * for; `tight`: a tight-fitting respirator; `vapour`: the same against vapour, which a filtering mask does not hold back.
 */
export const BREATHING_PROTECTION = ['none', 'offered', 'dust', 'tight', 'vapour'] as const;
export type BreathingProtection = (typeof BREATHING_PROTECTION)[number];

/** The strictest protection of the breath among the pieces of equipment of a step, as the rule book words them. */
export function breathingProtectionOf(ppe: readonly string[]): BreathingProtection {
  const kinds = ppe.map(breathingKind);
  return BREATHING_PROTECTION.findLast((kind) => kinds.includes(kind)) ?? 'none';
}

function breathingKind(piece: string): BreathingProtection {
  if (!/respirator|\bN95\b|\bP100\b/i.test(piece)) return 'none';
  if (/vapour/i.test(piece)) return 'vapour';
  if (/cartridge|full[- ]face|fit-tested|P100/i.test(piece)) return 'tight';
  return /\buntil\b|\bvoluntary\b/i.test(piece) ? 'offered' : 'dust';
}

/** Clothing by how it holds heat: ordinary work clothes, a layer of plastic film, a suit that lets no vapour through. */
export const WORK_CLOTHING = ['work-clothes', 'film-coverall', 'vapour-barrier'] as const;
export type WorkClothing = (typeof WORK_CLOTHING)[number];

/**
 * The warmest clothing among the equipment of a step. Gloves, boots and goggles count as work clothes; an apron or gown counts
 * as a layer of film, although it covers less: our own, on the cautious side.
 */
export function clothingOf(ppe: readonly string[]): WorkClothing {
  if (ppe.some((piece) => /vapour[- ]barrier|impermeable|encapsulat/i.test(piece))) return 'vapour-barrier';
  return ppe.some((piece) => /coverall|apron|gown/i.test(piece)) ? 'film-coverall' : 'work-clothes';
}

export const EFFORTS = ['light', 'moderate', 'heavy'] as const;
/** Light is sorting and recording, moderate is rinsing and carrying what is light, heavy is hauling wet textiles. */
export type Effort = (typeof EFFORTS)[number];

const LIGHT: ReadonlySet<StepKind> = new Set(['tag', 'photograph', 'assess', 'colour-test', 'check', 'refer', 'release', 'hand-back']);

/**
 * Effort of a step. The three examples are from memory (care guidance section 3c, after NIOSH 2016-106); sorting our steps by
 * them, and calling heavy what one person should not lift alone, is our own.
 */
export function effortOf(step: StepKind, tooHeavyForOne: boolean): Effort {
  if (LIGHT.has(step)) return 'light';
  return tooHeavyForOne ? 'heavy' : 'moderate';
}

const LOOKS_ONLY: ReadonlySet<StepKind> = new Set(['tag', 'photograph', 'assess', 'colour-test', 'refer', 'release', 'hand-back']);

/** True for steps in which the thing is picked up and carried; the others are done where it lies. Our own. */
export function isLifted(step: StepKind): boolean {
  return !LOOKS_ONLY.has(step);
}
