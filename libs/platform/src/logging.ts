import { pino, type Logger } from 'pino';

export type { Logger };

/** JSON lines on standard output. Bodies, keys and personal data are never logged; ids are. */
export function createLogger(name: string, level: string): Logger {
  return pino({ name, level, base: { pid: process.pid }, redact: ['authorization', 'headers.authorization', 'req.headers.authorization'] });
}
