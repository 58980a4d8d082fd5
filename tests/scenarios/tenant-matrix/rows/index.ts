import type { Table } from '../row.js';
import { careRows } from './care.js';
import { custodyRows } from './custody.js';
import { handBackRows } from './hand-backs.js';
import { incidentRows } from './incidents.js';
import { intakeRows } from './intake.js';
import { keyRows } from './keys.js';
import { planRows } from './plans.js';
import { ruleBookRows } from './rule-book.js';

/** One row for every operation of the document. A new route is added to the file of its feature. */
export const ROWS: Table = { ...incidentRows, ...keyRows, ...intakeRows, ...custodyRows, ...careRows, ...handBackRows, ...planRows, ...ruleBookRows };

/** Routes that everybody may call, and that hold nothing of anybody. */
export const PUBLIC_ROUTES = ['getLiveness', 'getReadiness'];
