/** Containers in containers: what may be put into what. Pure: who knows the containers says what lies in what. */
import type { Keeper } from './types.js';

/**
 * Containers in one another at most, the outermost counted: a box in a crate in a tub in a freezer bag is 4. Our own calibration: more is
 * not unpacked in the order in which it is needed, and nobody finds the wet thing in the middle.
 */
export const NESTING_DEPTH = 4;

export interface NestingFault {
  code: 'in_itself' | 'too_deep';
  /** One sentence that helps. */
  text: string;
}

/**
 * Why a container cannot be put there, or null. A place that is no container is always free of such faults.
 * @param containerId the container that is put somewhere; what lies in it comes along.
 * @param to its keeper to be.
 * @param ancestorsOf the containers in which a container lies, from the one next to it outwards; empty when it lies in none.
 * @param levelsInside how many levels of containers lie inside the one that is put there; 0 when there is none.
 */
export function nestingFault(containerId: string, to: Keeper, ancestorsOf: (containerId: string) => readonly string[], levelsInside = 0): NestingFault | null {
  if (to.kind !== 'container') return null;
  if (to.id === containerId) return { code: 'in_itself', text: 'A container cannot be put into itself. Name the one into which it goes.' };
  const around = [to.id, ...ancestorsOf(to.id)];
  if (around.includes(containerId)) return { code: 'in_itself', text: 'That container lies inside this one, directly or through others, so this one cannot go into it. Take it out first.' };
  if (around.length + 1 + levelsInside <= NESTING_DEPTH) return null;
  return { code: 'too_deep', text: `Then ${around.length + 1 + levelsInside} containers would lie in one another, and at most ${NESTING_DEPTH} may. Put it beside the other container, or unpack one first.` };
}
