export { plotSvg } from './plot-svg.js';
export { PLOT_STYLES } from './types.js';
export type { Plot, PlotLimit, PlotPanel, PlotPoint, PlotSeries, PlotStyle } from './types.js';
