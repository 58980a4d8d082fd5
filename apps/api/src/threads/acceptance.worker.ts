/** A thread that reckons acceptances: one question in, one answer out, as often as it is asked. */
import { parentPort } from 'node:worker_threads';
import { acceptanceEstimate, acceptanceOf } from '#application';
import { Problem } from '#contracts';
import type { AcceptanceAnswer, AcceptanceTask } from './acceptance-threads.js';

function reckon(task: AcceptanceTask): AcceptanceAnswer {
  if (task.sum === 'room') return { sum: 'room', kinds: acceptanceOf(task.parts, task.kinds, task.withinH) };
  return { sum: 'estimate', estimate: acceptanceEstimate(task.question) };
}

function answer(task: AcceptanceTask): AcceptanceAnswer {
  try {
    return reckon(task);
  } catch (error) {
    if (error instanceof Problem) return { problem: { code: error.code, detail: error.detail, extras: error.extras } };
    return { error: error instanceof Error ? (error.stack ?? error.message) : String(error) };
  }
}

parentPort?.on('message', (task: AcceptanceTask) => parentPort?.postMessage(answer(task), []));
