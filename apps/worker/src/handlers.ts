import { type Environment, giveUpClimate, giveUpIntakeImport, giveUpPlanRun, runClimate, runIntakeImport, runPlan, runRuleBookChange } from '#application';
import type { GiveUp, Handler } from '#messaging';
import { newId } from '#platform';
import { inTurn } from './in-turn.js';
import { threadPlanner } from './planner-thread.js';
import type { Work, WorkParts } from './start-worker.js';

/** What the worker does for each kind of outbox row. */
export function composeWork({ unitOfWork, clock, config, logger }: WorkParts): Work {
  const planner = threadPlanner();
  const oneAtATime = inTurn();
  const rooms = inTurn();
  const environment = (): Environment => ({ nowMs: clock.nowMs(), newId: () => newId() });
  // Two reckonings of one room beside each other would do the same work twice.
  const climate: Handler = (message, context) => rooms(message.subjectId, async () => {
    const outcome = await runClimate(unitOfWork, message, context, environment());
    logger.debug({ subjectId: message.subjectId, outcome }, 'air looked at');
  });
  const giveUpAir: GiveUp = (message, context) => giveUpClimate(unitOfWork, message, context, environment());
  return {
    handlers: {
      'intake_import.submitted': (message, context) => runIntakeImport(unitOfWork, message, context, environment()),
      'plan.requested': async (message, context) => {
        const outcome = await oneAtATime(message.incidentId, () => runPlan(unitOfWork, planner, message, context, environment(), { iterations: config.planIterations, slotMinutes: config.planSlotMinutes }));
        logger.info({ planRunId: message.subjectId, outcome }, 'plan run ended');
      },
      'rule_book.chosen': (message, context) => runRuleBookChange(unitOfWork, message, context, environment()),
      'climate.readings': climate,
      'climate.tick': climate,
    },
    giveUps: {
      'intake_import.submitted': (message, context) => giveUpIntakeImport(unitOfWork, message, context, environment()),
      'plan.requested': (message, context) => giveUpPlanRun(unitOfWork, message, context, environment()),
      // Nobody waits for it: what was not reached is triaged by the book in force as soon as something happens to it.
      'rule_book.chosen': () => Promise.resolve(),
      'climate.readings': giveUpAir,
      'climate.tick': giveUpAir,
    },
  };
}
