import { triageOutcome } from '#care';
import type { TriageOutcome } from '#care';
import { contextAt, FLOOD_AT_MS, HOUR_MS, knownAssessment } from '../../../unit/care/assessment.support.js';
import type { HardCase } from './cases.js';
import { HARD_CASES } from './cases.js';

const INTRODUCTION = `# Twenty-five hard cases

Assessments of our own, with a note in the margin as we think a conservator might write it, beside what the rule book answers.
No conservator has written or checked the notes; they are for a reader to judge both by. Things and people are invented.
This page is written by \`hard-cases.spec.ts\` from \`hard-cases/cases.ts\` and fails when it is out of step: run that test
with \`WRITE_PAGES=1\` and read what changed.
`;

const list = (texts: readonly string[]): string => (texts.length === 0 ? 'nothing' : texts.join(' '));

/** Everything that differs from a sound, tested, clean-water thing whose owner has agreed. */
function told({ observed, hours, airTempC, doneSteps }: HardCase): string {
  const members = Object.entries(observed).map(([name, value]) => `${name}: ${JSON.stringify(value)}`);
  const air = airTempC === undefined ? [] : [`air ${airTempC} C`];
  const done = doneSteps === undefined ? [] : [`done: ${doneSteps.join(', ')}`];
  return [`hour ${hours} of the flood`, ...air, ...done, ...members].join('; ');
}

function ways({ options }: TriageOutcome): string[] {
  return options.map(({ disposition, needs, steps }, index) => {
    const missing = needs.length === 0 ? '' : ` (needs: ${needs.join('; ')})`;
    return `${index + 1}. ${disposition}${missing}: ${steps.map(({ step }) => step).join(', ')}`;
  });
}

function why({ binding, reasons }: TriageOutcome): string {
  if (binding !== null) return `because of ${binding}`;
  return reasons.some(({ ruleId }) => ruleId === 'hazard.stop-and-isolate') ? 'because it can hurt people' : 'with no damage to be expected before';
}

function section(hard: HardCase, index: number): string {
  const outcome = triageOutcome(knownAssessment({ fibre: 'unknown', ...hard.observed }), contextAt(hard.hours, { airTempC: hard.airTempC ?? 21, doneSteps: hard.doneSteps }));
  const startHours = Math.round(((outcome.startByMs - FLOOD_AT_MS) / HOUR_MS) * 10) / 10;
  const marks = outcome.reasons.filter(({ source }) => source.mark !== 'published').length;
  return [
    `## ${index + 1}. ${hard.title}`,
    `Observed: ${told(hard)}.`,
    `**Note.** ${hard.note}`,
    `**Rule book.** ${outcome.urgency}; to be begun by hour ${startHours}, ${why(outcome)}; treated as ${outcome.treatedAs}; bath: ${outcome.bathGroup ?? 'alone or none'}.`,
    ways(outcome).join('\n'),
    `Refer: ${list(outcome.referral.map(({ text }) => text))}`,
    `Never: ${list(outcome.never.map(({ text }) => text))}`,
    `Apart from: ${list(outcome.apartFrom.map(({ place, text }) => `(${place}) ${text}`))}`,
    `Wear: ${outcome.ppe.join(', ') || 'nothing'}.`,
    `Rests on ${outcome.reasons.length} rules, ${marks} of them without a published source.`,
  ].join('\n\n');
}

/** The page as it must stand in the folder. */
export function hardCasesPage(): string {
  return `${[INTRODUCTION.trimEnd(), ...HARD_CASES.map(section)].join('\n\n')}\n`;
}
