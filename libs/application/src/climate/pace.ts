/** When the air of rooms and freezers is reckoned, in milliseconds of real time. Own calibration; whoever runs the service may set both. */
import { MINUTE_MS } from './durations.js';

/** How long a reckoning waits for more readings: loggers send together. */
export const CLIMATE_GATHER_MS = 2_000;
/** And so many times as long for more things to be hung, taken or weighed: a rack is hung in one go. */
export const HUNG_GATHERS_TIMES = 2.5;
/** How long until a room or freezer is looked at again although nothing happened: clocks and forecasts age. */
export const CLIMATE_TICK_MS = 10 * MINUTE_MS;
