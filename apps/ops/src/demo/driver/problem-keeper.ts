import { buildProblem, type CallContext, climateCalibrationInForce, peopleCalibrationInForce, planningCalibrationInForce, SlotGrid, type Stores, SUGGESTED_DEHUMIDIFIER, toProblemChange } from '#application';
import { createPool, PgUnitOfWork } from '#persistence';
import { type Config, masterKeysOf, newId } from '#platform';
import { clearProblems, type KeptProblem, writeProblem } from '../plans/kept-problem.js';
import type { Book } from './book.js';

/** Keeps what there was to plan in the course of the played day, for `npm run demo:plans`. */
export interface ProblemKeeper {
  /** Writes down what each network has to plan now. */
  keep(books: readonly Book[], nowMs: number): Promise<void>;
  end(): Promise<void>;
}

/** Reads the rows and builds the problem as the worker does; the database is only read. */
export async function problemKeeper(config: Config, folder: string): Promise<ProblemKeeper> {
  const { databaseUrl, planSlotMinutes } = config;
  if (databaseUrl === null) throw new Error('The demo has no database to read.');
  await clearProblems(folder);
  const pool = createPool({ connectionString: databaseUrl, max: 2, applicationName: 'wrackline-demo', onError: () => undefined });
  const unitOfWork = new PgUnitOfWork(pool, masterKeysOf(config));
  return {
    async keep(books, nowMs) {
      for (const book of books) {
        const kept = await unitOfWork.read(contextOf(book), (stores) => problemOf(stores, book, nowMs, planSlotMinutes));
        if (kept !== null) await writeProblem(folder, kept);
      }
    },
    end: () => pool.end(),
  };
}

async function problemOf(stores: Stores, { incidentId, network }: Book, nowMs: number, slotMinutes: number): Promise<KeptProblem | null> {
  const input = await stores.plans.loadInput(incidentId);
  if (input === null) return null;
  const [climate, people, planning] = [await climateCalibrationInForce(stores), await peopleCalibrationInForce(stores), await planningCalibrationInForce(stores)];
  const { problem, windowSlots } = buildProblem(input, { nowMs, climate, people, planning, slotMinutes });
  const layout = await stores.planWhatIfs.layout(incidentId);
  const ground = { input, problem, grid: new SlotGrid(nowMs, problem.slotMinutes, problem.horizonSlots), windowSlots, climate, people, layout };
  const gPerSlotIn = (roomId: string): number => {
    const change = toProblemChange({ kind: 'dehumidifier', dryingRoomId: roomId, ...SUGGESTED_DEHUMIDIFIER }, ground);
    return change.kind === 'room-air' ? change.gPerSlot : 0;
  };
  return {
    network, atMs: nowMs, timeZone: input.timeZone, problem, layout, labels: [...(await stores.planWhatIfs.labels(problem.items.map(({ id }) => id)))],
    dehumidifierGPerSlot: problem.rooms.map(({ id }) => [id, gPerSlotIn(id)]),
  };
}

function contextOf({ networkId }: Book): CallContext {
  return { networkId, incidentLimit: null, principalId: newId(), requestId: newId(), traceparent: '' };
}
