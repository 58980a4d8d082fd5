import { type DestinationStream, pino, type Logger } from 'pino';

export type { Logger };

/** JSON lines on standard output, or where told. Bodies, keys and personal data are never logged; ids are. */
export function createLogger(name: string, level: string, destination?: DestinationStream): Logger {
  const options = { name, level, base: { pid: process.pid }, redact: ['authorization', 'headers.authorization', 'req.headers.authorization'] };
  return destination === undefined ? pino(options) : pino(options, destination);
}
