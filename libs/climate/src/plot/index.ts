export { plotSvg } from './plot-svg.js';
export { lanesSvg } from './lanes-svg.js';
export { loadSvg } from './load-svg.js';
export { BAR_LOOKS } from './chart-types.js';
export type { Bar, BarLook, ChartTime, LaneChart, LoadChart, LoadStep } from './chart-types.js';
export type { SheetWords } from './sheet.js';
export { thinPoints } from './thin.js';
export { PLOT_STYLES } from './types.js';
export type { Plot, PlotClock, PlotLimit, PlotPanel, PlotPoint, PlotSeries, PlotStyle } from './types.js';
