import type { Row } from './row.js';

const RINSED = ['rinse', 'blot', 'dry', 'check', 'wrap', 'hand-back'] as const;
const BLOTTED = ['blot', 'dry', 'check', 'wrap', 'hand-back'] as const;

/** Care guidance, section 1a, row by row, and what sections 5b-5d say of fibres, dyes, rinsing and drying. */
export const TEXTILE_ROWS: readonly Row[] = [
  {
    row: '1a dyes that bleed', source: 'Salvage at a Glance V (S2); Minnesota Historical Society (S4); AIC wiki (S5); freezing singly: conservator’s blog (S67); 2 h ours',
    what: 'a coverlet whose dye has run', observed: { materialClass: 'textile-flat-large', alreadyBled: true },
    expect: {
      startByHours: 2, binding: 'dye-migration', first: 'refer', bath: 'alone', routes: { treat: ['stabilise', ...BLOTTED], 'hold-frozen': ['stabilise', 'wrap', 'freeze'] },
      says: [
        'Never rinse it together with anything else.', 'Never fold it on itself without a barrier.', 'Never leave it to dry slowly while folded.', 'Barrier between all layers; clean cloth on its upper side, changed as it takes dye.',
        'Wrap singly, freezer or waxed paper between every layer, as few folds as possible.', 'The dye moves: ask a conservator before any water touches it.', 'Anything that it could drip on or touch.', 'Anything that could take its colour.',
      ],
      reasons: ['textile.any-transfer-stops'],
    },
  },
  {
    row: '1a archaeological', source: 'Minnesota Historical Society (S4); K. Francis (S6); 2 h and the freezer bar ours', what: 'archaeological cloth, turning to jelly', observed: { materialClass: 'textile-archaeological', fragility: 'very-degraded' },
    expect: {
      startByHours: 2, binding: 'distortion', open: ['refer'],
      says: ['Never lift it without a support under all of it.', 'Never rinse it without a conservator.', 'Wet old wool may turn to jelly.', 'Archaeological or gelatinising cloth: support all of it, ask a conservator at once.', 'Never freeze archaeological cloth without a conservator saying so.'],
    },
  },
  {
    row: '1a archaeological', source: 'Minnesota Historical Society (S4); K. Francis (S6); freezing: CERF+ (S29)', what: 'a very degraded shawl of unknown age', observed: { materialClass: 'textile-very-degraded', fragility: 'very-degraded' },
    expect: { startByHours: 2, first: 'refer', open: ['refer', 'hold-frozen'], says: ['Carry it on a support; do not pull.'] },
  },
  {
    row: '1a small flat', source: 'Salvage at a Glance V (S2)', what: 'a dye-fast sampler', observed: { materialClass: 'textile-flat-small' },
    expect: { startByHours: 48, binding: 'mould', open: ['treat', 'hold-frozen', 'refer'], routes: { treat: RINSED, 'hold-frozen': ['wrap', 'freeze'] }, says: ['Never wring or twist it.', 'Boxed for freezing: small groups, freezer or waxed paper between them.'] },
  },
  {
    row: '1a large flat', source: 'NPS (S1); S2; S4', what: 'a dye-fast flag', observed: { materialClass: 'textile-flat-large' },
    expect: {
      startByHours: 48, open: ['treat', 'hold-frozen', 'refer'], routes: { treat: RINSED }, keepsOff: ['no-lifting'],
      says: ['Never lift it by an edge.', 'Never stack it wet.', 'Never unfold it before a prepared space is free.', 'Let the water run off without squeezing; then move it with two people or more, on a board, sling or stretched cloth.', 'Two people, drained first, sling or board. Never a full tub on a wet floor.'],
    },
  },
  {
    row: '1a stuffed quilt', source: 'CCI Notes 13/14 (S18); S2; S. Ellis (S55); batting from memory', what: 'a soaked quilt whose dyes pass', observed: { materialClass: 'textile-quilt-padded' },
    expect: { startByHours: 48, first: 'treat', routes: { treat: RINSED }, says: ['Tell a conservator about every padded or many-fabric quilt in the line.', 'Feel for damp inside, not at the surface, before it counts as dry.', 'Never wash it once it is dry.'] },
  },
  {
    row: '1a stuffed quilt', source: 'CCI Notes 13/14 (S18), 13/7 (S19)', what: 'the same quilt, dry', observed: { materialClass: 'textile-quilt-padded', wetState: 'dry' }, hours: 72,
    expect: { urgency: 'can-wait', binding: null, open: ['treat', 'refer'], routes: { treat: ['surface-clean', 'check', 'wrap', 'hand-back'] }, says: ['Never wash or wet it again without a conservator.'] },
  },
  {
    row: '1a garments, hats, shoes', source: 'S4; AIC wiki (S5); CERF+ (S29)', what: 'a wedding dress', observed: { materialClass: 'textile-garment-3d' },
    expect: { startByHours: 48, open: ['treat', 'hold-frozen', 'refer'], routes: { treat: RINSED }, says: ['Never hang a wet costume.', 'Carry it on a sling; tag every part that comes off and keep it with the rest.', 'Pad it out to its shape with absorbent filling; dry it flat or supported.'] },
  },
  {
    row: '1a garments, hats, shoes', source: 'S4; AIC wiki (S5)', what: 'a felt hat', observed: { materialClass: 'textile-hat-or-shoe', fibre: 'unknown', water: 'black' },
    expect: { startByHours: 48, open: ['treat', 'hold-frozen', 'refer'], routes: { treat: ['blot', 'dry', 'surface-clean', 'check', 'wrap', 'hand-back'] }, says: ['Never hang a wet hat or shoe.', 'Pad it out with absorbent filling; tag every part that comes off.'] },
  },
  {
    row: '1a composite costume', source: 'S5; S. Ellis (S55); AIC Textile Specialty Group (S81); CERF+ (S29) on freezing; 24 h ours', what: 'a beaded dress with a metal zip', observed: { materialClass: 'textile-composite' },
    expect: {
      startByHours: 24, binding: 'corrosion', open: ['treat', 'refer'], routes: { treat: BLOTTED },
      says: ['Never give it a long bath.', 'Iron stains, bone and baleen warp and may need weights while drying, gelatin sequins dissolve.', 'Never freeze it without a conservator saying so.', 'Cloth and paper that wet metal could touch.'],
    },
  },
  {
    row: '1a composite costume', source: 'own: what is not rinsed is brushed when dry', what: 'a beaded dress from river water', observed: { materialClass: 'textile-composite', water: 'black' },
    expect: { routes: { treat: ['blot', 'dry', 'surface-clean', 'check', 'wrap', 'hand-back'] } },
  },
  {
    row: '1a silk', source: 'NPS (S1); S81; spotting from memory', what: 'a sound silk scarf', observed: { materialClass: 'textile-silk', fibre: 'silk' },
    expect: { startByHours: 48, open: ['treat', 'hold-frozen', 'refer'], routes: { treat: RINSED }, says: ['Least handling, flat, on a support.', 'Wet evenly or not at all; support every move.', 'If the silk is painted, or stiff and splitting as weighted silk is: stop, keep it flat and supported, ask a conservator.'] },
  },
  { row: '1a silk', source: 'NPS (S1); S81', what: 'weak old silk', observed: { materialClass: 'textile-silk', fibre: 'silk', fragility: 'weak' }, expect: { first: 'refer' } },
  {
    row: '1a silk', source: 'AIC Textile Specialty Group (S81); freezing: S29, S82, S30', what: 'painted or weighted silk', observed: { materialClass: 'textile-silk-painted-or-weighted', fibre: 'silk' },
    expect: { startByHours: 48, open: ['refer'], says: ['Never treat painted or weighted silk without a conservator.', 'Painted or weighted silk: stop, keep it flat and supported, ask a conservator.', 'Never freeze painted or weighted silk without a conservator saying so.'] },
  },
  {
    row: '1a wool', source: 'NPS (S1); prohibitions from memory', what: 'a woollen blanket', observed: { materialClass: 'textile-wool', fibre: 'wool' },
    expect: { startByHours: 48, open: ['treat', 'hold-frozen', 'refer'], routes: { treat: RINSED }, says: ['Never use hot water on wool.', 'Never agitate or rub wool.', 'Support its weight; wet wool is weak and heavy.'] },
  },
  { row: '1a cotton, linen', source: 'CCI Notes 13/15 (S17)', what: 'a linen napkin', observed: { fibre: 'linen' }, expect: { first: 'treat', says: ['Never wring cotton or linen.'] } },
  {
    row: '1a rayon, acetate', source: 'CCI Notes 13/14 (S18), 13/7 (S19); half strength from memory', what: 'a viscose blouse', observed: { materialClass: 'textile-garment-3d', fibre: 'viscose' },
    expect: { startByHours: 48, says: ['Least handling: rinse only what is soaked and dirty, on a screen.', 'Lift only on a support: the wet cloth has about half its strength.'] },
  },
  { row: '1a nylon, polyester, acrylic', source: 'CCI Notes 13/15 (S17)', what: 'a polyester jacket', observed: { materialClass: 'textile-garment-3d', fibre: 'polyester' }, expect: { startByHours: 48, says: ['Never dry synthetics with heat.'] } },
  {
    row: '1a chintz, painted, gilded', source: 'K. Francis (S6); CCI 13/14 (S18); freezing: S29, S82', what: 'a painted banner', observed: { materialClass: 'textile-painted-or-glazed' },
    expect: {
      startByHours: 48, open: ['refer', 'treat'], routes: { treat: ['dry', 'check', 'wrap', 'hand-back'] },
      says: ['Never blot the painted or glazed face.', 'Never immerse it.', 'Finish or paint lifts: face up, nothing touching it.', 'Never freeze it without a conservator saying so.'],
    },
  },
  {
    row: '1a knits, bias-cut, lined', source: 'CCI 13/14 (S18); K. Francis (S6); freezing: CERF+ (S29)', what: 'a lined, bias-cut gown', observed: { materialClass: 'textile-knit-bias-or-lined', fibre: 'acetate', water: 'grey' },
    expect: {
      startByHours: 48, open: ['treat', 'refer', 'hold-frozen'], routes: { treat: ['blot', 'dry', 'surface-clean', 'check', 'wrap', 'hand-back'] },
      says: ['Never hang a knitted, bias-cut or lined garment.', 'Never rinse a knitted, bias-cut or lined garment before a conservator has answered.', 'Block it to shape, flat; lining and cover shrink differently.'],
    },
  },
  {
    row: '1a pillows, stuffed toys', source: 'NPS (S1); CDC (S34)', what: 'a pillow without meaning, from river water', observed: { materialClass: 'textile-stuffed', significance: 'everyday', water: 'black' },
    expect: { first: 'release', routes: { treat: ['pack', 'hand-back'] }, says: ['Never let it take drying space from heirlooms.', 'owner’s recorded agreement to let it go'] },
  },
  {
    row: '1a pillows, stuffed toys', source: 'own, between NPS and CDC (section 11 row 2)', what: 'a child’s bear, from river water', observed: { materialClass: 'textile-stuffed', significance: 'treasured', water: 'black' },
    expect: { first: 'treat', routes: { treat: RINSED }, open: ['treat', 'hold-frozen', 'refer'] },
  },
  {
    row: '1a everyday clothing', source: 'CDC (S34); NPS (S1)', what: 'a bag of everyday shirts', observed: { materialClass: 'textile-everyday', significance: 'everyday' },
    expect: { first: 'treat', open: ['treat', 'refer'], routes: { treat: ['pack', 'hand-back'] }, says: ['Never mix it with heirlooms.', 'For the household: hot water and detergent, apart from clean loads.', 'Clean loads and heirlooms.'] },
  },
  { row: '1a everyday clothing', source: 'own: the owner weighs what a thing means', what: 'a shirt its family treasures', observed: { materialClass: 'textile-everyday' }, expect: { routes: { treat: RINSED }, reasons: ['textile.everyday.treasured'] } },
  {
    source: '5b: NPS (S1); CCI 13/14 (S18); AIC (S81); within a day ours', what: 'colours that nobody has tested', observed: { allColoursTested: false, colourTests: [] },
    expect: {
      startByHours: 24, binding: 'dye-migration', bath: 'alone', routes: { treat: ['colour-test', ...RINSED] },
      says: ['Never rinse before every colour, repair fabric and thread is tested.', 'Swab every colour, repair fabric and thread; backings and sewing threads too. The test is not foolproof.'],
    },
  },
  {
    source: '5b, own mapping of ISO 105-A03 grades', what: 'grade 4-5', observed: { colourTests: [{ colour: 'red', solution: 'water', method: 'blotter', reading: '4-5' }] },
    expect: { bath: 'alone', routes: { treat: RINSED }, says: ['Alone in its bath, cold, and out at the first colour in the water.'], reasons: ['textile.grade-mapping'] },
  },
  { source: '5b: CCI 13/14 (S18), one factor among many', what: 'all colours passed', observed: {}, expect: { bath: 'shared', says: ['If the water colours: out at once, blot, lay flat, report that the dye moved.'] } },
  { source: 'own: the weakest fibre', what: 'a fibre nobody knows', observed: { fibre: 'unknown' }, expect: { says: ['Never use hot water or agitation while the fibre is not known.'] } },
  {
    source: '5c: Tieu (S56), S72, FEMA 2017 (S31), S2, CCI 13/7 (S19)', what: 'how a textile is rinsed', observed: {},
    expect: { says: ['Never wring, spin, machine-wash, tumble or iron it.', 'Cool water, flow not jet; ease silt with a soft brush; change baths until clear; press out with the palm.', 'Plain water only; detergent is a conservator’s decision.'] },
  },
  {
    source: '5d: S2, S4, S3', what: 'how a textile is dried', observed: {},
    expect: { says: ['One layer, flat, absorbent under and over, indoors with the lights on.', 'Palm pressure with lint-free towels.', 'Fans low and indirect, across the cloth from a distance.'] },
  },
  { source: '5d: S2', what: 'the cloth on a flat textile', observed: { materialClass: 'textile-quilt-padded' }, expect: { says: ['Press a clean cloth to its upper side and leave it there until all is dry: the soil moves into the cloth.'] } },
  { source: '5d: S5', what: 'the cloth where dye moves: another rule', observed: { alreadyBled: true }, expect: { silentOn: ['Press a clean cloth to its upper side and leave it there until all is dry: the soil moves into the cloth.'] } },
  { source: '5a, 4a: NPS (S1); S2', what: 'cleaning and drying reckoned together', observed: {}, expect: { says: ['Reckon cleaning and drying together: what cannot be clean and dry in time goes to the freezer first, where its material may be frozen.'] } },
  {
    row: '1a chintz, painted, gilded', source: 'K. Francis (S6); CCI 13/14 (S18)', what: 'a painted banner: nothing is laid on it', observed: { materialClass: 'textile-painted-or-glazed' },
    expect: { says: ['Finish or paint lifts: face up, nothing touching it.'], silentOn: ['One layer, flat, absorbent under and over, indoors with the lights on.', 'Press a clean cloth to its upper side and leave it there until all is dry: the soil moves into the cloth.'] },
  },
  { row: '1a rayon, acetate', source: 'CCI 13/14 (S18), 13/7 (S19)', what: 'an acetate lining', observed: { fibre: 'acetate' }, expect: { says: ['Never wash it once it is dry.'] } },
  { source: 'section 9 no. 12', what: 'sharp things in folds', observed: {}, expect: { says: ['Look before you touch, do not squeeze, never reach into folds or pockets: there may be glass or needles.'] } },
];
