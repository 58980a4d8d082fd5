import type { Workbench } from './workbench.js';

let minutes = 0;

/** A slot of its own, some weeks ahead. */
export async function newSlot(bench: Workbench, capacity = 1): Promise<string> {
  minutes += 30;
  const startsAt = new Date(bench.server.clock.nowMs() + 20 * 86_400_000 + minutes * 60_000).toISOString();
  const { body } = await bench.network.post(`/v1/sites/${bench.incident.site()}/hand-back-slots`, { startsAt, minutes: 30, slots: 1, capacity }).expect(201);
  return body.opened[0].id as string;
}

export interface Booked {
  id: string;
  code: string;
}

export async function bookFor(bench: Workbench, householdId: string, slotId?: string): Promise<Booked> {
  return (await bench.network.post(`/v1/hand-back-slots/${slotId ?? (await newSlot(bench))}/appointments`, { householdId }).expect(201)).body as Booked;
}

export const DAY_MS = 86_400_000;
