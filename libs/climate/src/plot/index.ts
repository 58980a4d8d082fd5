export { plotSvg } from './plot-svg.js';
export { thinPoints } from './thin.js';
export { PLOT_STYLES } from './types.js';
export type { Plot, PlotClock, PlotLimit, PlotPanel, PlotPoint, PlotSeries, PlotStyle } from './types.js';
