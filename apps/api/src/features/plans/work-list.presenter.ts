import type { z } from 'zod';
import type { DryingList, DryingOrder, WorkList, WorkOrder, WorkPeople } from '#application';
import { neverPlainly, render, say, startByInWords, statementsInLanguage, stepInLanguage, stepPlainly, type Language, type Message } from '#care';
import { formatTagCode } from '#custody';
import type { DryingListBody, WorkListBody, WorkOrderBody } from '#contracts';
import { iso, isoOrNull } from '../../presenters/time.js';

const AT_THE_STATION = say('Advice to a trained lead, who may decide otherwise with a recorded reason. Times are rules of practice, never promises; first aid stabilises and does not restore. Protection and safety come before speed.');
const AT_THE_RACK = say('Expected times are reckoned from the present air of the room and are uncertain by a third and more. Touch and weigh before taking anything down, and check for mould.');

/** `atMs` is null for what is in hand already: it has begun. */
function presentOrder(order: WorkOrder, language: Language, atMs: number | null): z.output<typeof WorkOrderBody> {
  return {
    itemId: order.itemId, itemVersion: order.version, tag: formatTagCode(order.tagCode), description: order.description, familyWords: order.familyWords, count: order.count,
    keeper: { ...order.keeper, code: order.keeperCode, name: order.keeperName },
    step: order.step, disposition: order.disposition, plannedStart: isoOrNull(order.startsAtMs), plannedEnd: isoOrNull(order.endsAtMs), crew: order.crew,
    startBy: isoOrNull(order.startByMs), startByInWords: atMs === null || order.startByMs === null || order.stabilised ? null : render(startByInWords(order.startByMs, atMs), language), waitingForOwner: order.waitingForOwner,
    care: order.care && stepInLanguage(stepPlainly(order.care), language), minutes: order.care && Math.round(order.care.minutesPerPiece * order.count * 10) / 10, never: statementsInLanguage(neverPlainly(order.never), language), bathGroup: order.bathGroup, batchId: order.batchId, together: order.together, goesTo: order.goesTo,
    people: order.people && presentPeople(order.people, language),
  };
}

function presentPeople({ inWords, notFor, ...asked }: WorkPeople, language: Language): z.output<typeof WorkOrderBody>['people'] {
  const spoken = (messages: readonly Message[]) => messages.map((message) => render(message, language));
  return { ...asked, inWords: spoken(inWords), notFor: notFor.map(({ reasons, ...person }) => ({ ...person, codes: reasons.map(({ code }) => code), inWords: spoken(reasons.map(({ text }) => text)) })) };
}

export function presentWorkList(list: WorkList, language: Language): z.output<typeof WorkListBody> {
  return { station: { id: list.station.id, code: list.station.code, name: list.station.name, siteId: list.station.siteId }, at: iso(list.atMs), revision: presentRevision(list.revision), next: list.next.map((order) => presentOrder(order, language, list.atMs)), now: list.now.map((order) => presentOrder(order, language, null)), standing: render(AT_THE_STATION, language) };
}

export function presentDryingList(list: DryingList, language: Language): z.output<typeof DryingListBody> {
  return { siteId: list.siteId, at: iso(list.atMs), revision: presentRevision(list.revision), toHang: list.toHang.map((order) => presentOrder(order, language, list.atMs)), hanging: list.hanging.map(presentHanging), standing: render(AT_THE_RACK, language) };
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
