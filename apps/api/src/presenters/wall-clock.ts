import { isTimeZone, timeZoneOffsetMs } from '#application';
import type { Language } from '#care';
import type { PlotClock } from '#climate';

/** How days are written. Month names are those of the region-free language; in English the day stands first, as in the rest of what we write. */
const DAYS_AS_IN: Readonly<Record<Language, string>> = { en: 'en-GB', es: 'es' };

/** The clock on the wall of a network. */
export interface WallClock extends PlotClock {
  zone: string;
  /** `9 May, 14:06`. */
  moment: (atMs: number) => string;
}

/** A zone that the runtime does not know is shown as UTC, and said to be. */
export function wallClock(timeZone: string, language: Language): WallClock {
  const zone = isTimeZone(timeZone) ? timeZone : 'UTC';
  const days = new Intl.DateTimeFormat(DAYS_AS_IN[language], { timeZone: zone, day: 'numeric', month: 'short' });
  const offsetMs = (atMs: number): number => timeZoneOffsetMs(atMs, zone);
  return { zone, offsetMs, day: (atMs) => days.format(atMs), moment: (atMs) => `${days.format(atMs)}, ${new Date(atMs + offsetMs(atMs)).toISOString().slice(11, 16)}` };
}
