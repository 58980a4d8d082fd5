import type { Table } from '../row.js';
import { calibrationRows } from './calibration.js';
import { careRows } from './care.js';
import { carryingRows } from './carrying.js';
import { climateEstimateRows } from './climate-estimates.js';
import { climatePlotRows } from './climate-plots.js';
import { climateRecordRows } from './climate-records.js';
import { custodyRows } from './custody.js';
import { custodyMatterRows } from './custody-matters.js';
import { familyRows } from './families.js';
import { fileRows } from './files.js';
import { foundItemRows } from './found-items.js';
import { handBackRows } from './hand-backs.js';
import { incidentRows } from './incidents.js';
import { intakeRows } from './intake.js';
import { keyRows } from './keys.js';
import { mutualAidRows } from './mutual-aid.js';
import { paperRows } from './papers.js';
import { planChartRows } from './plan-charts.js';
import { planRows } from './plans.js';
import { roomClimateRows } from './room-climate.js';
import { ruleBookRows } from './rule-book.js';
import { stockTakeRows } from './stock-takes.js';
import { tagRows } from './tags.js';

/** One row for every operation of the document. A new route is added to the file of its feature. */
export const ROWS: Table = { ...incidentRows, ...keyRows, ...intakeRows, ...custodyRows, ...custodyMatterRows, ...careRows, ...carryingRows, ...familyRows, ...fileRows, ...foundItemRows, ...handBackRows, ...mutualAidRows, ...paperRows, ...planRows, ...planChartRows, ...ruleBookRows, ...calibrationRows, ...climateEstimateRows, ...climatePlotRows, ...climateRecordRows, ...roomClimateRows, ...stockTakeRows, ...tagRows };

/** Routes that everybody may call, and that hold nothing of anybody. */
export const PUBLIC_ROUTES = ['getLiveness', 'getReadiness'];
