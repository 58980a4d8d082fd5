import type { Row } from './row.js';

const INTERLEAVED = ['stabilise', 'dry', 'check', 'wrap', 'hand-back'] as const;
const AIR_DRIED = ['dry', 'check', 'wrap', 'hand-back'] as const;
const RINSED = ['rinse', 'dry', 'check', 'wrap', 'hand-back'] as const;

/** Care guidance, section 1b, row by row. */
export const PAPER_ROWS: readonly Row[] = [
  {
    row: '1b uncoated documents', source: 'Iowa chart (S7); Texas (S30)', what: 'a bundle of certificates', observed: { materialClass: 'paper-uncoated' },
    expect: { startByHours: 48, open: ['treat', 'hold-frozen', 'refer'], routes: { treat: INTERLEAVED, 'hold-frozen': ['stabilise', 'wrap', 'freeze'] }, says: ['Never separate or unfold single wet sheets.', 'Piles no thicker than about 6 mm (1/4 in), interleaved.'] },
  },
  {
    row: '1b water-soluble media', source: 'Iowa chart (S7); UNESCO R8707 (S27); 2 h ours', what: 'letters in fountain-pen ink', observed: { materialClass: 'paper-soluble-media' },
    expect: { startByHours: 2, binding: 'image-loss', open: ['hold-frozen', 'treat', 'refer'], bath: 'alone', says: ['Never blot it.'] },
  },
  { row: '1b water-soluble media', source: 'S7, carried to any paper whose ink runs', what: 'a certificate whose ink has run', observed: { materialClass: 'paper-uncoated', alreadyBled: true }, expect: { startByHours: 2, first: 'hold-frozen', says: ['Never blot it.'] } },
  { row: '1b maps, posters', source: 'S7', what: 'a map', observed: { materialClass: 'paper-oversize' }, expect: { startByHours: 48, open: ['treat', 'hold-frozen', 'refer'], says: ['Flat on its support in every move, in the freezer too.', 'Never separate or unfold single wet sheets.'] } },
  {
    row: '1b coated paper', source: 'S7, S9, NLM (S22), Waters (S26); 6 h trade figure (S85); wet holding ours', what: 'a glossy catalogue', observed: { materialClass: 'paper-coated' },
    expect: {
      startByHours: 6, binding: 'blocking', open: ['hold-frozen', 'hold-wet', 'treat', 'refer'],
      says: [
        'Never let it dry in a block.', 'Never force leaves apart.', 'Never compress it tightly.', 'Keep it wet and covered; if it begins to dry before freezing, wet it again with clean cold water.',
        'Air drying only for a few leaves that part freely, every leaf interleaved.', 'Wet holding is a bridge of hours: the mould clock goes on.',
      ],
    },
  },
  {
    row: '1b books', source: 'S7, S9, S26; nine-tenths: chart quoted by a blog (S73c)', what: 'a soaked hymn book', observed: { materialClass: 'book-bound', wetState: 'dripping' },
    expect: {
      startByHours: 48, open: ['hold-frozen', 'treat', 'refer'],
      says: [
        'Spine down, one layer, crate not crammed.', 'Most of the swelling comes in the first four hours or so.', 'Never open a closed wet book or close an open one.', 'Never remove the covers.', 'Only a closed muddy book may be rinsed, held shut.',
        'Crates nine-tenths full at most.',
      ],
    },
  },
  { row: '1b books', source: '4b: MNHS books (S9), Waters (S26)', what: 'the room in which books dry', observed: { materialClass: 'book-leather-or-vellum' }, expect: { says: ['Keep the room at 50 % relative humidity or less. A room that reads dry does not make the book dry.'] } },
  { row: '1b books', source: 'S7, S9', what: 'a damp book', observed: { materialClass: 'book-bound', wetState: 'damp' }, expect: { first: 'treat', routes: { treat: INTERLEAVED } } },
  { row: '1b books', source: 'MNHS (S9): fewer than about 100', what: 'a hundred damp books', observed: { materialClass: 'book-bound', wetState: 'damp', count: 100 }, expect: { first: 'hold-frozen' } },
  {
    row: '1b leather, vellum bindings', source: 'S7, Louisiana (S8), NLM (S24)', what: 'a leather-bound bible', observed: { materialClass: 'book-leather-or-vellum' },
    expect: {
      startByHours: 2, binding: 'distortion', open: ['treat', 'hold-frozen', 'refer'],
      says: ['Never freeze-dry illuminated or gilded volumes.', 'The shape in which it goes in is the shape in which it comes out: square it up first.', 'Crates of leather and vellum bindings three-quarters full.'],
    },
  },
  { row: '1b leather, vellum bindings', source: 'Louisiana (S8): many; the number ours', what: 'forty leather bindings', observed: { materialClass: 'book-leather-or-vellum', count: 40 }, expect: { first: 'hold-frozen' } },
  {
    row: '1b parchment', source: 'AIC wiki, skin and leather (S14); 2 h ours', what: 'a guild letter on parchment', observed: { materialClass: 'parchment' },
    expect: { startByHours: 2, binding: 'distortion', open: ['refer', 'hold-frozen'], says: ['Never soak it for long.', 'Never warm it.', 'It shrinks, cockles and turns to jelly.', 'Parchment or vellum: keep flat and cool, ask a conservator.'] },
  },
  {
    row: '1b framed works', source: 'S7, Iowa drying page (S73b); glass: Texas (S30)', what: 'a framed pastel', observed: { materialClass: 'paper-framed' },
    expect: { startByHours: 48, open: ['treat', 'refer'], says: ['Never peel it from the glass.', 'Pastel, watercolour and ink follow the soluble-media rule.', 'Stuck to the glass: leave it there and dry it with the glass side down.', 'Never freeze it with its glass.'] },
  },
  {
    row: '1b scrapbooks, albums', source: 'Louisiana (S8); weakest part from memory; no drying here ours', what: 'a wedding album', observed: { materialClass: 'album-or-scrapbook' },
    expect: { startByHours: 48, open: ['hold-frozen', 'refer'], says: ['Never take stuck pages apart.', 'Never air dry a wet album here.', 'Look for photographs, soluble ink and coated pages: the most fragile part decides.'] },
  },
  { source: 'practice: dried silt is brushed', what: 'papers from river water', observed: { materialClass: 'paper-uncoated', water: 'black' }, expect: { routes: { treat: ['stabilise', 'dry', 'surface-clean', 'check', 'wrap', 'hand-back'] } } },
  { source: 'section 6c, own', what: 'letters show other people', observed: { materialClass: 'paper-uncoated' }, expect: { says: ['Photograph so that no page can be read.'] } },
  { source: '4c: S69, S72, S31', what: 'a frost-free freezer', observed: { materialClass: 'book-bound' }, expect: { says: ['A frost-free freezer slowly dries what lies in it, over weeks to months.'] } },
];

/** Care guidance, section 1c, row by row. */
export const PHOTOGRAPH_ROWS: readonly Row[] = [
  {
    row: '1c wet collodion', source: 'NEDCC 3.7 (S20); Hendriks & Lesser as reported (S70); 2 h ours', what: 'a tintype', observed: { materialClass: 'photo-collodion-or-tintype' },
    expect: { startByHours: 2, binding: 'image-loss', open: ['treat', 'refer'], routes: { treat: AIR_DRIED }, says: ['Never freeze or freeze-dry it.', 'Never leave it to soak.'] },
  },
  {
    row: '1c daguerreotypes', source: 'from memory', what: 'a daguerreotype', observed: { materialClass: 'photo-daguerreotype' },
    expect: { startByHours: 2, open: ['refer', 'treat'], routes: { treat: AIR_DRIED }, says: ['Never touch or wipe the plate.', 'Never freeze it.', 'Daguerreotype or cased photograph: stop, keep it face up and untouched, ask a conservator.'] },
  },
  {
    row: '1c gelatin plates, lantern slides', source: 'NEDCC 3.7 (S20); Texas (S30); upright from memory', what: 'a gelatin glass negative', observed: { materialClass: 'photo-glass-plate-gelatin' },
    expect: { startByHours: 2, open: ['refer', 'treat'], says: ['Never freeze glass plates.', 'Upright, padded, wet until the conservator takes over.'] },
  },
  {
    row: '1c gelatin plates, lantern slides', source: 'NEDCC 3.7 (S20); Texas (S30)', what: 'an autochrome', observed: { materialClass: 'photo-lantern-slide-or-autochrome' },
    expect: { startByHours: 2, binding: 'image-loss', open: ['refer', 'treat'], routes: { treat: AIR_DRIED }, says: ['Never freeze a lantern slide or autochrome.'] },
  },
  { row: '1c albumen', source: 'Louisiana (S8)', what: 'a card portrait', observed: { materialClass: 'photo-albumen' }, expect: { startByHours: 48, open: ['treat', 'hold-frozen', 'refer'], routes: { treat: AIR_DRIED }, says: ['Never touch the binder with bare hands.'] } },
  { row: '1c collodion prints', source: 'Louisiana (S8)', what: 'a collodion print', observed: { materialClass: 'photo-collodion-print' }, expect: { startByHours: 48, open: ['treat', 'hold-frozen', 'refer'], routes: { treat: AIR_DRIED }, says: ['Never rub a collodion print.'] } },
  { row: '1c silver gelatin', source: 'Louisiana (S8); NLM (S23)', what: 'a black-and-white portrait', observed: { materialClass: 'photo-silver-gelatin' }, expect: { startByHours: 48, open: ['treat', 'hold-frozen', 'refer'], routes: { treat: RINSED }, says: ['Never dry it by thermal vacuum drying.'] } },
  {
    row: '1c silver gelatin', source: 'NEDCC 3.7 (S20), first group; no rinse ours', what: 'peeling gelatin', observed: { materialClass: 'photo-gelatin-deteriorated' },
    expect: { startByHours: 2, binding: 'image-loss', open: ['refer', 'hold-frozen', 'treat'], routes: { treat: AIR_DRIED }, says: ['Never rinse soft or peeling gelatin.'] },
  },
  {
    row: '1c carbon prints', source: 'Louisiana (S8); NEDCC (S20)', what: 'a woodburytype', observed: { materialClass: 'photo-carbon-or-woodburytype' },
    expect: { startByHours: 2, binding: 'image-loss', open: ['hold-frozen', 'treat', 'refer'], says: ['Never touch the swollen face of a carbon print.', 'Pack it lying flat.'] },
  },
  {
    row: '1c chromogenic colour', source: 'NLM (S23); AIC wiki (S21); cold rinse for colour from memory', what: 'a colour print', observed: { materialClass: 'photo-colour-print' },
    expect: { startByHours: 48, open: ['treat', 'hold-frozen', 'refer'], routes: { treat: RINSED }, says: ['Never let prints touch while drying.', 'Never touch the image side while it is wet.', 'Cold clean water, face up, never rubbed; out as soon as the dirt is gone; stop if the picture runs or lifts.', 'Keep wet until its turn: small batches, bag inside a box, no pressure.'], silentOn: ['Never touch the picture side.'], reasons: ['photo.freezer-wet-salvage'] },
  },
  {
    row: '1c inkjet', source: 'AIC wiki (S21); IPI (S78); no rinsing from memory', what: 'an inkjet print', observed: { materialClass: 'photo-inkjet-or-digital-print' },
    expect: { startByHours: 2, binding: 'image-loss', open: ['treat', 'refer'], routes: { treat: AIR_DRIED }, says: ['Never rinse or soak a digital print of unknown kind.', 'Face up, one layer.', 'Never freeze a digital print without advice.'] },
  },
  { row: '1c film in good condition', source: 'CERF+ (S29); FEMA 2017 (S31); AIC wiki (S21)', what: 'a strip of negatives', observed: { materialClass: 'film-negative' }, expect: { startByHours: 48, open: ['treat', 'hold-frozen', 'refer'], routes: { treat: RINSED }, says: ['The base creases and scratches: edges only, hang by clips.'] } },
  { row: '1c film in good condition', source: 'NEDCC 3.7 (S20): prints before film in general', what: 'negatives beside prints', observed: { materialClass: 'film-negative' }, expect: { says: ['Where hands are scarce, prints come before film in good condition.'] } },
  { row: '1c film in good condition', source: 'S29; S31; S21', what: 'a box of slides', observed: { materialClass: 'film-transparency' }, expect: { startByHours: 48, open: ['treat', 'hold-frozen', 'refer'], routes: { treat: RINSED }, says: ['The base creases and scratches: edges only, hang by clips.'] } },
  {
    row: '1c deteriorated nitrate', source: 'NEDCC 3.7 (S20); isolation from memory', what: 'sticky nitrate film', observed: { materialClass: 'film-nitrate-deteriorated' },
    expect: { startByHours: 2, binding: 'image-loss', open: ['refer', 'hold-frozen'], says: ['Never warm it or keep it with other things.', 'Nitrate film: stop, isolate, no heat or flame, call the competent authority.', 'the competent authority’s agreement to freeze nitrate film'] },
  },
  { row: '1c deteriorated nitrate', source: 'NEDCC 3.7 (S20): deteriorated safety film goes early; freezing ours', what: 'buckled acetate film', observed: { materialClass: 'film-safety-deteriorated' }, expect: { startByHours: 2, binding: 'image-loss', open: ['refer', 'hold-frozen'], says: ['Never rinse deteriorated film.'] } },
  {
    row: '1c stuck together', source: 'FEMA 2017 (S31); freezing from memory; 6 h ours', what: 'a block of prints', observed: { materialClass: 'photo-stuck-together' },
    expect: { startByHours: 6, binding: 'blocking', open: ['hold-frozen', 'hold-wet', 'refer'], says: ['Never pull them apart.', 'Clean cold water, for as short a time as can be.'] },
  },
  {
    row: '1c film rolls', source: 'from memory', what: 'a reel of home movies', observed: { materialClass: 'film-roll', mould: 'none' },
    expect: {
      startByHours: 48, binding: 'blocking', open: ['refer', 'hold-wet'],
      says: ['Never let a roll dry in its coil.', 'Whole roll under cold clean water, on its way to a laboratory within 48 hours.', 'Wet film or microfilm roll: keep it under cold clean water, ask a film laboratory for re-washing within two days.', 'Never freeze a roll of film at home or in the hall.'],
    },
  },
  {
    source: 'own: the cautious side of every process', what: 'a photograph nobody can name', observed: { materialClass: 'photo-unknown-process' },
    expect: { startByHours: 2, binding: 'image-loss', open: ['refer', 'treat'], routes: { treat: ['assess', ...AIR_DRIED] }, says: ['Never rinse, rub or freeze a photograph of unknown process.', 'What is it on: glass, metal, paper or plastic? Look at its edges; do not wet it to find out.'] },
  },
  {
    source: 'AIC wiki (S21); NLM (S23)', what: 'any wet photograph', observed: { materialClass: 'photo-albumen' },
    expect: { says: ['Never touch the image side while it is wet.', 'By the edges only, even gloved.', 'Air dry face up, one layer, nothing touching.', 'Anything that could touch the image side.'] },
  },
  { source: 'own, after the digital-print rule', what: 'a colour print whose image runs', observed: { materialClass: 'photo-colour-print', alreadyBled: true }, expect: { startByHours: 2, bath: 'alone', routes: { treat: AIR_DRIED } } },
  { source: 'photo advice quoting AIC (S86)', what: 'a print without a negative', observed: { materialClass: 'photo-albumen', onlyCopy: true }, expect: { says: ['Perhaps the only copy: care for it before those with a negative.'] } },
];
