/** Changes as people ask for them, as changes of a planning problem, and back. Pure. */
import { type PeopleCalibration, shiftsWithinHours } from '#care';
import type { CalibrationValues } from '#climate';
import type { PlanWhatIfChange } from '#contracts';
import type { Interval, PlanProblem, ProblemChange } from '#planning';
import type { InputRoom, PlanInput } from '../../ports/plan-input.js';
import type { WhatIfLayout } from '../../ports/plan-what-if-store.js';
import { roomRemovalGPerH } from '../room-removal.js';
import { amount, type SlotGrid } from '../slots.js';

/** What a dehumidifier that nobody has yet is taken for: a label of hired machines. Our own choice; the reckoning in the room is physics. */
export const SUGGESTED_DEHUMIDIFIER = Object.freeze({ ratedLPerDay: 50, ratedTempC: 26.7, ratedRelativeHumidityPct: 60 });

/** What the changes are reckoned in. */
export interface ChangeGround {
  input: PlanInput;
  problem: PlanProblem;
  grid: SlotGrid;
  /** Work is placed before it. */
  windowSlots: number;
  climate: CalibrationValues;
  people: PeopleCalibration;
  layout: WhatIfLayout;
}

type Label = InputRoom['running'][number];

/** People come within the hours that anybody may work here; the rest of a longer shift does not count. */
export function toProblemChange(change: PlanWhatIfChange, ground: ChangeGround): ProblemChange {
  const { grid, windowSlots } = ground;
  const during = ({ from, to }: { from: string; to: string }): Interval[] => grid.inside([{ fromMs: Date.parse(from), toMs: Date.parse(to) }], windowSlots);
  switch (change.kind) {
    case 'people': {
      const { siteId, count, skills, restrictions, respiratorFit } = change;
      return { kind: 'people', siteId, count, skills, restrictions, shifts: shiftsOf(change.shifts, ground), fitUntilSlot: respiratorFit ? grid.horizonSlots : 0 };
    }
    case 'person-leaves':
      return { kind: 'person-leaves', personId: change.personId, fromSlot: slotOf(change.at, grid) };
    case 'station-units':
      return { kind: 'station-units', stationId: change.stationId, units: change.units };
    case 'station-open':
      return { kind: 'station-open', stationId: change.stationId, open: during(change) };
    case 'station-closed':
      return { kind: 'station-closed', stationId: change.stationId, closed: { from: Math.max(0, grid.floor(Date.parse(change.from))), to: Math.max(0, grid.ceil(Date.parse(change.to))) } };
    case 'drying-area':
      return { kind: 'drying-area', roomId: change.dryingRoomId, areaDm2: Math.round(change.areaM2 * 100) };
    case 'dehumidifier':
      return { kind: 'room-air', roomId: change.dryingRoomId, gPerSlot: withMachine(change.dryingRoomId, change, ground), during: from(change.at, grid) };
    case 'dehumidifier-fails': {
      const machine = ground.layout.dehumidifiers.find(({ id }) => id === change.dehumidifierId);
      if (machine === undefined) throw new RangeError(`No dehumidifier ${change.dehumidifierId} in this incident.`);
      return { kind: 'room-air', roomId: machine.roomId, gPerSlot: machine.running ? -withoutMachine(machine.roomId, machine, ground) : 0, during: from(change.at, grid) };
    }
    case 'freezer':
      return { kind: 'freezer', siteId: change.siteId, volumeCl: amount(change.volumeL * 100), fromSlot: slotOf(change.at, grid) };
    case 'freezer-fails':
      return { kind: 'freezer-closed', freezerId: change.freezerId, fromSlot: slotOf(change.at, grid) };
    case 'specialist-units':
      return { kind: 'service-units', serviceId: change.specialistId, units: change.units };
  }
}

/** A change that the planning library suggests, as people would ask for it; null for one that nobody asks for by itself. */
export function toAskedChange(change: ProblemChange, grid: SlotGrid, services: PlanProblem['services'] = []): PlanWhatIfChange | null {
  switch (change.kind) {
    case 'people': {
      const { siteId, count, skills, restrictions, fitUntilSlot = 0 } = change;
      return { kind: 'people', siteId, count, skills, restrictions, respiratorFit: fitUntilSlot > 0, shifts: change.shifts.map((shift) => ({ startsAt: isoOf(shift.from, grid), endsAt: isoOf(shift.to, grid) })) };
    }
    case 'station-units':
      return { kind: 'station-units', stationId: change.stationId, units: change.units };
    case 'drying-area':
      return { kind: 'drying-area', dryingRoomId: change.roomId, areaM2: change.areaDm2 / 100 };
    case 'room-air':
      return { kind: 'dehumidifier', dryingRoomId: change.roomId, ...SUGGESTED_DEHUMIDIFIER };
    case 'freezer':
      return { kind: 'freezer', siteId: change.siteId, volumeL: Math.floor(change.volumeCl / 100) };
    case 'service-units':
      return services.some(({ id, kind }) => id === change.serviceId && kind === 'specialist') ? { kind: 'specialist-units', specialistId: change.serviceId, units: change.units } : null;
    default:
      return null;
  }
}

/** Grams that one more machine would take from the air of a room in a slot; 0 where the room takes nothing anyway. */
export function withMachine(roomId: string, label: Label, ground: ChangeGround): number {
  const room = roomOf(roomId, ground.input);
  return perSlot({ ...room, running: [...room.running, labelOf(label)] }, ground) - perSlot(room, ground);
}

function withoutMachine(roomId: string, label: Label, ground: ChangeGround): number {
  const room = roomOf(roomId, ground.input);
  const at = room.running.findIndex((one) => JSON.stringify(labelOf(one)) === JSON.stringify(labelOf(label)));
  return at < 0 ? 0 : perSlot(room, ground) - perSlot({ ...room, running: room.running.toSpliced(at, 1) }, ground);
}

/** As the limits of the problem are reckoned. */
function perSlot(room: InputRoom, { input, grid, climate }: ChangeGround): number {
  return Math.floor((amount(roomRemovalGPerH(room, input, climate)) * grid.slotMinutes) / 60);
}

function roomOf(roomId: string, { rooms }: PlanInput): InputRoom {
  const room = rooms.find(({ id }) => id === roomId);
  if (room === undefined) throw new RangeError(`No drying room ${roomId} in this incident.`);
  return room;
}

function labelOf({ ratedLPerDay, ratedTempC, ratedRelativeHumidityPct }: Label): Label {
  return { ratedLPerDay, ratedTempC, ratedRelativeHumidityPct };
}

function shiftsOf(shifts: readonly { startsAt: string; endsAt: string }[], { grid, windowSlots, people }: ChangeGround): Interval[] {
  const spans = shifts.map(({ startsAt, endsAt }) => ({ startsAtMs: Date.parse(startsAt), endsAtMs: Date.parse(endsAt) }));
  return grid.inside(shiftsWithinHours(spans, people).map(({ startsAtMs, endsAtMs }) => ({ fromMs: startsAtMs, toMs: endsAtMs })), windowSlots);
}

function slotOf(at: string | undefined, grid: SlotGrid): number {
  return at === undefined ? 0 : Math.min(grid.horizonSlots, Math.max(0, grid.ceil(Date.parse(at))));
}

function from(at: string | undefined, grid: SlotGrid): Interval {
  return { from: slotOf(at, grid), to: grid.horizonSlots };
}

function isoOf(slot: number, { originMs, slotMs }: SlotGrid): string {
  return new Date(originMs + slot * slotMs).toISOString();
}
