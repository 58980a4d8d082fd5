import { type Environment, giveUpIntakeImport, giveUpPlanRun, runIntakeImport, runPlan, runRuleBookChange } from '#application';
import { newId } from '#platform';
import { inTurn } from './in-turn.js';
import { threadPlanner } from './planner-thread.js';
import type { Work, WorkParts } from './start-worker.js';

/** What the worker does for each kind of outbox row. */
export function composeWork({ unitOfWork, clock, config, logger }: WorkParts): Work {
  const planner = threadPlanner();
  const oneAtATime = inTurn();
  const environment = (): Environment => ({ nowMs: clock.nowMs(), newId: () => newId() });
  return {
    handlers: {
      'intake_import.submitted': (message, context) => runIntakeImport(unitOfWork, message, context, environment()),
      'plan.requested': async (message, context) => {
        const outcome = await oneAtATime(message.incidentId, () => runPlan(unitOfWork, planner, message, context, environment(), { iterations: config.planIterations, slotMinutes: config.planSlotMinutes }));
        logger.info({ planRunId: message.subjectId, outcome }, 'plan run ended');
      },
      'rule_book.chosen': (message, context) => runRuleBookChange(unitOfWork, message, context, environment()),
    },
    giveUps: {
      'intake_import.submitted': (message, context) => giveUpIntakeImport(unitOfWork, message, context, environment()),
      'plan.requested': (message, context) => giveUpPlanRun(unitOfWork, message, context, environment()),
      // Nobody waits for it: what was not reached is triaged by the book in force as soon as something happens to it.
      'rule_book.chosen': () => Promise.resolve(),
    },
  };
}
