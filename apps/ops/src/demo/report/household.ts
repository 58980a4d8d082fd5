import type { z } from 'zod';
import type { HouseholdReportBody } from '#contracts';

type HouseholdReport = z.output<typeof HouseholdReportBody>;

/** The answer to somebody on the phone who asks for one thing: what may be said of it, in the program's own words. */
export function answerOnThePhone(report: HouseholdReport, object: string): string[] {
  const thing = report.items.find((item) => item.description === object);
  const clock = report.at.slice(11, 16);
  if (!thing) return [`${clock}  The grandmother of ${report.code} phones: the program knows nothing of "${object}".`];
  return [
    `${clock}  The grandmother of ${report.code} phones: is the wedding quilt alive?`,
    `       ${thing.tag}, ${thing.description}: ${thing.inWords}${thing.asksYou ? ' We need a decision from you.' : ''}`,
    `       ${report.standing}`,
  ];
}
