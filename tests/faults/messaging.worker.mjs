// A worker process for the fault tests: the built program with a handler that takes a while and then does its effect.
import { setTimeout as sleep } from 'node:timers/promises';
import { createLogger, loadConfig } from '#platform';
import { runWorkerProcess } from '../../dist/apps/worker/src/worker-process.js';
import { effect } from './messaging.effect.mjs';

const { handlerMs, holdAfter = Infinity, tuning } = JSON.parse(process.argv[2]);
/** Longer than any test waits. */
const HELD_MS = 600_000;
let done = 0;
const config = loadConfig();

function compose({ unitOfWork }) {
  const handler = async (message, context) => {
    // What begins after so many stands in mid-work until somebody kills the process.
    await sleep(done < holdAfter ? handlerMs : HELD_MS);
    if (await effect(unitOfWork, message, context)) done += 1;
  };
  const giveUp = async () => undefined;
  return { handlers: { 'plan.requested': handler, 'plan.what_if': handler, 'intake_import.submitted': handler, 'rule_book.chosen': handler }, giveUps: { 'plan.requested': giveUp, 'plan.what_if': giveUp, 'intake_import.submitted': giveUp, 'rule_book.chosen': giveUp } };
}

runWorkerProcess(config, createLogger('worker-under-test', config.logLevel), compose, { tuning }).catch((error) => {
  process.stderr.write(`${error.message}\n`);
  process.exit(1);
});
