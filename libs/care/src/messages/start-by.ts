/** The moment by which handling must start, as said to who reads it now. */
import { say } from './message.js';
import type { Message } from './message.js';

/** A stretch of time as people say it: minutes below two hours, hours below three days, then days; never 0. */
export function stretchInWords(ms: number): Message {
  const minutes = Math.max(1, Math.round(ms / 60_000));
  if (minutes < 120) return say('{minutes, plural, one {# minute} other {# minutes}}', { minutes });
  if (minutes < 72 * 60) return say('{hours, plural, one {# hour} other {# hours}}', { hours: Math.round(minutes / 60) });
  return say('{days, plural, one {# day} other {# days}}', { days: Math.round(minutes / 1440) });
}

/** Whether the moment has passed. At the moment itself it is late. */
export function isLate(startByMs: number, nowMs: number): boolean {
  return startByMs <= nowMs;
}

/** When to start, seen from now. A moment that has passed is called late: a time in the past reads like one that was kept. */
export function startByInWords(startByMs: number, nowMs: number): Message {
  const stretch = stretchInWords(Math.abs(startByMs - nowMs));
  return isLate(startByMs, nowMs) ? say('The moment to start passed {stretch} ago: begin now.', { stretch }) : say('Start within {stretch}.', { stretch });
}
