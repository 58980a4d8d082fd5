import type { z } from 'zod';
import type { ClaimView, ComparisonView, FoundListRecord, FoundRecordView, HouseholdLookup, OwnerMarkRecord, TakenInFoundItem } from '#application';
import { COMPARISON_CAUTION } from '#application';
import { render, type Language, type Message } from '#care';
import type { ClaimComparisonBody, FoundItemBody, FoundListItemBody, FoundNoticeBody, FoundRecordBody, HouseholdLookupBody, OwnerMarkBody, OwnershipClaimBody } from '#contracts';
import { formatTagCode } from '#custody';
import { iso, isoOrNull } from '../../presenters/time.js';

export function presentFoundItem({ found, item, marks }: TakenInFoundItem): z.output<typeof FoundItemBody> {
  return { id: found.id, itemId: item.id, incidentId: found.incidentId, tag: formatTagCode(item.tagCode), foundOn: found.foundOn, questions: marks, ownerKnown: found.grantedClaimId !== null };
}

export function presentFoundInList({ tagCode, recordedAtMs, ...rest }: FoundListRecord): z.output<typeof FoundListItemBody> {
  return { ...rest, tag: formatTagCode(tagCode), recordedAt: iso(recordedAtMs) };
}

export function presentClaim({ claim, itemId, acceptances, toTell }: ClaimView, language: Language): z.output<typeof OwnershipClaimBody> {
  const { id, householdId, state, reason, takenBy, version } = claim;
  return { id, itemId, householdId, state, reason, acceptances, toTell: render(toTell, language), takenBy, takenAt: iso(claim.takenAtMs), endedAt: isoOrNull(claim.endedAtMs), version };
}

export function presentFoundRecord({ found, place, finder, questions, claims }: FoundRecordView, language: Language): z.output<typeof FoundRecordBody> {
  const { id, itemId, incidentId, foundOn, recordedBy } = found;
  return { id, itemId, incidentId, foundOn, foundPlace: place, finder, recordedBy, recordedAt: iso(found.recordedAtMs), ownerKnown: found.grantedClaimId !== null, questions, claims: claims.map((view) => presentClaim(view, language)) };
}

export function presentMark({ id, itemId, recordedBy, recordedAtMs }: OwnerMarkRecord): z.output<typeof OwnerMarkBody> {
  return { id, itemId, recordedBy, recordedAt: iso(recordedAtMs) };
}

/** A notice hangs where people of both languages pass. */
export function presentNotice(itemId: string, words: readonly Message[]): z.output<typeof FoundNoticeBody> {
  const inOne = (language: Language) => words.map((sentence) => render(sentence, language)).join(' ');
  return { itemId, en: inOne('en'), es: inOne('es') };
}

export function presentComparison({ claim, itemId, statement, rows }: ComparisonView, language: Language): z.output<typeof ClaimComparisonBody> {
  return { ownershipClaimId: claim.id, itemId, statement, rows, caution: render(COMPARISON_CAUTION, language) };
}

export function presentLookup({ matches, more, how }: HouseholdLookup, language: Language): z.output<typeof HouseholdLookupBody> {
  return { items: matches.map(({ household, matched }) => ({ id: household.id, code: household.code, language: household.language, matched })), more, how: render(how, language) };
}
