import type { Table } from '../row.js';

/** Pictures of what `room-climate.ts` answers in numbers. */
export const climatePlotRows: Table = {
  plotRoomClimate: { request: (incident) => ({ params: { dryingRoomId: incident.places.room('ROOM') }, query: { hoursBack: '6' } }) },
  plotItemClimate: { request: (incident) => ({ params: { itemId: incident.the('item') }, query: { hoursBack: '6' } }) },
};
