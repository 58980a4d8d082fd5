export { itemPlotData, type ItemPlotData, type ItemPlotParts, type ItemRoomData } from './item-plot.js';
export { roomPlotData, type ReckonedAir, type RoomPlotData, type RoomPlotParts } from './room-plot.js';
export type { MeasuredBy, PlotAir } from './air-series.js';
