import { DAY } from '../calibration.js';
import type { Traffic } from '../api-client.js';
import type { Book } from '../driver/book.js';
import type { DayReport } from '../driver/day.js';
import type { DeskReport } from '../driver/desks.js';
import { NETWORKS } from '../world/region.js';
import { coordinatorReport } from './coordinator.js';

const HOUR_MS = 3_600_000;

/** Everything that is told when the day is over, before the sums. */
export async function afterTheDay(books: readonly Book[], report: DayReport, traffic: Traffic, drill: string | null): Promise<string[]> {
  const now: string[] = [];
  for (const book of books) now.push(...(await coordinatorReport(book, DAY.endsAtMs + 12 * HOUR_MS)), '');
  return ['', '--- 20:00, to the regional meeting ---', ...report.atEight, '--- the second afternoon ---', ...now, '--- how it went ---', ...desks(report.desks), ...work(report), ...requests(traffic, report), ...(drill === null ? [] : [drill]), ''];
}

function desks(reports: readonly DeskReport[]): string[] {
  return reports.map(({ file, rows, accepted, repaired, refused, alreadyThere, mended }) => `intake file ${file}: ${rows} rows, ${accepted} accepted, ${repaired} repaired, ${alreadyThere} already there, ${refused} refused; ${mended} mended and sent again; the same file again created nothing`);
}

function work({ tally }: DayReport): string[] {
  const list = (counts: ReadonlyMap<string, number>) => [...counts].sort(([a], [b]) => (a < b ? -1 : 1)).map(([what, count]) => `${what} ${count}`).join(', ');
  return [`done: ${list(tally.done)}`, ...(tally.refused.size === 0 ? [] : [`refused by the program: ${list(tally.refused)}`, ...tally.firstRefusals().map((text) => `  for instance ${text.slice(0, 240)}`)])];
}

function requests({ requests: sent, sentAgain, replayed }: Traffic, { tally }: DayReport): string[] {
  return [`requests: ${sent}, sent again ${sentAgain}, answered from an earlier sending ${replayed}; waited ${Math.round(tally.waitedForPlansMs / 1_000)} s for plans and ${Math.round(tally.waitedForRoomsMs / 1_000)} s for rooms`];
}

/** Where somebody who is curious goes next. */
export function whereToLook(url: string, books: readonly Book[]): string[] {
  const first = books[0];
  return [
    '--- where to look ---',
    `API ${url}   documentation ${url}/docs   OpenAPI ${url}/openapi.json`,
    ...books.map((book) => `key of ${NETWORKS[book.network].name}: ${book.key}   incident ${book.incidentId}`),
    `curl -s -H "Authorization: Bearer ${first?.key}" "${url}/v1/incidents/${first?.incidentId}/situation-report"`,
    '',
  ];
}
