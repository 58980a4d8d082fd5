/** Spanish: plain, international, for volunteers. Translated by us; no Spanish-speaking conservator has read it yet. */
import { ALARMS } from './alarms.js';
import { CALIBRATION } from './calibration.js';
import { CHANGES } from './changes.js';
import { CLIMATE_ESTIMATES_BODY } from './climate-estimates-body.js';
import { CLIMATE_AIR } from './climate-air.js';
import { CLIMATE_PLOTS } from './climate-plots.js';
import { CLAIMS } from './claims.js';
import { CONTRADICTIONS } from './contradictions.js';
import { CUSTODY_ROOTS } from './custody-roots.js';
import { FILES } from './files.js';
import { FAMILIES } from './families.js';
import { HOME_CARE } from './home-care.js';
import { HOUSEHOLDS } from './households.js';
import { IMPORTS } from './imports.js';
import { MATERIALS } from './materials.js';
import { MEASUREMENTS } from './measurements.js';
import { PAPER_KIT } from './paper-kit.js';
import { PAPERS } from './papers.js';
import { PEOPLE } from './people.js';
import { PLAN_CHARTS } from './plan-charts.js';
import { PLANS } from './plans.js';
import { QUESTIONS } from './questions.js';
import { RECEIPTS } from './receipts.js';
import { RETIRED } from './retired.js';
import { RULE_BOOK } from './rule-book.js';
import { ROOM_CLIMATE } from './room-climate.js';
import { RULES } from './rules/index.js';
import { STATIONS } from './stations.js';
import { STOCK_TAKES } from './stock-takes.js';
import { TAGS } from './tags.js';
import { WHERE } from './where.js';
import { WHAT_IFS } from './what-ifs.js';
import { WORDS } from './words.js';

/** Each file with its sentences: English to Spanish. */
export const SPANISH_FILES: Readonly<Record<string, Readonly<Record<string, string>>>> = {
  words: WORDS, materials: MATERIALS, questions: QUESTIONS, receipts: RECEIPTS, papers: PAPERS, 'paper-kit': PAPER_KIT, 'home-care': HOME_CARE, 'custody-roots': CUSTODY_ROOTS, families: FAMILIES, claims: CLAIMS, households: HOUSEHOLDS, files: FILES, imports: IMPORTS, measurements: MEASUREMENTS, plans: PLANS, 'plan-charts': PLAN_CHARTS, 'what-ifs': WHAT_IFS, alarms: ALARMS, 'room-climate': ROOM_CLIMATE, stations: STATIONS, 'stock-takes': STOCK_TAKES, where: WHERE, tags: TAGS, people: PEOPLE, changes: CHANGES, 'climate-air': CLIMATE_AIR, 'climate-plots': CLIMATE_PLOTS, 'climate-estimates-body': CLIMATE_ESTIMATES_BODY, contradictions: CONTRADICTIONS, 'rule-book': RULE_BOOK, calibration: CALIBRATION, ...RULES, retired: RETIRED,
};

/** All of them; every sentence stands in one file only. */
export const SPANISH: ReadonlyMap<string, string> = new Map(Object.values(SPANISH_FILES).flatMap((sentences) => Object.entries(sentences)));
