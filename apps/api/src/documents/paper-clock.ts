import type { Language } from '#care';
import { wallClock } from '../presenters/wall-clock.js';

/** Day and time as the clock on the wall of the network shows them: `9 May 2026, 14:06`. The paper names the zone once. */
export function clockOf(timeZone: string, language: Language): { zone: string; moment: (atMs: number) => string; day: (atMs: number) => string } {
  const { zone } = wallClock(timeZone, language);
  const days = new Intl.DateTimeFormat(language === 'es' ? 'es' : 'en-GB', { timeZone: zone, day: 'numeric', month: 'long', year: 'numeric' });
  const hours = new Intl.DateTimeFormat('en-GB', { timeZone: zone, hour: '2-digit', minute: '2-digit', hourCycle: 'h23' });
  return { zone, day: (atMs) => days.format(atMs), moment: (atMs) => `${days.format(atMs)}, ${hours.format(atMs)}` };
}
