import { spawn } from 'node:child_process';

import type { ServerUser } from './server-user.js';

const OUTPUT_LIMIT_CHARS = 64 * 1024;

/** How a helper program ended and what it printed (the last 64 Ki characters). */
export interface ChildResult {
  /** Exit status; null when it was killed, also by the time limit. */
  exitCode: number | null;
  output: string;
}

/** Limits for a helper program. */
export interface ChildOptions {
  timeoutMs: number;
  /** Operating-system user to run as; null or absent: ours. */
  user?: ServerUser | null;
  /** Working folder; `/` unless told, since ours may be closed to the server's user. */
  cwd?: string;
}

/**
 * The whole environment of our children: nothing is inherited, so no secret of the application
 * reaches them; LC_ALL=C keeps the messages that we classify in English, TZ keeps the logs in UTC.
 */
export const CHILD_ENV: Readonly<Record<string, string>> = {
  PATH: '/usr/local/sbin:/usr/local/bin:/usr/sbin:/usr/bin:/sbin:/bin',
  LC_ALL: 'C',
  TZ: 'UTC',
};

/** Spawn options that make a child run as the server's user; libuv also drops root's extra groups then. */
export function asUser(user: ServerUser | null | undefined): { uid?: number; gid?: number } {
  return user ? { uid: user.uid, gid: user.gid } : {};
}

/** Keeps the end of a growing text within the limit. */
export function keepTail(text: string, limitChars = OUTPUT_LIMIT_CHARS): string {
  return text.length > limitChars ? text.slice(-limitChars) : text;
}

/**
 * Runs a helper program without a shell to its end. It gets its own session, so that a Ctrl-C meant
 * for us does not cut it off half-way. Rejects only if it cannot be started at all.
 */
export function runChild(command: string, args: readonly string[], options: ChildOptions): Promise<ChildResult> {
  return new Promise((resolve, reject) => {
    const child = spawn(command, args, {
      cwd: options.cwd ?? '/',
      env: { ...CHILD_ENV },
      stdio: ['ignore', 'pipe', 'pipe'],
      detached: true,
      ...asUser(options.user),
    });
    let output = '';
    const collect = (chunk: Buffer): void => {
      output = keepTail(output + chunk.toString('utf8'));
    };
    child.stdout.on('data', collect);
    child.stderr.on('data', collect);
    const timer = setTimeout(() => child.kill('SIGKILL'), options.timeoutMs);
    child.once('error', (error) => {
      clearTimeout(timer);
      reject(error);
    });
    child.once('close', (exitCode) => {
      clearTimeout(timer);
      resolve({ exitCode, output });
    });
  });
}
