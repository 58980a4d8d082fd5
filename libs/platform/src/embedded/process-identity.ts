import { readFile, readlink } from 'node:fs/promises';
import { hostname } from 'node:os';

import { systemErrorCode } from './embedded-postgres.error.js';
import { runChild } from './run-child.js';

/** Enough about a process to know later, across reboots and reused numbers, whether it still lives. */
export interface ProcessIdentity {
  pid: number;
  /** When it started, in the system's own notation; a reused pid has another. */
  startedAt: string;
  hostname: string;
  /** Random id of the running kernel, empty where the system has none. */
  bootId: string;
  /** Which process-number space `pid` belongs to (containers), empty where the system has none. */
  pidNamespace: string;
}

/** What can be said of a recorded process: `elsewhere` cannot be seen from this machine. */
export type Liveness = 'alive' | 'dead' | 'elsewhere';

/** Describes the running process. */
export async function ownIdentity(): Promise<ProcessIdentity> {
  return {
    pid: process.pid,
    startedAt: (await processStart(process.pid)) ?? '',
    hostname: hostname(),
    bootId: (await readFile('/proc/sys/kernel/random/boot_id', 'utf8').catch(() => '')).trim(),
    pidNamespace: await readlink('/proc/self/ns/pid').catch(() => ''),
  };
}

/**
 * Judges a recorded process. Same kernel and number space: by pid and start time. Same host name but
 * another boot, or a restarted container: dead. Any other host name: not ours to judge.
 */
export async function judgeProcess(recorded: ProcessIdentity): Promise<Liveness> {
  const own = await ownIdentity();
  const sameSpace = recorded.bootId === own.bootId && recorded.pidNamespace === own.pidNamespace;
  if (sameSpace && (own.bootId !== '' || recorded.hostname === own.hostname)) {
    const start = await processStart(recorded.pid);
    return start !== null && start === recorded.startedAt ? 'alive' : 'dead';
  }
  return recorded.hostname === own.hostname ? 'dead' : 'elsewhere';
}

/** When a live process started, or null if there is none; a zombie counts as none. */
export async function processStart(pid: number): Promise<string | null> {
  if (process.platform !== 'linux') return startFromPs(pid);
  const stat = await readFile(`/proc/${pid}/stat`, 'utf8').catch(() => null);
  if (stat === null) return null;
  // proc_pid_stat(5): the command name is in parentheses and may hold any character, so count from
  // the last one; state is field 3 and the start time in clock ticks since boot is field 22.
  const fields = stat.slice(stat.lastIndexOf(')') + 2).split(' ');
  const state = fields[0] ?? 'X';
  return state === 'Z' || state === 'X' ? null : (fields[19] ?? null);
}

async function startFromPs(pid: number): Promise<string | null> {
  const { exitCode, output } = await runChild('ps', ['-o', 'lstart=', '-p', String(pid)], { timeoutMs: 5_000 });
  return exitCode === 0 && output.trim() !== '' ? output.trim() : null;
}

/** The folder a process works in; null if the process is gone, hidden from us, or the system cannot tell. */
export async function processCwd(pid: number): Promise<string | null> {
  return readlink(`/proc/${pid}/cwd`).catch(() => null);
}

/** Tells whether a signal could reach the process number, whoever owns it. */
export function pidExists(pid: number): boolean {
  try {
    process.kill(pid, 0);
    return true;
  } catch (error) {
    return systemErrorCode(error) === 'EPERM';
  }
}
