import type { Table } from '../row.js';
import { calibrationRows } from './calibration.js';
import { careRows } from './care.js';
import { climateEstimateRows } from './climate-estimates.js';
import { climatePlotRows } from './climate-plots.js';
import { climateRecordRows } from './climate-records.js';
import { custodyRows } from './custody.js';
import { handBackRows } from './hand-backs.js';
import { incidentRows } from './incidents.js';
import { intakeRows } from './intake.js';
import { keyRows } from './keys.js';
import { planRows } from './plans.js';
import { roomClimateRows } from './room-climate.js';
import { ruleBookRows } from './rule-book.js';

/** One row for every operation of the document. A new route is added to the file of its feature. */
export const ROWS: Table = { ...incidentRows, ...keyRows, ...intakeRows, ...custodyRows, ...careRows, ...handBackRows, ...planRows, ...ruleBookRows, ...calibrationRows, ...climateEstimateRows, ...climatePlotRows, ...climateRecordRows, ...roomClimateRows };

/** Routes that everybody may call, and that hold nothing of anybody. */
export const PUBLIC_ROUTES = ['getLiveness', 'getReadiness'];
