import { fork } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import type { FileChecker, FileVerdict } from '#application';
import { type CheckAnswer, type CheckTask, READY } from './check-words.js';

export interface ChildCheckerOptions {
  /** A file that takes longer is refused; the start of the process does not count. */
  timeoutMs?: number;
  /** Memory of the whole child; a file that wants more is refused. A picture of 40 million pixels needs about half of it. */
  memoryMb?: number;
  /** Ends what is looked at when the process will not wait; the rows come again. */
  signal?: AbortSignal;
  /** Told after every file. */
  onPeak?(peakMb: number): void;
}

/** All our own calibration. A process that does not even start says nothing of its file: it is tried again. */
const TIMEOUT_MS = 30_000;
const START_MS = 120_000;
const MEMORY_MB = 700;
/** How the child says that it grew too large, and how the system says that it took it away for that. */
const TOO_LARGE = 137;

/** Looks into each file in a process of its own, which gets nothing of our environment, and is gone afterwards whatever the file did to it. */
export function childChecker(options: ChildCheckerOptions = {}): FileChecker {
  return { check: (kind, bytes) => inChild({ kind, bytes, memoryMb: options.memoryMb ?? MEMORY_MB }, options) };
}

function inChild(task: CheckTask, { timeoutMs = TIMEOUT_MS, signal, onPeak }: ChildCheckerOptions): Promise<FileVerdict> {
  signal?.throwIfAborted();
  return new Promise((resolve, reject) => {
    const child = fork(fileURLToPath(new URL('./check.child.js', import.meta.url)), [], { env: {}, execArgv: ['--max-old-space-size=256'], serialization: 'advanced', stdio: ['ignore', 'ignore', 'ignore', 'ipc'] });
    let late = false;
    let timer: NodeJS.Timeout;
    const end = (settle: () => void) => {
      clearTimeout(timer);
      signal?.removeEventListener('abort', stopped);
      child.removeAllListeners();
      child.kill('SIGKILL');
      settle();
    };
    const begin = () => {
      clearTimeout(timer);
      timer = setTimeout(() => {
        late = true;
        child.kill('SIGKILL');
      }, timeoutMs);
      child.send(task, (error) => {
        if (error) end(() => reject(error));
      });
    };
    timer = setTimeout(() => end(() => reject(new Error(`the check of a file did not start within ${START_MS} ms`))), START_MS);
    const stopped = () => end(() => reject(signal?.reason as Error));
    signal?.addEventListener('abort', stopped);
    child.on('message', (said: CheckAnswer | typeof READY) => {
      if (said === READY) return begin();
      onPeak?.(said.peakMb);
      const { verdict } = said;
      end(() => (verdict === null ? reject(new Error('the check of a file did not come to an end')) : resolve(verdict)));
    });
    child.once('error', (error) => end(() => reject(error)));
    child.once('exit', (code, killedBy) => end(() => resolveLost({ late, code, killedBy }, resolve, reject)));
  });
}

/** A child that ended without a word: too slow, too large, or crashed by what it was given. SIGKILL by anybody else than us is the system that ran out of memory, or somebody's hand. */
function resolveLost({ late, code, killedBy }: { late: boolean; code: number | null; killedBy: string | null }, resolve: (verdict: FileVerdict) => void, reject: (error: Error) => void): void {
  if (late || code === TOO_LARGE || killedBy === 'SIGABRT') return resolve({ refusal: 'too-costly' });
  if (killedBy === 'SIGSEGV' || killedBy === 'SIGBUS') return resolve({ refusal: 'broken' });
  reject(new Error(`the check of a file ended with ${killedBy ?? code ?? 'nothing'}`));
}
