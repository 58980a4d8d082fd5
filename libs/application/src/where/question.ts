/** What somebody asks who looks for a thing: a tag, a household code, words of its description, a day. */
import { isTagFault, nearestPlausible, parseTagCode } from '#custody';

/** Words of a question that are looked for; more would make nothing clearer. Own choice. */
export const QUESTION_WORDS = 8;

export interface Question {
  /** The tag, when it is one. */
  tag: string | null;
  /** Tags one slip away from what was typed, when it is none. */
  nearest: string[];
  /** As a household's code may have been written. */
  householdCodes: string[];
  /** Each as `2026-05-08` and as it stands in names of photographs, `20260508`. */
  days: [string, string][];
  /** The rest, still to be divided into words. */
  rest: string;
}

const DAY = /(?<!\d)(?:(\d{4})-(\d{2})-(\d{2})|(\d{1,2})\.(\d{1,2})\.(\d{4}))(?!\d)/g;

/** Reads a question. Days are taken as 2026-05-08 or 8.5.2026. */
export function readQuestion(asked: string): Question {
  const typed = asked.trim();
  const parsed = parseTagCode(typed);
  const isTag = !isTagFault(parsed);
  const days: [string, string][] = [];
  const rest = typed.replace(DAY, (whole, year?: string, month?: string, day?: string, day2?: string, month2?: string, year2?: string) => {
    const iso = [year ?? year2 ?? '', (month ?? month2 ?? '').padStart(2, '0'), (day ?? day2 ?? '').padStart(2, '0')].join('-');
    if (!isDay(iso)) return whole;
    days.push([iso, iso.replaceAll('-', '')]);
    return ' ';
  });
  return { tag: isTag ? parsed.code : null, nearest: isTag ? [] : nearestPlausible(typed, null), householdCodes: [...new Set([typed, typed.toUpperCase()])], days, rest };
}

function isDay(iso: string): boolean {
  const ms = Date.parse(`${iso}T00:00:00Z`);
  return Number.isFinite(ms) && new Date(ms).toISOString().startsWith(iso);
}
