/** The worker's part of rooms and freezers: from a ring, or a look ahead of time, to what is stored and what is alarming. */
import { alarmCalibrationInForce } from '../calibration/in-force.js';
import type { CallContext, Environment } from '../context.js';
import type { OutboxMessage } from '../ports/outbox-store.js';
import type { ClimateSubject } from '../ports/room-climate-store.js';
import type { Stores, UnitOfWork } from '../ports/work.js';
import { freezerSigns } from './alarms/index.js';
import { applySigns } from './apply-signs.js';
import { HOUR_MS } from './durations.js';
import { loadRoom } from './load-room.js';
import { CLIMATE_TICK_MS } from './pace.js';
import { reckonRoom, type LoadedRoom, type ReckonedRoom } from './reckon-room.js';

/** Readings of a freezer that are looked at: enough to see how long it has been warm. */
const FREEZER_READINGS = 50;

export type ClimateOutcome = 'stored' | 'nothing-to-reckon' | 'overtaken';

/**
 * Does the work of one row about air. It may be killed and run again, or beside itself and beside later ones: the epoch is taken
 * before the rows are read, the heavy part holds no transaction, and only who read later than what is stored may store.
 */
export async function runClimate(unitOfWork: UnitOfWork, message: OutboxMessage, context: CallContext, env: Environment): Promise<ClimateOutcome> {
  const subject = await unitOfWork.read(context, (stores) => stores.roomClimate.subject(message.subjectId));
  if (subject === null || !subject.open) return done(unitOfWork, message, context);
  return subject.kind === 'freezer' ? runFreezer(unitOfWork, message, context, env, subject) : runRoom(unitOfWork, message, context, env, subject);
}

/** When the tries of a row are used up: what was not reckoned is, when something happens there again or at the next look. */
export async function giveUpClimate(unitOfWork: UnitOfWork, message: OutboxMessage, context: CallContext, env: Environment): Promise<void> {
  await unitOfWork.write(context, async (stores) => {
    const subject = await stores.roomClimate.subject(message.subjectId);
    if (subject?.open) await lookAgain(stores, message, env);
  });
}

async function done(unitOfWork: UnitOfWork, message: OutboxMessage, context: CallContext): Promise<ClimateOutcome> {
  await unitOfWork.write(context, (stores) => stores.outbox.markDone(message.id));
  return 'nothing-to-reckon';
}

async function runRoom(unitOfWork: UnitOfWork, message: OutboxMessage, context: CallContext, env: Environment, subject: ClimateSubject): Promise<ClimateOutcome> {
  const epoch = await unitOfWork.write(context, (stores) => stores.roomClimate.takeEpoch(subject.incidentId, subject.id));
  const loaded = await unitOfWork.read(context, (stores) => loadRoom(stores, subject.id, env.nowMs));
  const reckoned = loaded === null ? null : reckonRoom(loaded, env.nowMs);
  if (loaded === null || reckoned === null) return done(unitOfWork, message, context);
  return unitOfWork.write(context, (stores) => store(stores, message, env, subject, epoch, loaded, reckoned));
}

async function store(stores: Stores, message: OutboxMessage, env: Environment, subject: ClimateSubject, epoch: number, loaded: LoadedRoom, { result, signs }: ReckonedRoom): Promise<ClimateOutcome> {
  // Of two runs of one row only one goes on; and what a later one has read holds all that this one was told of.
  if (!(await stores.outbox.markDone(message.id))) return 'overtaken';
  if (!(await stores.roomClimate.claimStoring(subject.id, epoch))) return 'overtaken';
  await stores.roomClimate.save(subject.incidentId, subject.id, result);
  const alarming = await applySigns(stores, env, subject.incidentId, signs);
  if (alarming || result.standing.things > 0 || env.nowMs - result.standing.readingAtMs < loaded.calibration.readingGapInterpolatedMaxH * HOUR_MS) await lookAgain(stores, message, env);
  return 'stored';
}

/** A freezer is little work: all of it under the lock of its row, so that the newer look is never overwritten by the older. */
async function runFreezer(unitOfWork: UnitOfWork, message: OutboxMessage, context: CallContext, env: Environment, subject: ClimateSubject): Promise<ClimateOutcome> {
  return unitOfWork.write(context, async (stores) => {
    const seen = await stores.roomClimate.lockFreezer(subject.id, FREEZER_READINGS);
    if (!(await stores.outbox.markDone(message.id))) return 'overtaken';
    if (seen === null || seen.readings.length === 0) return 'nothing-to-reckon';
    const reporting = await stores.roomClimate.reporting('freezer', subject.id);
    const alarms = await alarmCalibrationInForce(stores);
    const alarming = await applySigns(stores, env, subject.incidentId, freezerSigns({ id: subject.id, ...seen, reporting }, env.nowMs, alarms));
    if (alarming || seen.inUse) await lookAgain(stores, message, env);
    return 'stored';
  });
}

function lookAgain(stores: Stores, message: OutboxMessage, env: Environment): Promise<void> {
  return stores.outbox.appendAhead({ ...message, id: env.newId(), kind: 'climate.tick' }, env.climateTickMs ?? CLIMATE_TICK_MS);
}
