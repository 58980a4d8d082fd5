import type { z } from 'zod';
import type { DryingList, DryingOrder, WorkList, WorkOrder } from '#application';
import { formatTagCode } from '#custody';
import type { DryingListBody, WorkListBody, WorkOrderBody } from '#contracts';
import { iso, isoOrNull } from '../../presenters/time.js';

const AT_THE_STATION = 'Advice to a trained lead, who may decide otherwise with a recorded reason. Times are rules of practice, never promises; first aid stabilises and does not restore. Protection and safety come before speed.';
const AT_THE_RACK = 'Expected times are reckoned from the present air of the room and are uncertain by a third and more. Touch and weigh before taking anything down, and check for mould.';

function presentOrder(order: WorkOrder): z.output<typeof WorkOrderBody> {
  return {
    itemId: order.itemId, itemVersion: order.version, tag: formatTagCode(order.tagCode), description: order.description, familyWords: order.familyWords, count: order.count,
    keeper: { ...order.keeper, code: order.keeperCode, name: order.keeperName },
    step: order.step, disposition: order.disposition, plannedStart: isoOrNull(order.startsAtMs), plannedEnd: isoOrNull(order.endsAtMs), crew: order.crew,
    startBy: isoOrNull(order.startByMs), waitingForOwner: order.waitingForOwner,
    care: order.care, minutes: order.care && Math.round(order.care.minutesPerPiece * order.count * 10) / 10, never: order.never, bathGroup: order.bathGroup, goesTo: order.goesTo,
  };
}

export function presentWorkList(list: WorkList): z.output<typeof WorkListBody> {
  return { station: { id: list.station.id, code: list.station.code, name: list.station.name, siteId: list.station.siteId }, at: iso(list.atMs), revision: presentRevision(list.revision), next: list.next.map(presentOrder), now: list.now.map(presentOrder), standing: AT_THE_STATION };
}

export function presentDryingList(list: DryingList): z.output<typeof DryingListBody> {
  return { siteId: list.siteId, at: iso(list.atMs), revision: presentRevision(list.revision), toHang: list.toHang.map(presentOrder), hanging: list.hanging.map(presentHanging), standing: AT_THE_RACK };
}

function presentHanging(item: DryingOrder): z.output<typeof DryingListBody>['hanging'][number] {
  return {
    itemId: item.itemId, itemVersion: item.version, tag: formatTagCode(item.tagCode), description: item.description, count: item.count, stage: 'drying', place: item.place, roomCode: item.roomCode,
    dryingSince: iso(item.dryingSinceMs), earliestDryAt: isoOrNull(item.earliestDryAtMs), latestDryAt: isoOrNull(item.latestDryAtMs), dries: item.dries,
  };
}

function presentRevision(revision: WorkList['revision']): { number: number; madeAt: string } | null {
  return revision && { number: revision.number, madeAt: iso(revision.createdAtMs) };
}
