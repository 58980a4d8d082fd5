/**
 * An owner takes back a yes while something is being done. What is under way is not undone; the thing stops where stopping harms it least, and a
 * trained lead looks at it with the family's word. That it must not lie folded wet or be left to dry slowly while folded is published (Salvage at a
 * Glance V: Textiles, Conserve O Gram 21/8, NPS, 2003; Textiles and Clothing, Minnesota Historical Society); where to stop is our own calibration.
 */
import { say, type Message, type StepKind } from '#care';
import type { Stage } from '#custody';
import type { ConsentScope } from '../ports/consent-store.js';

export interface SafeStop {
  /** What was under way. */
  step: StepKind;
  /** For the trained lead. */
  advice: Message;
}

const IN_BATH = say('The owner has taken back the yes while this was in the bath. Finish lifting it out and begin no other bath. Keep it as wet as it is, cool, covered and apart from other things, laid open so that no colour lies folded against another. A trained lead looks at it now and decides how long it can stay so; somebody speaks with the family. Nothing else is done to it meanwhile.');
const AT_THE_TABLE = say('The owner has taken back the yes while this was being worked on. Put the towel or brush down, lay it flat on its support, cover it with a clean cloth and keep it cool and apart from other things. A trained lead looks at it now and decides how long it can stay so; somebody speaks with the family. Nothing else is done to it meanwhile.');
const DRYING = say('The owner has taken back the yes while this hangs to dry. Leave it where it dries: taken down wet it could suffer more, and mould begins in what stays wet. Do nothing else with it. A trained lead looks at it, and somebody speaks with the family.');
const FROZEN = say('The owner has taken back the yes to freezing, and this lies frozen. Leave it so until a trained lead has spoken with the family: once thawed its time runs again, and it cannot simply be frozen a second time.');
const AWAY = say('The owner has taken back the yes to a specialist, and this is with one. Ask the specialist today to begin nothing more and to keep it as safely as it is. A trained lead speaks with the family about what comes next.');

const BATHS: ReadonlySet<StepKind> = new Set(['rinse', 'stabilise']);
const TABLE: ReadonlySet<StepKind> = new Set(['blot', 'surface-clean', 'dry']);

/** Where it stops; null when nothing was under way that the scope is about, so that the new word needs no stop. */
export function safeStop(item: { stage: Stage; nextStep: StepKind | null }, scope: ConsentScope): SafeStop | null {
  if (scope === 'freeze') return item.stage === 'held-frozen' ? { step: 'freeze', advice: FROZEN } : null;
  if (scope === 'refer') return item.stage === 'referred-out' ? { step: 'refer', advice: AWAY } : null;
  if (scope !== 'treat') return null;
  if (item.stage === 'drying') return { step: 'dry', advice: DRYING };
  if (item.stage !== 'in-work' || item.nextStep === null) return null;
  if (BATHS.has(item.nextStep)) return { step: item.nextStep, advice: IN_BATH };
  return TABLE.has(item.nextStep) ? { step: item.nextStep, advice: AT_THE_TABLE } : null;
}
