/** What must not lie together, as the planner takes it: things in classes that are alike in all that the rules about company ask. */
import { companyFaults, companyKeyOf, type Closeness, type Companion } from '#care';
import type { PlanCompany, PlanDryingPlace } from '#planning';
import type { InputItem, InputPlace } from '../ports/plan-input.js';

const CLOSENESSES = ['tiers', 'side-by-side', 'frozen'] as const satisfies readonly Closeness[];

/** Gathers the classes that come up while a problem is made. */
export class Companies {
  private readonly found = new Map<string, Companion>();

  /**
   * The class of a thing while it lies somewhere, by its latest triage and what has been done to it by then, here or on its way; undefined
   * for one of which nothing is known, as no rule can be asked of it.
   */
  of({ company, doneSteps }: Pick<InputItem, 'company' | 'doneSteps'>, before: readonly { step: string }[] = []): string | undefined {
    if (company === undefined) return undefined;
    const isDone = (kind: 'rinse' | 'wrap'): boolean => doneSteps.includes(kind) || before.some(({ step }) => step === kind);
    const thing: Companion = { ...company, rinsed: isDone('rinse'), sealed: isDone('wrap') };
    const key = companyKeyOf(thing);
    if (!this.found.has(key)) this.found.set(key, thing);
    return key;
  }

  /** All of them with what each keeps away, in the order of their names. */
  list(): PlanCompany[] {
    const all = [...this.found].sort(([a], [b]) => (a < b ? -1 : 1));
    return all.map(([id, thing]) => ({
      id,
      notWith: Object.fromEntries(CLOSENESSES.flatMap((closeness) => {
        const others = all.filter(([, other]) => companyFaults(thing, [other], closeness).length > 0).map(([otherId]) => otherId);
        return others.length === 0 ? [] : [[closeness, others]];
      })),
    }));
  }
}

/** On a rack water drips from one thing onto another; elsewhere each has area of its own. As `custody/company.ts` has it. */
export function closenessOf({ arrangement }: Pick<InputPlace, 'arrangement'>): NonNullable<PlanDryingPlace['closeness']> {
  return arrangement === 'rack' ? 'tiers' : 'side-by-side';
}
