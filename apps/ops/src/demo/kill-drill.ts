import { setTimeout as pause } from 'node:timers/promises';
import type { KeptProcess, RunningProcesses } from '../processes.js';

/** Kills come while commands are under way: so long after the step has begun, in real milliseconds. */
const INTO_THE_STEP_MS = [60, 250, 500, 900] as const;
/** The first and the last part of the day stay whole, so that there is something to kill in and to recover to. */
const FROM = 0.04;
const TO = 0.8;
const COMING_UP_MS = 60_000;

/** kill -9 of API and worker processes in turn, spread over the day; the supervisor starts them again. */
export class KillDrill {
  private running: RunningProcesses | null = null;
  private readonly killed = { api: 0, worker: 0 };
  private restarts = 0;
  private due = 0;

  constructor(private readonly kills: number) {}

  arm(running: RunningProcesses): void {
    this.running = running;
  }

  /** The supervisor's log. */
  readonly hearRestart = (_message: string): void => {
    this.restarts += 1;
  };

  get done(): number {
    return this.killed.api + this.killed.worker;
  }

  /** Strikes during this step when it is time. */
  readonly betweenSteps = (step: number, steps: number): void => {
    if (this.kills === 0) return;
    const through = (step / steps - FROM) / (TO - FROM);
    const wanted = Math.min(this.kills, Math.max(0, Math.ceil(through * this.kills)));
    if (wanted <= this.due) return;
    this.due += 1;
    setTimeout(() => this.strike(), INTO_THE_STEP_MS[this.due % INTO_THE_STEP_MS.length] ?? 0).unref();
  };

  private strike(): void {
    if (this.running === null) return;
    const kind = this.done % 2 === 0 ? 'api' : 'worker';
    const processes: readonly KeptProcess[] = kind === 'api' ? this.running.apis : this.running.workers;
    const victim = processes[Math.floor(this.done / 2) % processes.length];
    // One that is just being started again cannot be killed; the next step tries anew.
    if (victim?.killHard() === true) this.killed[kind] += 1;
    else this.due -= 1;
  }

  /** Waits until everything that was killed runs again. */
  async settle(): Promise<void> {
    const untilMs = Date.now() + COMING_UP_MS;
    while (this.kills > 0 && Date.now() < untilMs && !(await this.allAnswer())) await pause(200);
  }

  /** What was killed, in words; null when no drill was asked for. @throws Error when fewer were killed than asked for */
  sentence(): string | null {
    if (this.kills === 0) return null;
    if (this.done < this.kills) throw new Error(`only ${this.done} of ${this.kills} kills could be made`);
    return `kill drill: ${this.done} kills -9 (${this.killed.api} of API, ${this.killed.worker} of worker processes), ${this.restarts} restarts`;
  }

  private async allAnswer(): Promise<boolean> {
    const answers = await Promise.all((this.running?.urls ?? []).map((url) => fetch(`${url}/health/ready`).then((response) => response.ok, () => false)));
    return answers.every(Boolean);
  }
}
