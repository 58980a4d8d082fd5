import { describe, expect, test } from '@jest/globals';
import type { Assessment, Disposition, MaterialClass, Rule } from '#care';
import { bookOf, buildBook, DEFAULT_CALIBRATION, DISPOSITIONS, RELEASES, triageOutcome } from '#care';
import { contextAt, knownAssessment } from './assessment.support.js';

/** A careless rule that offers every way to everything: bars must hold against it. */
const CARELESS: Rule = {
  id: 'synthetic.offers-everything', text: 'Offers every way to everything.', because: [], applies: () => true,
  concludes: DISPOSITIONS.map((disposition) => ({ kind: 'offer', disposition, rank: 0, steps: disposition === 'treat' ? ['rinse', 'blot', 'dry'] : ['stabilise', 'freeze'] })),
  source: { mark: 'own-calibration', cite: 'Our own calibration: synthetic.' },
};
describe.each(RELEASES)('release %s', (release) => {
  const CARELESS_BOOK = bookOf([...buildBook({ release }).rules, CARELESS], 'careless', { release });

  const outcome = (changes: Partial<Assessment>) => triageOutcome(knownAssessment(changes), contextAt(1), DEFAULT_CALIBRATION, CARELESS_BOOK);
  const open = (changes: Partial<Assessment>): Disposition[] => outcome(changes).options.map(({ disposition }) => disposition);
  const treatSteps = (changes: Partial<Assessment>) => outcome(changes).options.find(({ disposition }) => disposition === 'treat')?.steps.map(({ step }) => step) ?? [];

  describe('a bar holds against any rule that offers the way', () => {
    test('a sound cotton cloth has every way open under the careless book', () => expect([...open({})].sort()).toEqual([...DISPOSITIONS].sort()));

    const NEVER_FROZEN: MaterialClass[] = [
      'textile-composite', 'textile-painted-or-glazed', 'textile-silk-painted-or-weighted', 'textile-archaeological', 'paper-framed', 'photo-inkjet-or-digital-print', 'photo-unknown-process', 'photo-collodion-or-tintype',
      'photo-daguerreotype', 'photo-glass-plate-gelatin', 'photo-lantern-slide-or-autochrome', 'film-roll', 'tape-ferric', 'tape-metal-particle', 'tape-acetate-reel', 'floppy-disc', 'disc-optical', 'drive-or-memory-card',
      'device-with-battery', 'painting-canvas', 'wood-painted-or-gilded', 'furniture-solid-wood', 'furniture-veneered-or-inlaid', 'musical-instrument', 'bone-or-ivory', 'horn-baleen-or-shell', 'taxidermy-or-skin', 'herbarium',
      'mineral-or-fossil', 'basket-or-plant-fibre', 'ceramic-glazed', 'ceramic-low-fired', 'glass-object', 'stone', 'metal-iron', 'metal-other', 'unknown',
    ];
    test.each(NEVER_FROZEN)('%s is not frozen', (materialClass) => expect(open({ materialClass })).not.toContain('hold-frozen'));

    const NEVER_TREATED: MaterialClass[] = [
      'textile-very-degraded', 'textile-archaeological', 'textile-silk-painted-or-weighted', 'parchment', 'album-or-scrapbook', 'photo-stuck-together', 'film-roll', 'film-nitrate-deteriorated', 'tape-ferric', 'tape-metal-particle', 'tape-acetate-reel',
      'drive-or-memory-card', 'device-with-battery', 'leather-semi-tanned', 'taxidermy-or-skin', 'herbarium', 'unknown',
    ];
    test.each(NEVER_TREATED)('%s is not treated here', (materialClass) => expect(open({ materialClass })).not.toContain('treat'));

    const NEVER_HELD_WET: MaterialClass[] = ['tape-metal-particle', 'tape-acetate-reel', 'drive-or-memory-card', 'device-with-battery', 'ceramic-low-fired', 'taxidermy-or-skin', 'unknown'];
    test.each(NEVER_HELD_WET)('%s is not held wet', (materialClass) => expect(open({ materialClass })).not.toContain('hold-wet'));

    test.each(['sewage', 'fuel-or-solvent', 'pesticide', 'asbestos', 'ammunition', 'lithium-cell', 'nitrate-film'] as const)('%s stops treating and holding wet', (hazard) => {
      expect(open({ hazards: [hazard] })).not.toContain('treat');
      expect(open({ hazards: [hazard] })).not.toContain('hold-wet');
    });

    test.each(['fuel-or-solvent', 'pesticide', 'asbestos', 'ammunition', 'lithium-cell'] as const)('%s keeps it out of the freezer', (hazard) => expect(open({ hazards: [hazard] })).not.toContain('hold-frozen'));

    test('a dry thing goes into no freezer and no tub, and a mouldy dry one into no tub', () => {
      expect(open({ wetState: 'dry' })).not.toContain('hold-frozen');
      expect(open({ wetState: 'dry' })).not.toContain('hold-wet');
      expect(open({ wetState: 'dry', mould: 'active' })).not.toContain('hold-wet');
    });

    test('an owner who keeps it keeps it', () => expect(open({ consents: { treat: true, freeze: true, refer: true, release: false } })).not.toContain('release'));

    test.each<[string, Partial<Assessment>]>([
      ['mould', { mould: 'active' }], ['a bleeding cloth', { alreadyBled: true }], ['soluble media', { materialClass: 'paper-soluble-media' }], ['a painted banner', { materialClass: 'textile-painted-or-glazed' }],
      ['a beaded dress', { materialClass: 'textile-composite' }], ['a print whose image runs', { materialClass: 'photo-colour-print', alreadyBled: true }], ['a chest whose stain runs', { materialClass: 'furniture-solid-wood', alreadyBled: true }],
    ])('%s is not rinsed, whatever route is offered', (_what, changes) => expect(treatSteps(changes)).not.toContain('rinse'));

    test.each<[string, Partial<Assessment>]>([['soluble media', { materialClass: 'paper-soluble-media' }], ['a painted banner', { materialClass: 'textile-painted-or-glazed' }], ['mould', { mould: 'active' }]])('%s is not blotted', (_what, changes) => expect(treatSteps(changes)).not.toContain('blot'));

    test.each<[string, Partial<Assessment>]>([
      ['mould', { mould: 'active' }], ['a bleeding cloth', { alreadyBled: true }], ['untested colours', { allColoursTested: false }], ['a mixed object', { parts: ['metal-iron'] }], ['a thing nobody can name', { materialClass: 'unknown' }],
      ['a thing with a hazard', { hazards: ['lead'] }], ['soluble media', { materialClass: 'paper-soluble-media' }], ['a chest whose stain runs', { materialClass: 'furniture-solid-wood', alreadyBled: true }],
    ])('%s shares its bath with nothing', (_what, changes) => expect(outcome(changes).bathGroup).toBeNull());
  });
});
