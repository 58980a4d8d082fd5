/** What has begun and holds its resources: work at stations, things that dry, things in freezers. */
import type { StepKind } from '#care';
import type { FixedUse } from '#planning';
import type { InputItem, InputRoom, PlanInput } from '../ports/plan-input.js';
import { type DryingLoad, loadWithin } from './drying-load.js';
import { settledOf } from './item-standing.js';
import { dryingUse, isDamp, type Reckoning, volumeCl } from './plan-steps.js';
import { reckonedUse } from './reckoned-drying.js';
import { amount, type SlotGrid } from './slots.js';

/** The present use of an item, and the first slot in which something else may be done with it. */
export interface PresentUse {
  use: FixedUse | null;
  freeFromSlot: number;
  /** The step at a station now. */
  presentStep: StepKind | null;
}

const FREE: PresentUse = { use: null, freeFromSlot: 0, presentStep: null };

/** Looks up present uses against one input. */
export class PresentUses {
  private readonly stations;
  private readonly people;
  private readonly roomOfPlace;
  private readonly places;
  private readonly freezers;
  private readonly grid: SlotGrid;

  constructor(input: PlanInput, private readonly by: Reckoning, private readonly nowMs: number) {
    this.grid = by.grid;
    this.stations = new Map(input.stations.map((station) => [station.id, station]));
    this.people = new Set(input.people.map(({ id }) => id));
    const rooms = new Map(input.rooms.map((room) => [room.id, room]));
    this.roomOfPlace = new Map(input.places.map((place) => [place.id, rooms.get(place.roomId)]));
    this.places = new Map(input.places.map(({ id, areaDm2 }) => [id, amount(areaDm2)]));
    this.freezers = new Map(input.freezers.map(({ id, volumeL }) => [id, amount(volumeL * 100)]));
  }

  of(item: InputItem): PresentUse {
    if (item.stage === 'in-work' && item.keeper.kind === 'station') return this.atStation(item);
    if (item.stage === 'drying' && item.keeper.kind === 'drying-place') return this.onPlace(item);
    if (item.keeper.kind === 'freezer' && this.freezers.has(item.keeper.id)) return this.inFreezer(item);
    return FREE;
  }

  private atStation(item: InputItem): PresentUse {
    const presentStep = this.presentStep(item);
    const step = item.options.flatMap(({ steps }) => steps).find(({ step: kind }) => kind === presentStep);
    const to = this.left(item, this.grid.taking((step?.minutesPerPiece ?? 0) * item.count));
    const known = this.stations.has(item.keeper.id);
    const personIds = item.keeperPersonId !== null && this.people.has(item.keeperPersonId) ? [item.keeperPersonId] : [];
    const use = { ...nothing(item, presentStep ?? 'assess'), stationId: known ? item.keeper.id : null, personIds, interval: { from: 0, to } };
    return { use, freeFromSlot: to, presentStep };
  }

  /** The next step if the station does it, else the first step left on any route that it does. */
  private presentStep(item: InputItem): StepKind | null {
    const station = this.stations.get(item.keeper.id);
    if (!station || (item.nextStep !== null && station.steps.includes(item.nextStep))) return item.nextStep;
    const done = settledOf(item);
    const ordered = [...item.options].sort((a, b) => Number(b.disposition === item.disposition) - Number(a.disposition === item.disposition));
    return ordered.flatMap(({ steps }) => steps).find(({ step }) => station.steps.includes(step) && !done.has(step))?.step ?? null;
  }

  private onPlace(item: InputItem): PresentUse {
    const room = this.roomOfPlace.get(item.keeper.id);
    const { slots: to, ...load } = this.dryingOf(item, room);
    // What lies there fits there; more than the place holds would be an error of the size class.
    const areaDm2 = Math.min(Math.max(1, amount(item.areaDm2)), this.places.get(item.keeper.id) ?? 0);
    const use = { ...nothing(item, 'dry'), ...this.companyOf(item), dryingPlaceId: room === undefined ? null : item.keeper.id, areaDm2, ...load, interval: { from: 0, to } };
    return { use, freeFromSlot: to, presentStep: null };
  }

  /** By what its room reckons; where it reckons nothing, by the hours that it has hung. In air too damp to dry it, it stays where it is and gives the air nothing. */
  private dryingOf(item: InputItem, room: InputRoom | undefined): { slots: number } & DryingLoad {
    if (room !== undefined && item.reckoned != null) return reckonedUse(item, item.reckoned, this.nowMs, this.by);
    const water = { blotted: settledOf(item).has('blot'), damp: isDamp(item, []) };
    if (room === undefined || this.by.outlooks.of({ sizeClass: item.sizeClass, ...water }, room) === null) return { slots: this.grid.horizonSlots, loadGPerSlot: 0 };
    const { slots, ...load } = dryingUse(item, water, room, this.by);
    const left = this.left(item, slots);
    return { slots: left, ...loadWithin(load, Math.max(0, slots - left), left) };
  }

  private inFreezer(item: InputItem): PresentUse {
    const use = { ...nothing(item, 'freeze'), ...this.companyOf(item), freezerId: item.keeper.id, volumeCl: Math.min(volumeCl(item), this.freezers.get(item.keeper.id) ?? 0), interval: { from: 0, to: this.grid.horizonSlots } };
    return { use, freeFromSlot: 0, presentStep: null };
  }

  private companyOf(item: InputItem): Pick<FixedUse, 'company'> {
    const company = this.by.companies.of(item);
    return company === undefined ? {} : { company };
  }

  /** Slots still to go of a use that began with the last custody event: at least one, at most the horizon. */
  private left(item: InputItem, slots: number): number {
    const gone = Math.max(0, Math.floor((this.nowMs - item.keeperSinceMs) / this.grid.slotMs));
    return Math.min(this.grid.horizonSlots, Math.max(1, slots - gone));
  }
}

function nothing(item: InputItem, step: StepKind): FixedUse {
  return { itemId: item.id, step, stationId: null, personIds: [], dryingPlaceId: null, areaDm2: 0, loadGPerSlot: 0, freezerId: null, volumeCl: 0, interval: { from: 0, to: 1 } };
}
