import type { NetworkKey, SiteCode } from './types.js';

/** The invented region: no such river, valley or hall exists. */
export const REGION = { river: 'Selm', valley: 'Lower Selm valley', flood: 'High water of the Selm' } as const;

/** The two networks that respond, each with an incident of its own for the same river. */
export const NETWORKS: Readonly<Record<NetworkKey, { name: string; place: string }>> = {
  valley: { name: 'Selm Valley Wet Salvage', place: 'Lower Selm valley, left bank (invented)' },
  bank: { name: 'Hollin Bank Neighbours', place: 'Hollin Bank, right bank (invented)' },
};

/** Which network runs a site. */
export const NETWORK_OF_SITE: Readonly<Record<SiteCode, NetworkKey>> = { DYEWORKS: 'valley', SCHOOL: 'valley', FISHHALL: 'bank' };

/** The site of the five colour testers, the tripping dehumidifier and the freezer trailer. */
export const MAIN_SITE: SiteCode = 'DYEWORKS';

/** Codes that the day's mishaps name. */
export const CODES = { trippingDehumidifier: 'D2', hall: 'UPPER', trailer: 'TRAILER', testers: ['TEST-1', 'TEST-2', 'TEST-3', 'TEST-4', 'TEST-5'] } as const;
