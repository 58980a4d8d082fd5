/** A thread that reckons acceptances: one question in, one answer out, as often as it is asked. */
import { parentPort } from 'node:worker_threads';
import { acceptanceEstimate, acceptanceOf } from '#application';
import type { AcceptanceAnswer, AcceptanceTask } from './acceptance-threads.js';
import { answerOf } from './crossing.js';

function reckon(task: AcceptanceTask): AcceptanceAnswer {
  if (task.sum === 'room') return { sum: 'room', kinds: acceptanceOf(task.parts, task.kinds, task.withinH) };
  return { sum: 'estimate', estimate: acceptanceEstimate(task.question) };
}

parentPort?.on('message', (task: AcceptanceTask) => void answerOf(() => reckon(task)).then((answer) => parentPort?.postMessage(answer, [])));
