import { type Environment, giveUpClimate, giveUpCustodyRoots, giveUpFamilyLook, giveUpFamilyMessage, giveUpFamilyNews, giveUpHandOverDue, giveUpIntakeImport, giveUpPlanRun, giveUpPlanWhatIf, giveUpRetention, giveUpRetentionLook, giveUpSight, runClimate, runCustodyRoots, runFamilyLook, runFamilyMessage, runFamilyNews, runHandOverDue, runIntakeImport, runPlan, runPlanWhatIf, runRetention, runRetentionLook, runRuleBookChange, runSight, sealExisting } from '#application';
import type { GiveUp, Handler } from '#messaging';
import { createVault } from '#persistence';
import { custodySigningKey, newId } from '#platform';
import { childChecker } from './file-check/child-checker.js';
import { fileWork } from './file-work.js';
import { inTurn } from './in-turn.js';
import { messageParts } from './senders/configured.js';
import { threadPlanner } from './planner-thread.js';
import type { Work, WorkParts } from './start-worker.js';

/** Rounds of each of the dozens of plans of a what-if, at most; our own calibration. */
const WHAT_IF_ROUNDS = 1_000;

/** What the worker does for each kind of outbox row. */
export function composeWork({ unitOfWork, clock, config, logger }: WorkParts): Work {
  const stopping = new AbortController();
  const planner = threadPlanner({ strands: config.planStrands, milliseconds: config.planMilliseconds, signal: stopping.signal });
  // What-ifs are compared with each other, so rounds alone may end them.
  const whatIfPlanner = threadPlanner({ signal: stopping.signal });
  const oneAtATime = inTurn();
  const rooms = inTurn();
  const whatIfs = inTurn();
  const environment = (): Environment => ({ nowMs: clock.nowMs(), newId: () => newId(), climateTickMs: config.climateTickMs, climateGatherMs: config.climateGatherMs });
  // Two reckonings of one room beside each other would do the same work twice.
  const climate: Handler = (message, context) => rooms(message.subjectId, async () => {
    const outcome = await runClimate(unitOfWork, message, context, environment());
    logger.debug({ subjectId: message.subjectId, outcome }, 'air looked at');
  });
  const roots = { signer: custodySigningKey(config), periodMs: config.custodyRootMs };
  if (roots.signer === null) logger.warn('no key signs custody roots here; set WRACKLINE_CUSTODY_SIGNING_KEY_FILE, and what waits is put under a root then');
  const vault = createVault(config);
  logger.info({ vault: vault.place }, 'files lie here');
  const files = fileWork({ unitOfWork, vault, checker: childChecker({ signal: stopping.signal }), environment, logger });
  const messages = messageParts(config.families);
  const giveUpAir: GiveUp = (message, context) => giveUpClimate(unitOfWork, message, context, environment());
  return {
    cancel: () => stopping.abort(new Error('The worker stops.')),
    handlers: {
      ...files.handlers,
      'intake_import.submitted': (message, context) => runIntakeImport(unitOfWork, message, context, environment()),
      'plan.requested': async (message, context) => {
        const outcome = await oneAtATime(message.incidentId, () => runPlan(unitOfWork, planner, message, context, environment(), { iterations: config.planIterations, slotMinutes: config.planSlotMinutes }));
        logger.info({ planRunId: message.subjectId, outcome }, 'plan run ended');
      },
      // One of an incident after another: each is dozens of plans. No plan run waits in their line.
      'plan.what_if': async (message, context) => {
        const outcome = await whatIfs(message.incidentId, () => runPlanWhatIf(unitOfWork, whatIfPlanner, message, context, environment(), { iterations: Math.min(WHAT_IF_ROUNDS, config.planIterations), slotMinutes: config.planSlotMinutes }));
        logger.info({ planWhatIfId: message.subjectId, outcome }, 'what-if ended');
      },
      'rule_book.chosen': (message, context) => runRuleBookChange(unitOfWork, message, context, environment()),
      'climate.readings': climate,
      'climate.tick': climate,
      'custody.root': async (message, context) => {
        const outcome = await runCustodyRoots(unitOfWork, message, context, environment(), roots);
        logger.debug({ networkId: context.networkId, outcome }, 'custody roots looked after');
      },
      'hand_over.due': async (message, context) => {
        const outcome = await runHandOverDue(unitOfWork, message, context, environment());
        logger.debug({ handOverId: message.subjectId, outcome }, 'hand-over looked at');
      },
      'family.look': async (message, context) => {
        const outcome = await runFamilyLook(unitOfWork, message, context, environment());
        logger.debug({ householdId: message.subjectId, outcome }, 'questions to a family looked at');
      },
      'family.message': async (message, context) => {
        const outcome = await runFamilyMessage(unitOfWork, message, context, environment(), messages);
        logger.info({ familyMessageId: message.subjectId, outcome }, 'message to a family looked after');
      },
      'family.news': async (message, context) => {
        const outcome = await runFamilyNews(unitOfWork, message, context, environment());
        logger.debug({ householdId: message.subjectId, outcome }, 'news of a family looked at');
      },
      'personal.seal': async (message, context) => {
        const sealed = await sealExisting(unitOfWork, context, message.incidentId);
        logger.info({ incidentId: message.incidentId, sealed }, 'what stood in the clear was sealed');
      },
      'retention.run': async (message, context) => {
        const outcome = await runRetention(unitOfWork, message, context, environment());
        logger.info({ retentionRunId: message.subjectId, outcome }, 'what had its time was let go');
      },
      'retention.look': async (message, context) => {
        const outcome = await runRetentionLook(unitOfWork, message, context, environment());
        logger.debug({ incidentId: message.incidentId, outcome }, 'looked for what has had its time');
      },
      'sight.look': async (message, context) => {
        const outcome = await runSight(unitOfWork, message, context, environment());
        logger.debug({ incidentId: message.incidentId, outcome }, 'unseen things looked for');
      },
    },
    giveUps: {
      ...files.giveUps,
      'intake_import.submitted': (message, context) => giveUpIntakeImport(unitOfWork, message, context, environment()),
      'plan.requested': (message, context) => giveUpPlanRun(unitOfWork, message, context, environment()),
      'plan.what_if': (message, context) => giveUpPlanWhatIf(unitOfWork, message, context, environment()),
      // Nobody waits for it: what was not reached is triaged by the book in force as soon as something happens to it.
      'rule_book.chosen': () => Promise.resolve(),
      'climate.readings': giveUpAir,
      'climate.tick': giveUpAir,
      'custody.root': (message, context) => giveUpCustodyRoots(unitOfWork, message, context, environment(), roots.periodMs),
      'family.look': (message, context) => giveUpFamilyLook(unitOfWork, message, context, environment()),
      'family.news': (message, context) => giveUpFamilyNews(unitOfWork, message, context, environment()),
      'family.message': (message, context) => giveUpFamilyMessage(unitOfWork, message, context, environment()),
      // What was not sealed stands as it stood; an operator revives the row (`npm run ops -- outbox --revive`).
      'personal.seal': () => Promise.resolve(),
      'retention.run': (message, context) => giveUpRetention(unitOfWork, message, context, environment()),
      'retention.look': (message, context) => giveUpRetentionLook(unitOfWork, message, context, environment()),
      'sight.look': (message, context) => giveUpSight(unitOfWork, message, context, environment()),
      'hand_over.due': (message, context) => giveUpHandOverDue(unitOfWork, message, context, environment()),
    },
  };
}
