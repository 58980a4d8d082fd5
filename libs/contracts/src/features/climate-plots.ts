import { z } from 'zod';

/** Hours before the newest reckoning that a plot shows, and hours after it. */
const hours = (back: number) =>
  z.strictObject({
    hoursBack: z.coerce.number().min(1).max(168).default(back),
    hoursAhead: z.coerce.number().min(0).max(72).default(48),
  });

/** A room: the last day, and two to come. */
export const RoomPlotQuery = hours(24);
/** A thing: three days back, as long as most take to dry. */
export const ItemPlotQuery = hours(72);
