import type { CareStep, Disposition, StepKind, Urgency, Zone } from '#care';
import type { ItemRecord } from '../ports/item-store.js';
import type { PlaceRecord } from '../ports/place-store.js';
import type { StepOutcome } from '../ports/step-store.js';

export const WAY_WORDS: Readonly<Record<Disposition, string>> = {
  treat: 'to treat it here', 'hold-frozen': 'to hold it frozen', 'hold-wet': 'to hold it wet', refer: 'to refer it to a specialist', release: 'to let it go',
};
const ZONE_WORDS: Readonly<Record<Zone, string>> = { dirty: 'on the dirty side', clean: 'on the clean side', quarantine: 'in quarantine', cold: 'at the freezers' };
const URGENCY_WORDS: Readonly<Record<Urgency, string>> = { immediate: 'at once', 'within-a-day': 'within a day', 'within-two-days': 'within two days', 'can-wait': 'it can wait' };

const OUTCOME_WORDS: Readonly<Record<StepOutcome, string>> = {
  done: 'is done',
  failed: 'failed and may be tried again',
  'dye-moved': 'stopped because dye moved: it counts as bleeding from now on',
  'mould-found': 'stopped because mould was found: it counts as active mould from now on',
  'owner-must-decide': 'stopped until the owner has decided',
};

/** What a report changed, in sentences for the person at the station. */
export function tellChanges(before: ItemRecord, after: ItemRecord, report: { step: StepKind; outcome: StepOutcome; next: CareStep | null; place: PlaceRecord | null; planRequested: boolean }): string[] {
  const told = [`The step ${report.step} ${OUTCOME_WORDS[report.outcome]}.`];
  if (after.disposition !== null && after.disposition !== before.disposition) told.push(`The way is now ${WAY_WORDS[after.disposition]}.`);
  if (after.urgency !== null && after.urgency !== before.urgency) told.push(`Handling must start: ${URGENCY_WORDS[after.urgency]}.`);
  if (after.waitingForOwner && !before.waitingForOwner) told.push('It waits for the owner to decide.');
  if (report.place) told.push(`It is on record at ${report.place.name || report.place.code}${report.place.zone ? `, ${ZONE_WORDS[report.place.zone]}` : ''}.`);
  if (report.next) told.push(`Next comes ${report.next.step}, ${ZONE_WORDS[report.next.zone]}.`);
  else told.push(after.nextStep ? `Next comes ${after.nextStep}.` : 'Nothing more is to be done on this way.');
  if (report.planRequested) told.push('A new plan is asked for.');
  return told;
}
