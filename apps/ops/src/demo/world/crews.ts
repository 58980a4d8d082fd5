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
}

/** Shifts of both days, in hours; the night watch bridges them. */
const HOURS = {
  long: [[1, 7, 20], [2, 7, 20]],
  day: [[1, 8, 16], [2, 8, 16]],
  early: [[1, 7, 14], [2, 7, 13]],
  late: [[1, 13, 20], [2, 13, 20]],
  night: [[1, 20, 31]],
} as const;

/** Invented crews: less than half of the hands that the work would take (tested), so that the plan has to choose. */
const ROLES: readonly Role[] = [
  { code: 'TEST', name: 'Colour tester', skills: ['colour-testing'], count: { DYEWORKS: 5, SCHOOL: 1, FISHHALL: 1 }, hours: 'long' },
  { code: 'LEAD', name: 'Station lead', skills: ['lead', 'assessment', 'mould-work'], count: { DYEWORKS: 1, SCHOOL: 1, FISHHALL: 1 }, hours: 'day' },
  { code: 'LOOK', name: 'Assessor', skills: ['assessment', 'intake'], count: { DYEWORKS: 7, SCHOOL: 3, FISHHALL: 1 }, hours: 'early' },
  { code: 'LOOK-L', name: 'Assessor, late', skills: ['assessment', 'intake'], count: { DYEWORKS: 2, SCHOOL: 1, FISHHALL: 1 }, hours: 'late' },
  { code: 'BATH', name: 'Rinser', skills: ['rinsing', 'blotting', 'drying'], count: { DYEWORKS: 5, SCHOOL: 2, FISHHALL: 2 }, hours: 'day' },
  { code: 'BATH-L', name: 'Rinser, late', skills: ['rinsing', 'blotting', 'drying'], count: { DYEWORKS: 2, SCHOOL: 0, FISHHALL: 0 }, hours: 'late' },
  { code: 'PHOTO', name: 'Photograph hand', skills: ['photographs', 'intake'], count: { DYEWORKS: 3, SCHOOL: 2, FISHHALL: 1 }, hours: 'day' },
  { code: 'PAPER', name: 'Paper hand', skills: ['paper', 'intake'], count: { DYEWORKS: 1, SCHOOL: 1, FISHHALL: 1 }, hours: 'day' },
  { code: 'COLD', name: 'Freezer hand', skills: ['freezer-wrapping', 'intake'], count: { DYEWORKS: 2, SCHOOL: 1, FISHHALL: 1 }, hours: 'day' },
  { code: 'COLD-L', name: 'Freezer hand, late', skills: ['freezer-wrapping', 'photographs', 'intake'], count: { DYEWORKS: 2, SCHOOL: 0, FISHHALL: 0 }, hours: 'late' },
  { code: 'WATCH', name: 'Night watch', skills: ['lead', 'intake', 'photographs', 'drying'], count: { DYEWORKS: 1, SCHOOL: 1, FISHHALL: 0 }, hours: 'night' },
];

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
      restrictions: dice.chance(0.15) ? [dice.pick(RESTRICTIONS)] : [],
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
