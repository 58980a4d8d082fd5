import type { Restriction, Skill } from '#care';
import type { RegisterIncidentInput } from '#contracts';
import { momentMs } from '../calibration.js';
import { Dice } from '../dice.js';
import type { SiteCode } from './types.js';

type PersonInput = NonNullable<RegisterIncidentInput['people']>[number];

/** A kind of volunteer, how many of them a site has, and when they come. */
interface Role {
  code: string;
  name: string;
  skills: readonly Skill[];
  count: Readonly<Record<SiteCode, number>>;
  hours: keyof typeof HOURS;
  /** Fit-tested for a respirator before they came, as who may meet mould must be. */
  fitted?: true;
  /** What nobody of the role may do; in the other roles one in seven has a restriction by chance. */
  restrictions?: readonly Restriction[];
}

/** Shifts of both days, in hours; fewer come back on the second day. The night watch bridges them. */
const HOURS = {
  tests: [[1, 7, 17], [2, 8, 9]],
  day: [[1, 8, 16], [2, 8, 14]],
  early: [[1, 7, 14], [2, 7, 9]],
  late: [[1, 13, 20], [2, 12, 16]],
  dry: [[1, 16, 20], [2, 8, 16]],
  night: [[1, 20, 31]],
} as const;

/**
 * Invented crews: about a third of the hands that the work would take (tested), so that the plan has to choose. The plan
 * gives hands to what is not safe first; what is dry is checked and packed at all because dry-side helpers may not touch
 * wet things.
 */
const ROLES: readonly Role[] = [
  { code: 'TEST', name: 'Colour tester', skills: ['colour-testing'], count: { DYEWORKS: 5, SCHOOL: 1, FISHHALL: 1 }, hours: 'tests' },
  { code: 'LEAD', name: 'Station lead', skills: ['lead', 'assessment', 'mould-work'], count: { DYEWORKS: 1, SCHOOL: 1, FISHHALL: 1 }, hours: 'day', fitted: true },
  { code: 'LOOK', name: 'Assessor', skills: ['assessment', 'intake'], count: { DYEWORKS: 6, SCHOOL: 3, FISHHALL: 1 }, hours: 'early', fitted: true },
  { code: 'LOOK-L', name: 'Assessor, late', skills: ['assessment', 'intake'], count: { DYEWORKS: 2, SCHOOL: 1, FISHHALL: 0 }, hours: 'late', fitted: true },
  { code: 'BATH', name: 'Rinser', skills: ['rinsing', 'blotting', 'drying'], count: { DYEWORKS: 5, SCHOOL: 2, FISHHALL: 1 }, hours: 'day' },
  { code: 'BATH-L', name: 'Rinser, late', skills: ['rinsing', 'blotting', 'drying'], count: { DYEWORKS: 2, SCHOOL: 0, FISHHALL: 0 }, hours: 'late' },
  { code: 'PHOTO', name: 'Photograph hand', skills: ['photographs', 'intake'], count: { DYEWORKS: 3, SCHOOL: 2, FISHHALL: 1 }, hours: 'day' },
  { code: 'PAPER', name: 'Paper hand', skills: ['paper', 'intake'], count: { DYEWORKS: 1, SCHOOL: 1, FISHHALL: 1 }, hours: 'day' },
  { code: 'COLD', name: 'Freezer hand', skills: ['freezer-wrapping', 'intake'], count: { DYEWORKS: 2, SCHOOL: 1, FISHHALL: 1 }, hours: 'day', fitted: true },
  { code: 'COLD-L', name: 'Freezer hand, late', skills: ['freezer-wrapping', 'photographs', 'intake'], count: { DYEWORKS: 1, SCHOOL: 0, FISHHALL: 0 }, hours: 'late', fitted: true },
  { code: 'DRY', name: 'Dry-side helper', skills: ['drying', 'photographs', 'paper', 'intake'], count: { DYEWORKS: 2, SCHOOL: 1, FISHHALL: 1 }, hours: 'dry', restrictions: ['no-wet-work'] },
  { code: 'WATCH', name: 'Night watch', skills: ['lead', 'intake', 'photographs', 'drying'], count: { DYEWORKS: 1, SCHOOL: 1, FISHHALL: 0 }, hours: 'night' },
];

/** A year of fit test that ends well after the flood; invented. */
const FITTED_UNTIL = '2026-12-31';

const RESTRICTIONS: readonly Restriction[] = ['no-mould', 'no-lifting', 'no-heat'];

/** The people of one site. Names are functions, not persons; restrictions are spread by chance. */
export function crewOf(site: SiteCode, seed: number, scale: number): PersonInput[] {
  return ROLES.flatMap((role) => Array.from({ length: headcount(role, site, scale) }, (_, index): PersonInput => {
    const dice = Dice.of(seed, 'person', site, role.code, index);
    return {
      code: `${role.code}-${index + 1}`.concat(site === 'DYEWORKS' ? '' : `-${site}`),
      displayName: `${role.name} ${index + 1}`,
      site,
      skills: [...role.skills],
      restrictions: role.restrictions ? [...role.restrictions] : dice.chance(0.15) ? [dice.pick(RESTRICTIONS)] : [],
      respiratorFitUntil: role.fitted ? FITTED_UNTIL : null,
      shifts: HOURS[role.hours].map(([day, from, to]) => ({ startsAt: at(day, from), endsAt: at(day, to) })),
    };
  }));
}

/** The five testers of the main site are part of the story and stay five at any scale. */
function headcount(role: Role, site: SiteCode, scale: number): number {
  const full = role.count[site];
  if (full === 0 || (role.code === 'TEST' && site === 'DYEWORKS')) return full;
  return Math.max(1, Math.round(full * Math.min(1, scale)));
}

function at(day: 1 | 2, hour: number): string {
  return new Date(momentMs(day, hour)).toISOString();
}
