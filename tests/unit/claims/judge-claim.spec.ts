/** All rules and figures here are our own: who asks, who knows and who decides are not the same. */
import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { ACCEPTANCES, contactWords, emailWord, faultOfDecider, faultOfLooker, faultOfTaker, nameWord, outcomeOf, phoneWord } from '#application';

const names = fc.constantFrom('ann', 'ben', 'cleo', 'dov');
const keys = fc.constantFrom('key-1', 'key-2', 'key-3');
const actor = fc.record({ personId: names, principalId: keys });
const claim = fc.record({ id: fc.constant('claim'), takenBy: names, takenWith: keys });

describe('a claim', () => {
  test('is granted by two different people with two different keys only, none of whom took its answers, whoever tries in whatever order', () => {
    fc.assert(fc.property(claim, fc.array(fc.record({ who: actor, accepts: fc.boolean(), looksFirst: fc.boolean() }), { maxLength: 12 }), (asked, tries) => {
      const decisions: { personId: string; principalId: string; accepts: boolean }[] = [];
      const looks: { claimId: string; personId: string }[] = [];
      for (const { who, accepts, looksFirst } of tries) {
        if (outcomeOf(decisions) !== 'open') break;
        if (looksFirst && faultOfLooker(who, asked) === null) looks.push({ claimId: 'claim', personId: who.personId });
        if (faultOfDecider(who, asked, decisions, looks) === null) decisions.push({ ...who, accepts });
      }
      if (outcomeOf(decisions) === 'granted') {
        expect(new Set(decisions.map(({ personId }) => personId)).size).toBe(ACCEPTANCES);
        expect(new Set(decisions.map(({ principalId }) => principalId)).size).toBe(ACCEPTANCES);
        expect(decisions.every(({ accepts }) => accepts)).toBe(true);
      }
      expect(decisions.some((made) => made.personId === asked.takenBy || made.principalId === asked.takenWith)).toBe(false);
      expect(decisions.every((made) => looks.some((look) => look.personId === made.personId))).toBe(true);
    }));
  });

  test('is declined by one doubt, also after a yes', () => {
    expect([outcomeOf([]), outcomeOf([{ accepts: true }]), outcomeOf([{ accepts: true }, { accepts: true }]), outcomeOf([{ accepts: false }]), outcomeOf([{ accepts: true }, { accepts: false }])]).toEqual(['open', 'open', 'granted', 'declined', 'declined']);
  });

  test('takes no answers by who wrote the marks down or has seen them, under the same name or with the same key', () => {
    const marks = [{ recordedBy: 'ann', recordedWith: 'key-3' }];
    const looks = [{ personId: 'ben', principalId: 'key-2' }];
    expect(['ann', 'ben', 'cleo'].map((personId) => faultOfTaker({ personId, principalId: 'key-1' }, marks, looks))).toEqual(['knows-the-answers', 'knows-the-answers', null]);
    for (const principalId of ['key-2', 'key-3']) expect(faultOfTaker({ personId: 'cleo', principalId }, marks, looks)).toBe('knows-the-answers');
  });
});

describe('what a household is found by', () => {
  test.each([
    ['José  ÁLVAREZ-Peña', 'jose alvarez pena'], ["O'Hara, Mary", 'ohara mary'], ['  Lee\tAnh ', 'lee anh'], ['Ｗｉｄｅ', 'wide'], ['山田 太郎', '山田 太郎'], ['—', ''],
  ])('the name %j counts as %j', (written, word) => expect(nameWord(written)).toBe(word));

  test.each([['+43 (699) 123-456', '43699123456'], ['0043 699 123 456', '43699123456'], ['0699/123456', '0699123456'], ['12 34', ''], ['', '']])('the number %j counts as %j', (written, word) => expect(phoneWord(written)).toBe(word));

  test.each([[' Ann@Families.EXAMPLE ', 'ann@families.example'], ['ann at home', ''], ['@', '']])('the address %j counts as %j', (written, word) => expect(emailWord(written)).toBe(word));

  test('spelling a name in other capitals, accents or blanks finds the same, and nothing blank is kept', () => {
    fc.assert(fc.property(fc.string({ unit: 'grapheme', maxLength: 40 }), (name) => {
      expect(nameWord(nameWord(name))).toBe(nameWord(name));
      expect(nameWord(` ${name.normalize('NFD')}  `)).toBe(nameWord(name));
      expect(contactWords({ name, phone: name, email: name }).every(({ word }) => word.trim() !== '')).toBe(true);
    }));
  });
});
